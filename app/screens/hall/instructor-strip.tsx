import { useComputed } from '@preact/signals';
import type { HallView } from '../../../src/class-run/hall-view.ts';
import type { LiveClass } from '../../live/live-contract.ts';
import { missingTexts } from '../../words/fact-words.ts';
import { lateText, refusalText, STATUS_TEXTS, waitText } from '../../words/hall-words.ts';
import { lineSize, lineToSay } from './line-to-say.ts';
import { useSteady } from './steady-signal.ts';

/** How instants of a wall clock are written where the hall is, "18:05". */
export type TimeOfDay = (wallMs: number) => string;

/** The two clocks an instructor reads: now, and when the class ends as things stand. Wall ms. */
export type HallClock = { readonly wallMs: () => number; readonly timeOfDay: TimeOfDay };

type StripProps = { readonly live: LiveClass; readonly clock: HallClock };

/** For whoever stands close by: the one line to say, the time, and quietly what is missing. */
export function InstructorStrip({ live, clock }: StripProps) {
  return (
    <>
      <Line live={live} />
      <Times live={live} clock={clock} />
      <Notices live={live} />
    </>
  );
}

function Line({ live }: Pick<StripProps, 'live'>) {
  const line = useSteady(live.view, shownLine);
  return (
    <p class="line-to-say" data-size={lineSize(line)}>
      {line}
    </p>
  );
}

function shownLine(view: HallView): string {
  if (view.status === 'paused') return STATUS_TEXTS.paused;
  return view.status === 'waiting' ? waitText(view) : lineToSay(view.line);
}

/** Drawn again when a minute has passed or the finish moved, not at every look. */
function Times({ live, clock }: StripProps) {
  const times = useComputed(() => {
    const { atMs, finishAtMs, lateMs } = live.view.value;
    const nowMs = clock.wallMs();
    const ends = clock.timeOfDay(nowMs + (finishAtMs - atMs) / live.rate);
    return `${clock.timeOfDay(nowMs)}, ends ${ends}|${lateText(lateMs)}`;
  });
  const [now = '', late = ''] = times.value.split('|');
  return (
    <div class="times">
      <p>{now}</p>
      {late !== '' && <p>{late}</p>}
    </div>
  );
}

function Notices({ live }: Pick<StripProps, 'live'>) {
  const refusal = refusalText(live.refused.value);
  const [first = '', ...more] = [refusal, ...missingTexts(live.facts.value)].filter((text) => text !== '');
  return (
    <p class="notices" role="status">
      {first}
      {more.length > 0 && <span class="more"> · {more.join(' · ')}</span>}
    </p>
  );
}
