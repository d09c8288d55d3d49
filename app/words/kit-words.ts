import type { KitId, KitNeeds } from '../../src/moves/move.ts';

/** One piece and several, as they are asked for in a hall. */
const KIT_NAMES: Readonly<Record<KitId, readonly [string, string]>> = {
  mat: ['mat', 'mats'],
  band: ['band', 'bands'],
  loopBand: ['loop band', 'loop bands'],
  bandHook: ['place to hook a band', 'places to hook a band'],
  handWeight: ['hand weight', 'hand weights'],
  step: ['step', 'steps'],
  chair: ['chair', 'chairs'],
  wall: ['free wall', 'free walls'],
  rope: ['rope', 'ropes'],
  floorLine: ['line on the floor', 'lines on the floor'],
};

/** "band", "2 hand weights". */
export function pieceText(kit: KitId, count: number): string {
  const [one, several] = KIT_NAMES[kit];
  return count === 1 ? one : `${count} ${several}`;
}

/** Needs in the order in which they are named, pieces first; counts of nothing are left out. */
export function piecesOf(needs: KitNeeds): readonly { readonly kit: KitId; readonly count: number }[] {
  return KIT_IDS.map((kit) => ({ kit, count: needs[kit] ?? 0 })).filter(({ count }) => count > 0);
}

/** "mat, 2 hand weights"; empty for no kit. */
export function kitText(needs: KitNeeds): string {
  return piecesOf(needs)
    .map(({ kit, count }) => pieceText(kit, count))
    .join(', ');
}

const KIT_IDS: readonly KitId[] = [
  'mat',
  'band',
  'loopBand',
  'bandHook',
  'handWeight',
  'step',
  'chair',
  'rope',
  'floorLine',
  'wall',
];
