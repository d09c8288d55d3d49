import type { FigureView, NextView } from '../../../src/class-run/hall-values.ts';
import type { HallView } from '../../../src/class-run/hall-view.ts';
import { drawPose } from '../../../src/figures/draw.ts';
import { frameOf } from '../../../src/figures/frame.ts';
import { poseOf } from '../../../src/figures/poses.ts';
import type { FigureId, Position } from '../../../src/moves/move.ts';

/** Ids of a running order count from 0, and a class begins with its count-in. */
const FIRST_SPAN = 0;

/** All of a view that stands in the scene; changes at most a few times in a span. */
export type SceneValues = Pick<
  HallView,
  'status' | 'kind' | 'main' | 'lower' | 'level' | 'words' | 'gate' | 'forSome' | 'milestone' | 'round' | 'rounds'
> & {
  /** Only once the tens place is free. */
  readonly next: NextView | null;
  /** Kit to be fetched for what comes. */
  readonly kit: FigureView['kit'];
  readonly isPaused: boolean;
  readonly isFirstCount: boolean;
};

const LEADS_IN: ReadonlySet<HallView['kind']> = new Set(['countIn', 'changeover', 'breather', 'wait']);
const ON_THE_FLOOR: ReadonlySet<Position> = new Set<Position>([
  'allFours',
  'lyingFront',
  'lyingBack',
  'lyingSide',
  'kneeling',
  'sitting',
]);

const liesById = new Map<FigureId, boolean>();

/** Low and wider than high: the scene makes room for it lengthwise. An option may stand where its move lies, so the drawing decides. */
export function lies(figure: Pick<FigureView, 'figure'> | null): boolean {
  if (figure === null) return false;
  const known = liesById.get(figure.figure);
  if (known !== undefined) return known;
  const drawing = drawPose(poseOf(figure.figure));
  const { width, height } = frameOf(drawing);
  const isWide = drawing.lies && width > height;
  liesById.set(figure.figure, isWide);
  return isWide;
}

/** "Stay" is a word for people on the floor; who stands and goes on standing needs none. */
export function staysDown(main: FigureView | null, next: NextView | null): boolean {
  return next?.turn === 'stay' && main !== null && ON_THE_FLOOR.has(main.position);
}

export function sceneValues(view: HallView): SceneValues {
  const { status, kind, main, lower, level, words, gate, forSome, milestone, round, rounds } = view;
  const next = view.digits.length <= 1 ? view.next : null;
  return {
    status,
    kind,
    main,
    lower,
    level,
    words,
    gate,
    forSome,
    milestone,
    round,
    rounds,
    next,
    kit: next?.figure.kit ?? (LEADS_IN.has(kind) ? (main?.kit ?? []) : []),
    isPaused: status === 'paused' || status === 'asking',
    isFirstCount: kind === 'countIn' && view.spanId === FIRST_SPAN,
  };
}
