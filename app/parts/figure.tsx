import { useMemo } from 'preact/hooks';
import { drawPose } from '../../src/figures/draw.ts';
import { casingAt, frameOf, scaleIn } from '../../src/figures/frame.ts';
import { poseOf } from '../../src/figures/poses.ts';
import type { FigureId } from '../../src/moves/move.ts';
import type { Side } from '../../src/running-order/span.ts';
import { Drawing } from './drawing.tsx';

/** A box in CSS px. Without it the style sheet gives `.figure` its size, and the casing is that of small figures. */
type FigureBox = { readonly width: number; readonly height: number };

type FigureProps = {
  readonly figure: FigureId;
  readonly box?: FigureBox | undefined;
  /** The side in use: on `left` and `right` the working limbs alone stay ink. */
  readonly working?: Side | undefined;
  /** Faces right instead of left; by itself when `working` is `right` or `reverse`. */
  readonly mirrored?: boolean | undefined;
};

/** A pose standing with its soles on the bottom edge of its box. For eyes only: the name stands beside it as words. */
export function Figure({ figure, box, working, mirrored }: FigureProps) {
  const isOneSided = working === 'left' || working === 'right';
  const isMirrored = mirrored ?? (working === 'right' || working === 'reverse');
  const drawing = useMemo(() => drawPose(poseOf(figure), isOneSided), [figure, isOneSided]);
  const frame = frameOf(drawing);
  const casing = casingAt(box === undefined ? 0 : scaleIn(frame, box.width, box.height));
  const turned = `matrix(-1 0 0 1 ${2 * frame.x + frame.width} 0)`;
  return (
    <svg
      class="figure"
      {...box}
      viewBox={`${frame.x} ${frame.y} ${frame.width} ${frame.height}`}
      preserveAspectRatio="xMidYMax meet"
      aria-hidden="true"
      data-figure={figure}
    >
      <g transform={isMirrored ? turned : undefined}>
        <Drawing strokes={drawing.strokes} casing={casing} />
      </g>
    </svg>
  );
}
