import type { ClassState } from '../../src/class-run/class-state.ts';
import { judgeGap } from '../../src/class-run/clock-rule.ts';
import type { FigureView } from '../../src/class-run/hall-values.ts';
import type { HallPapers } from '../../src/class-run/hall-view.ts';
import { readyState, replay } from '../../src/class-run/replay.ts';
import { libraryOf } from '../../src/moves/library.ts';
import type { MoveLibrary } from '../../src/moves/move.ts';
import type { Plan } from '../../src/plan/plan.ts';
import type { OpenClass } from '../../src/ports/class-store.ts';
import type { Digest } from '../../src/ports/digest.ts';
import type { Ids } from '../../src/ports/ids.ts';
import { compile } from '../../src/running-order/compile.ts';
import { type KeeperNeeds, newKeeper, rehearsalKeeper, resumedKeeper } from './keeper.ts';
import { type LivePorts, liveClass } from './live-class.ts';
import type { Keeper, LiveClass } from './live-contract.ts';
import { makePaper } from './papers.ts';

/** Class time per ms of real time in a rehearsal: a class of half an hour in under four minutes. */
const REHEARSAL_RATE = 8;

/** What it takes to run classes on this phone. */
export type HallNeeds = {
  readonly phone: LivePorts;
  readonly keeping: KeeperNeeds;
  readonly digest: Digest;
  readonly ids: Ids;
  readonly zone: () => string;
  readonly nameLine: (figure: FigureView) => string;
  /** Called inside the press that starts a class. */
  readonly onStart: () => void;
};

/** A class on the hall screen with the papers it runs from. `recordId` null: nothing of it is kept. */
export type HallVisit = {
  readonly live: LiveClass;
  readonly plan: Plan;
  readonly library: MoveLibrary;
  readonly recordId: string | null;
};

/** Makes a class ready: compiled, its papers on the way, nothing kept before Start. */
export function enterHall(needs: HallNeeds, plan: Plan, library: MoveLibrary): HallVisit {
  const order = compile(plan, library);
  const paper = makePaper(needs.digest, plan, order, library);
  const recordId = needs.ids.newId();
  const keeper = newKeeper(needs.keeping, { recordId, zone: needs.zone(), paper });
  const papers = { plan, library };
  return { ...papers, recordId, live: liveAt(needs, papers, readyState(order), keeper, 1) };
}

/** The same class, faster and not kept. */
export function rehearseHall(needs: HallNeeds, plan: Plan, library: MoveLibrary): HallVisit {
  const papers = { plan, library };
  const state = readyState(compile(plan, library));
  return { ...papers, recordId: null, live: liveAt(needs, papers, state, rehearsalKeeper, REHEARSAL_RATE) };
}

function liveAt(
  { phone, nameLine, onStart }: HallNeeds,
  papers: HallPapers,
  state: ClassState,
  keeper: Keeper,
  rate: number,
) {
  return liveClass(phone, { papers, state, keeper, rate, isRehearsal: keeper === rehearsalKeeper, nameLine, onStart });
}

/**
 * Takes a class up again where its marks and its last beat left it; null when its marks do not replay. `life` is the
 * fencing number it was read under, or null where that could not be had.
 */
export function resumeHall(needs: HallNeeds, open: OpenClass, life: number | null): HallVisit | null {
  const { paper, marks, beat } = open;
  const replayed = replay(paper.order, marks);
  if (!replayed.ok) return null;
  const { state } = replayed;
  const papers = { plan: paper.plan, library: libraryOf(paper.moves) };
  const keeper = resumedKeeper(needs.keeping, open, life);
  const live = liveAt(needs, papers, state, keeper, 1);
  const lastMark = marks.at(-1);
  const isBeatNewer = beat !== null && beat.atMs >= state.lastMs;
  const stoppedAtMs = isBeatNewer ? beat.atMs : state.lastMs;
  const stoppedWallMs = isBeatNewer ? beat.wallMs : (lastMark?.seen.wallMs ?? open.head.startedWallMs);
  live.takeUp(stoppedAtMs, judgeGap(stoppedWallMs, needs.phone.clocks.wallMs()));
  return { ...papers, recordId: open.head.id, live };
}
