import type { FigureView } from '../../src/class-run/hall-values.ts';
import type { Side } from '../../src/running-order/span.ts';
import { pieceText } from './kit-words.ts';

const SIDES: Readonly<Record<Side, string>> = {
  left: 'left side',
  right: 'right side',
  both: '',
  alternating: 'side to side',
  forward: 'forward',
  reverse: 'the other way',
};

/** What is said of a coming move: "Other side", or "Next: squat, left side, with the band". */
export function nameLine({ name, side, half, kit }: FigureView): string {
  if (half === 'second') return side === 'reverse' ? 'Now the other way' : 'Other side';
  const tools = kit.map((one) => pieceText(one.kit, one.count)).join(' and ');
  return [`Next: ${name}`, SIDES[side], tools === '' ? '' : `with ${tools}`].filter((part) => part !== '').join(', ');
}
