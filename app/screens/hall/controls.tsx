import { useComputed } from '@preact/signals';
import { useCallback } from 'preact/hooks';
import type { Status } from '../../../src/class-run/class-state.ts';
import type { HallView } from '../../../src/class-run/hall-view.ts';
import type { Timers } from '../../../src/ports/clocks.ts';
import type { HallAsk, LiveClass } from '../../live/live-contract.ts';
import { ASK_NAMES } from '../../words/hall-words.ts';
import type { Hold } from './hold.ts';
import { HoldButton } from './hold-button.tsx';

type Pressed = Exclude<HallAsk, 'press' | 'finish' | 'abandon' | 'start'>;

/** What makes sense in a condition of the class, most wanted first. */
const ASKS: Readonly<Partial<Record<Status, readonly Pressed[]>>> = {
  running: ['pause', 'nextMove', 'goBackOne', 'tenMore', 'dropMove', 'hurt'],
  paused: ['carryOn', 'nextMove', 'goBackOne', 'tenMore', 'dropMove', 'hurt'],
  waiting: ['carryOn', 'nextMove', 'goBackOne', 'pause', 'dropMove', 'hurt'],
};

/** The place in the scene of each; `pause` and `carryOn` share theirs, and at a wait point pausing is second to going on. */
const placeOf = (ask: Pressed, status: Status): string =>
  ask === 'carryOn' || (ask === 'pause' && status === 'running')
    ? 'at-first'
    : ask === 'pause'
      ? 'at-tenMore'
      : `at-${ask}`;

type ControlsProps = {
  readonly live: LiveClass;
  readonly timers: Timers;
  readonly lendFinish: (hold: Hold | null) => void;
};

/** Every intent as a button: small to look at, at least 64 px to hit, and never over a figure or a digit. */
export function Controls({ live, timers, lendFinish }: ControlsProps) {
  const status = useComputed(() => live.view.value.status).value;
  const canLower = useComputed(() => hasLower(live.view.value)).value;
  const canGoBack = useComputed(() => live.facts.value.away !== null).value;
  const finish = useCallback(() => live.ask('finish'), [live]);
  const abandon = useCallback(() => live.ask('abandon'), [live]);
  return (
    <div class="controls">
      {(ASKS[status] ?? []).map((ask) => (
        <Control key={ask} ask={ask} place={placeOf(ask, status)} live={live} />
      ))}
      {canLower && <Control ask="lowerForAll" place="at-lowerForAll" live={live} />}
      <HoldButton name={ASK_NAMES.finish} place="at-finish" timers={timers} onHeld={finish} lend={lendFinish} />
      {status === 'paused' && (
        <HoldButton name={ASK_NAMES.abandon} place="at-abandon" timers={timers} onHeld={abandon} />
      )}
      {canGoBack && <Control ask="goBackToStop" place="at-goBackToStop" live={live} />}
    </div>
  );
}

/** There is a lower option, or one is shown and the next press leads back to the move as planned. */
function hasLower({ lower, level }: HallView): boolean {
  return lower !== null || level > 0;
}

type ControlProps = { readonly ask: Pressed; readonly place: string; readonly live: Pick<LiveClass, 'ask'> };

/** One button that asks. */
function Control({ ask, place, live }: ControlProps) {
  return (
    <button type="button" class={`control ${place}`} onClick={() => live.ask(ask)}>
      <span class="control-name">{ASK_NAMES[ask]}</span>
    </button>
  );
}
