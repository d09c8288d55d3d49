/** Of Fira Sans Condensed at 700: the height of a digit and the width of a tabular one, in parts of the size. */
const DIGIT_HEIGHT = 0.689;
const DIGIT_WIDTH = 0.504;

type BigDigitsProps = { readonly text: string; readonly className: string; readonly isHollow?: boolean };

/** Digits that stand with their feet on whatever is below, `height` of them filling the box. For eyes only. */
export function BigDigits({ text, className, isHollow = false }: BigDigitsProps) {
  const height = 100;
  const size = height / DIGIT_HEIGHT;
  const width = Math.round(text.length * DIGIT_WIDTH * size);
  return (
    <svg class={className} viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      <text
        x={width}
        y={height}
        text-anchor="end"
        textLength={width}
        lengthAdjust="spacingAndGlyphs"
        font-size={size}
        font-weight="700"
        fill={isHollow ? 'var(--field)' : 'var(--ink)'}
        stroke={isHollow ? 'var(--ink)' : 'none'}
        stroke-width="3"
        // The room below the feet belongs to the text too, and would take the presses of what lies there.
        pointer-events="none"
      >
        {text}
      </text>
    </svg>
  );
}
