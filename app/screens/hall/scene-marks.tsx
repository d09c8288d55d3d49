import type { FigureView, NextView } from '../../../src/class-run/hall-values.ts';

/** Two pads by the figure: the one of the side in use is filled; alternating fills and joins both. */
export function SideMark({ figure }: { readonly figure: FigureView }) {
  const { side } = figure;
  if (side === 'reverse') return <TurnBack />;
  if (side === 'both' || side === 'forward') return null;
  const isBoth = side === 'alternating';
  return (
    <div class={isBoth ? 'pads joined' : 'pads'} data-side={side} aria-hidden="true">
      <span class={isBoth || side === 'left' ? 'pad filled' : 'pad'} />
      <span class={isBoth || side === 'right' ? 'pad filled' : 'pad'} />
    </div>
  );
}

/** The other direction: a U-turn lying on the floor. */
function TurnBack() {
  return (
    <svg class="turn-back" viewBox="0 0 72 72" aria-hidden="true">
      <path d="M62 66V34a20 20 0 0 0-40 0v8" fill="none" stroke="var(--ink)" stroke-width="12" />
      <path d="M2 38h40L22 68z" fill="var(--ink)" />
    </svg>
  );
}

/** Everyone gets up: an arrow that leaves the floor. Down: one that meets it. */
export function TurnArrow({ turn }: { readonly turn: NextView['turn'] }) {
  if (turn === 'stay') return null;
  return (
    <svg class="turn-arrow" data-turn={turn} viewBox="0 0 48 120" aria-hidden="true">
      <path d={turn === 'up' ? 'M18 120V44H0L24 0l24 44H30v76z' : 'M18 0v76H0l24 44 24-44H30V0z'} fill="var(--ink)" />
    </svg>
  );
}

/** Squares stop being counted at a glance from here on. */
const MOST_SQUARES = 6;

/** Rounds filled up to this one; in the last one square is left. Too many for a glance are written out. */
export function Rounds({
  round,
  rounds,
  text,
}: {
  readonly round: number;
  readonly rounds: number;
  readonly text: string;
}) {
  if (rounds < 2 || round < 1) return null;
  const isLast = round === rounds;
  const squares = isLast ? [round] : Array.from({ length: rounds }, (_, index) => index + 1);
  return (
    <p class="rounds">
      <span class="spoken-only">{text}</span>
      {rounds > MOST_SQUARES && !isLast ? (
        <span aria-hidden="true">
          {round} / {rounds}
        </span>
      ) : (
        squares.map((one) => <span key={one} class={one <= round ? 'square filled' : 'square'} aria-hidden="true" />)
      )}
    </p>
  );
}

/** The floor down to the lower option: a landing, and a ramp up to where the main figure stands. */
export function Ramp() {
  return (
    <>
      <span class="landing" aria-hidden="true" />
      <svg class="ramp" viewBox="0 0 36 36" preserveAspectRatio="none" aria-hidden="true">
        <path d="M0 24L36 0V12L0 36z" fill="var(--ink)" />
      </svg>
    </>
  );
}
