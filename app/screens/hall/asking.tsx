import { useCallback } from 'preact/hooks';
import type { Timers } from '../../../src/ports/clocks.ts';
import type { LiveClass } from '../../live/live-contract.ts';
import { ASK_NAMES, awayText } from '../../words/hall-words.ts';
import { HoldButton } from './hold-button.tsx';

type AskingProps = { readonly live: LiveClass; readonly timers: Timers };

/** The clock rule will not decide on a gap: the class stands where it was last seen, and the instructor says what was. */
export function Asking({ live, timers }: AskingProps) {
  const { gapMs } = live.facts.value;
  const finish = useCallback(() => live.ask('finish'), [live]);
  const abandon = useCallback(() => live.ask('abandon'), [live]);
  return (
    <section class="hall-page asking">
      <h1>{questionOf(gapMs)}</h1>
      <p class="asking-why">The class stands where the phone last saw it.</p>
      <div class="asking-answers">
        <div>
          <button type="button" class="ink-button" onClick={() => live.ask('carryOn')}>
            {ASK_NAMES.carryOn}
          </button>
          <p>from where it stopped, after a count-in</p>
        </div>
        <div>
          <button type="button" onClick={() => live.ask('ranOn')}>
            {ASK_NAMES.ranOn}
          </button>
          <p>to where the class is by now</p>
        </div>
        <HoldButton name={ASK_NAMES.finish} place="wide" timers={timers} onHeld={finish} />
        <HoldButton name={ASK_NAMES.abandon} place="wide" timers={timers} onHeld={abandon} />
      </div>
    </section>
  );
}

function questionOf(gapMs: number | null): string {
  if (gapMs === null) return 'The phone was away. Did the class go on?';
  if (gapMs < 0) return 'The phone’s clock went back. Did the class go on?';
  return `The phone was away for ${awayText(gapMs)}. Did the class go on?`;
}
