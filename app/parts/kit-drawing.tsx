import { frameOf } from '../../src/figures/frame.ts';
import { drawKit } from '../../src/figures/kit.ts';
import type { KitId } from '../../src/moves/move.ts';
import { Drawing } from './drawing.tsx';

/** A piece of kit standing on the bottom edge of its box, at natural size unless a height in CSS px is given. */
export function KitDrawing({ kit, height }: { readonly kit: KitId; readonly height?: number | undefined }) {
  const drawing = drawKit(kit);
  const frame = frameOf(drawing, 0);
  const scale = (height ?? frame.height) / frame.height;
  return (
    <svg
      class="kit-drawing"
      width={frame.width * scale}
      height={frame.height * scale}
      viewBox={`${frame.x} ${frame.y} ${frame.width} ${frame.height}`}
      aria-hidden="true"
      data-kit={kit}
    >
      <Drawing strokes={drawing.strokes} casing={0} />
    </svg>
  );
}
