import type { Move, MoveLibrary, Sides } from '../moves/move.ts';
import type { Block, Dose, Entry, MoveEntry, Plan } from '../plan/plan.ts';
import { closeOrder, type Draft, draftSpan } from './draft.ts';
import type { Doing, RunningOrder, Side, SpanKind } from './span.ts';

/** Formats that `compile` can run today; a plan with another is kept, shown and not run. */
export function canRun(plan: Plan): boolean {
  return plan.blocks.every((block) => block.format.kind === 'allTogether');
}

/** Seconds of a dose as whole ms: a count takes its tempo times the count. */
function doseMs(dose: Dose): number {
  return dose.kind === 'seconds' ? dose.seconds * 1000 : Math.round(dose.count * dose.secondsEach * 1000);
}

/**
 * Compiles a plan whose moves are all in `library` to its running order (R1-R3). A move that is not there is a
 * programmer's mistake and throws: plans are checked against their moves when they come in.
 */
export function compile(plan: Plan, library: MoveLibrary): RunningOrder {
  const drafts: Draft[] = [];
  for (const block of plan.blocks) {
    for (let round = 1; round <= block.rounds; round += 1) addRound(drafts, plan, block, round, library);
    if (block.closingRestSeconds > 0 && drafts.some((draft) => draft.blockId === block.id)) {
      drafts.push({ ...draftSpan(block, block.rounds), kind: 'rest', lengthMs: block.closingRestSeconds * 1000 });
    }
  }
  return closeOrder(drafts);
}

function addRound(drafts: Draft[], plan: Plan, block: Block, round: number, library: MoveLibrary): void {
  let isFirst = true;
  for (const entry of block.entries) {
    const dose = entry.kind === 'move' ? doseIn(entry, round) : null;
    if (entry.kind === 'move' && dose === null) continue;
    const lead = leadInto(drafts, plan, block, entry, isFirst);
    const place = { ...draftSpan(block, round), entryId: entry.id };
    if (entry.kind !== 'move') {
      if (lead.seconds > 0) drafts.push({ ...place, entryId: null, kind: lead.kind, lengthMs: lead.seconds * 1000 });
      drafts.push({ ...place, kind: entry.kind, lengthMs: entry.seconds * 1000, open: isOpenWait(entry) });
    } else if (dose !== null) {
      addMove(drafts, place, entry, dose, lead, moveOf(library, entry));
    }
    isFirst = false;
  }
}

type Lead = { readonly kind: SpanKind; readonly seconds: number };

/** What leads into an entry: the longer rest where one stands, never shorter than the entry's own changeover. */
function leadInto(drafts: readonly Draft[], plan: Plan, block: Block, entry: Entry, isFirst: boolean): Lead {
  const own = entry.kind === 'move' ? entry.changeoverSeconds : 0;
  if (drafts.length === 0) return { kind: 'countIn', seconds: Math.max(plan.countInSeconds, own) };
  const blockBegan = drafts.some((draft) => draft.blockId === block.id);
  const rest = !isFirst ? 0 : blockBegan ? block.breatherSeconds : block.leadInSeconds;
  if (rest > 0) return { kind: 'breather', seconds: Math.max(rest, own) };
  return { kind: 'changeover', seconds: own };
}

function addMove(drafts: Draft[], place: Draft, entry: MoveEntry, dose: Dose, lead: Lead, move: Move): void {
  const sides = sidesOf(entry.sides ?? move.sides);
  const doing = (side: Side): readonly Doing[] => [{ entryId: entry.id, moveId: entry.moveId, side, group: null }];
  const [first, second] = sides;
  if (lead.seconds > 0) drafts.push({ ...place, kind: lead.kind, lengthMs: lead.seconds * 1000, doing: doing(first) });
  const work: Draft = { ...place, kind: 'work', lengthMs: doseMs(dose), doing: doing(first) };
  if (second === null) {
    drafts.push(work);
    return;
  }
  const swapMs = entry.swapSeconds * 1000;
  const gap = swapMs > 0 ? 2 : 1;
  drafts.push({ ...work, pairOffset: gap });
  if (swapMs > 0) drafts.push({ ...place, kind: 'sideChange', lengthMs: swapMs, doing: doing(second) });
  drafts.push({ ...work, doing: doing(second), pairOffset: -gap });
}

function sidesOf(sides: Sides): readonly [Side, Side | null] {
  if (sides === 'inTurn') return ['left', 'right'];
  if (sides === 'reverse') return ['forward', 'reverse'];
  return [sides, null];
}

function doseIn(entry: MoveEntry, round: number): Dose | null {
  const change = entry.byRound.find((one) => one.round === round);
  return change === undefined ? entry.dose : change.dose;
}

function isOpenWait(entry: Entry): boolean {
  return entry.kind === 'wait' && entry.goesOn === 'whenAsked';
}

function moveOf(library: MoveLibrary, entry: MoveEntry): Move {
  const move = library.get(entry.moveId);
  if (move === undefined) throw new Error(`compile: move ${entry.moveId} is not in the library`);
  return move;
}
