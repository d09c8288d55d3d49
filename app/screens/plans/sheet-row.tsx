import { Figure } from '../../parts/figure.tsx';
import type { Piece, SheetRow as Row } from './sheet-rows.ts';

/** Where a row's own floor begins; what lies left of it is the end of the floor before. */
const START_PX = 40;
const PX_A_SECOND = 2;

/** One entry on its own floor: 2 px a second, the time that leads into it as a gap. */
export function SheetRow({ row }: { readonly row: Row }) {
  return (
    <li class="sheet-row">
      <div class="sheet-stage">
        <span class="sheet-lead">{leadText(row.leadSeconds)}</span>
        {row.figure !== null && <Figure figure={row.figure} />}
        <div class="sheet-words">
          <p class="sheet-name">{row.name}</p>
          <p class="sheet-seconds">
            {row.secondsText}
            <span class="spoken-only"> seconds</span>
          </p>
          {row.lower !== '' && (
            <p class="sheet-lower">
              <RampDown />
              <span class="spoken-only">lower: </span>
              {row.lower}
            </p>
          )}
        </div>
        <RowFloor row={row} />
      </div>
      {row.details.length > 0 && <p class="sheet-under quiet">{row.details.join(' · ')}</p>}
    </li>
  );
}

function leadText(seconds: number) {
  if (seconds === 0) return <span class="spoken-only">straight in</span>;
  return (
    <>
      {seconds}
      <span class="spoken-only"> seconds to get there</span>
    </>
  );
}

/** The floor going down to the easier way, as in the hall. */
function RampDown() {
  return (
    <svg class="sheet-ramp" width="32" height="14" viewBox="0 0 32 14" aria-hidden="true">
      <path d="M0 3h8l12 8h12" fill="none" stroke="currentColor" stroke-width="3" />
    </svg>
  );
}

function RowFloor({ row }: { readonly row: Row }) {
  const stubPx = Math.max(0, START_PX - row.leadSeconds * PX_A_SECOND);
  const isGate = row.pieces.some((piece) => piece.does === 'open');
  return (
    <svg class="sheet-floor" width="100%" height="16" aria-hidden="true">
      <rect class="sheet-floor-line" width={stubPx} height="2" />
      <rect class="sheet-floor-line" x={START_PX} width={isGate ? startOf(row.pieces, 1) : '100%'} height="2" />
      {row.pieces.map((piece, index) => (
        <FloorPiece key={`${index}-${piece.does}`} piece={piece} fromPx={START_PX + startOf(row.pieces, index)} />
      ))}
    </svg>
  );
}

function startOf(pieces: readonly Piece[], index: number): number {
  return pieces.slice(0, index).reduce((sum, piece) => sum + piece.seconds * PX_A_SECOND, 0);
}

function FloorPiece({ piece, fromPx }: { readonly piece: Piece; readonly fromPx: number }) {
  if (piece.does === 'gap') return null;
  const lengthPx = piece.seconds * PX_A_SECOND;
  // The floor ends at a gate post, as in the hall: nobody knows how long it takes.
  if (piece.does === 'open') return <rect class="sheet-gate" x={fromPx + lengthPx} y="-38" width="12" height="54" />;
  return <rect class={`sheet-piece-${piece.does}`} x={fromPx} y="4" width={lengthPx} height="12" />;
}
