import type { FigureView } from '../../../src/class-run/hall-values.ts';
import { frameOf } from '../../../src/figures/frame.ts';
import { drawKit } from '../../../src/figures/kit.ts';
import { KitDrawing } from '../../parts/kit-drawing.tsx';
import { pieceText } from '../../words/kit-words.ts';

/** More pieces than this would be too small to tell apart; the voice and the plan name the rest. */
const MOST_PIECES = 3;

/** Kit to fetch, side by side on the floor, at the size that the scene has. */
export function KitPile({ kit }: { readonly kit: FigureView['kit'] }) {
  return (
    <ul class="kit">
      {kit.slice(0, MOST_PIECES).map(({ kit: piece, count }) => (
        <li key={piece} class="kit-piece" style={sizeOf(piece)}>
          {count > 1 && <span aria-hidden="true">{count}</span>}
          <KitDrawing kit={piece} />
          <span class="spoken-only">{pieceText(piece, count)}</span>
        </li>
      ))}
    </ul>
  );
}

/** The drawing's own size in px of the design; the style sheet scales it with the scene. */
function sizeOf(piece: FigureView['kit'][number]['kit']): Record<string, string> {
  const { width, height } = frameOf(drawKit(piece), 0);
  return { '--kit-width': String(width), '--kit-height': String(height) };
}
