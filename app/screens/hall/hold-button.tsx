import { useEffect, useMemo, useState } from 'preact/hooks';
import type { Timers } from '../../../src/ports/clocks.ts';
import { HOLD_HINT } from '../../words/hall-words.ts';
import { type Hold, holdFor } from './hold.ts';

type HoldButtonProps = {
  readonly name: string;
  readonly place: string;
  readonly timers: Timers;
  readonly onHeld: () => void;
  /** Hands the hold to whoever else may press it, such as a remote key. */
  readonly lend?: (hold: Hold | null) => void;
};

const isPressKey = (event: KeyboardEvent): boolean => event.key === ' ' || event.key === 'Enter';

/** A button that does nothing before it was held for a second; a short press says so. */
export function HoldButton({ name, place, timers, onHeld, lend }: HoldButtonProps) {
  const [isHeld, setHeld] = useState(false);
  const [isShort, setShort] = useState(false);
  const hold = useMemo(
    () =>
      holdFor(timers, {
        done: onHeld,
        short: () => setShort(true),
        change: (held) => {
          setHeld(held);
          if (held) setShort(false);
        },
      }),
    [timers, onHeld],
  );
  useEffect(() => {
    lend?.(hold);
    return () => {
      lend?.(null);
      hold.release();
    };
  }, [hold, lend]);
  const onDown = (event: KeyboardEvent): void => {
    if (!isPressKey(event) || event.repeat) return;
    event.preventDefault();
    hold.press();
  };
  return (
    <button
      type="button"
      class={`control hold ${place}`}
      // The hint below is not part of the name.
      aria-label={name}
      data-held={isHeld ? '' : undefined}
      onPointerDown={hold.press}
      onPointerUp={hold.release}
      onPointerLeave={hold.release}
      onPointerCancel={hold.release}
      onBlur={hold.release}
      onKeyDown={onDown}
      onKeyUp={(event) => isPressKey(event) && hold.release()}
      // A press without a finger or a key, as screen readers make it, can only be told how.
      onClick={(event) => event.detail === 0 && setShort(true)}
      // A long press would open the menu of the browser over the class.
      onContextMenu={(event) => event.preventDefault()}
    >
      <span class="control-name">{name}</span>
      {isShort && !isHeld && (
        <span class="hold-hint" role="status">
          {HOLD_HINT}
        </span>
      )}
    </button>
  );
}
