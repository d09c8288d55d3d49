import { computed, type ReadonlySignal, useComputed } from '@preact/signals';
import { useCallback, useEffect, useMemo, useRef } from 'preact/hooks';
import type { HallView } from '../../../src/class-run/hall-view.ts';
import type { Clocks, Timers } from '../../../src/ports/clocks.ts';
import type { LiveClass } from '../../live/live-contract.ts';
import { STATUS_TEXTS } from '../../words/hall-words.ts';
import { Asking } from './asking.tsx';
import { BeforeClass, type BeforeClassProps } from './before-class.tsx';
import { Controls } from './controls.tsx';
import { Digits } from './digits.tsx';
import { Ended } from './ended.tsx';
import type { Field } from './field.ts';
import { followField } from './field-latch.ts';
import { FloorLine } from './floor-line.tsx';
import type { HallChoices } from './hall-choices.ts';
import type { Hold } from './hold.ts';
import { Hurt } from './hurt.tsx';
import { InstructorStrip } from './instructor-strip.tsx';
import { OtherWindow } from './other-window.tsx';
import { listenForKeys } from './remote-keys.ts';
import { Scene } from './scene.tsx';
import './hall.css';
import './stage.css';
import './controls.css';
import './pages.css';

export type HallProps = BeforeClassProps & {
  readonly monoClock: Pick<Clocks, 'monoMs'>;
  readonly timers: Timers;
  /** Of the class that runs or ran; null where nothing is kept. */
  readonly recordId: string | null;
  /** From the end of a rehearsal back to ready. */
  readonly onReadyAgain: () => void;
  /** Takes the class back from another window; null where that cannot be. */
  readonly onRunHere: (() => void) | null;
};

/** The hall: the one screen of a class, from before its start to after its end. */
export function Hall(props: HallProps) {
  const { live, choices, monoClock, timers } = props;
  const latch = useMemo(() => followField(live.view, monoClock, timers), [live, monoClock, timers]);
  useEffect(() => latch.stop, [latch]);
  const finishHold = useRef<Hold | null>(null);
  useEffect(() => keysInto(live, finishHold), [live]);
  const screen = useComputed(() => screenOf(live)).value;
  const surface = useMemo(() => surfaceOf(live), [live]);
  const status = useComputed(() => STATUS_TEXTS[live.view.value.status]);
  return (
    <main
      class={hallClass(latch.field.value, choices)}
      data-hall=""
      data-field={latch.field}
      data-screen={screen}
      {...surface}
    >
      <p class="spoken-only" role="status">
        {status}
      </p>
      {screen === 'stage' ? <Stage {...props} finishHold={finishHold} /> : <Page {...props} screen={screen} />}
    </main>
  );
}

/** Which of its faces the hall shows. */
type HallScreen = 'before' | 'stage' | 'asking' | 'hurt' | 'ended' | 'elsewhere';

function screenOf({ view, facts }: Pick<LiveClass, 'view' | 'facts'>): HallScreen {
  const { status, standing } = view.value;
  if (facts.value.keeping === 'fenced') return 'elsewhere';
  if (status === 'ready') return 'before';
  if (status === 'finished' || status === 'abandoned') return 'ended';
  if (standing?.cause === 'hurt') return 'hurt';
  return status === 'asking' ? 'asking' : 'stage';
}

/** What anyone's tests hold on to, bound so that a change of a second draws nothing again. */
function surfaceOf({ view, keptSeq }: LiveClass): Record<string, ReadonlySignal<string>> {
  const of = (pick: (view: HallView) => string | number | null) => computed(() => String(pick(view.value) ?? ''));
  return {
    'data-status': of(({ status }) => status),
    'data-kind': of(({ kind }) => kind),
    'data-span': of(({ spanId }) => spanId),
    'data-moves': of(({ moveIds }) => moveIds.join(' ')),
    'data-side': of(({ side }) => side),
    'data-left': of(({ leftSeconds }) => leftSeconds),
    'data-kept': computed(() => String(keptSeq.value ?? '')),
  };
}

function hallClass(field: Field, { steadyField, softLight }: HallChoices): string {
  const isDark = field === 'dark' && !steadyField;
  return [
    'hall',
    isDark ? 'field-dark' : 'field-light',
    softLight && !isDark ? 'field-soft' : '',
    steadyField ? 'steady' : '',
  ]
    .filter((name) => name !== '')
    .join(' ');
}

function keysInto(live: LiveClass, finishHold: { readonly current: Hold | null }): () => void {
  const place = () => {
    const { status, standing } = live.view.peek();
    return { status, isHurt: standing?.cause === 'hurt' };
  };
  return listenForKeys(document, place, {
    ask: live.ask,
    holdFinish: { press: () => finishHold.current?.press(), release: () => finishHold.current?.release() },
  });
}

type StageProps = Pick<HallProps, 'live' | 'timers' | 'clock'> & { readonly finishHold: { current: Hold | null } };

/** The class while it runs: floor, figures, digits, and small beside them what the instructor needs. */
function Stage({ live, timers, clock, finishHold }: StageProps) {
  const lendFinish = useCallback(
    (hold: Hold | null) => {
      finishHold.current = hold;
    },
    [finishHold],
  );
  return (
    <div class="stage">
      <InstructorStrip live={live} clock={clock} />
      <Scene live={live} />
      <Digits live={live} />
      <FloorLine live={live} />
      <Controls live={live} timers={timers} lendFinish={lendFinish} />
    </div>
  );
}

function Page(props: HallProps & { readonly screen: Exclude<HallScreen, 'stage'> }) {
  const { live, plan, card, clock, timers, recordId, onRunHere, onReadyAgain } = props;
  switch (props.screen) {
    case 'before':
      return <BeforeClass {...props} />;
    case 'asking':
      return <Asking live={live} timers={timers} />;
    case 'hurt':
      return <Hurt live={live} card={card} clock={clock} />;
    case 'ended':
      return (
        <Ended
          planName={plan.name}
          view={live.view.value}
          recordId={recordId}
          onReadyAgain={live.isRehearsal ? onReadyAgain : null}
        />
      );
    case 'elsewhere':
      return <OtherWindow onRunHere={onRunHere} />;
  }
}
