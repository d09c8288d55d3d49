import type { MoveLibrary } from '../../src/moves/move.ts';
import type { Block, Entry, Plan } from '../../src/plan/plan.ts';
import type { Side, Span, SpanKind } from '../../src/running-order/span.ts';

/** One entry in one round of one block, in class order; `turn` says what stands before it. */
type Slot = { readonly block: Block; readonly round: number; readonly entry: Entry; readonly turn: Turn };
type Turn = 'class' | 'block' | 'round' | 'entry';

/**
 * The oracle's own reading of a plan, written from the rules and not from `compile`: first everything that is there in
 * class order, then what leads into each, then its work. Only blocks that run all together.
 */
export function paperOrder(plan: Plan, library: MoveLibrary): readonly Span[] {
  const spans: Span[] = [];
  const add = (slot: Slot, kind: SpanKind, seconds: number, side: Side | null, more: Partial<Span> = {}): void => {
    if (seconds <= 0) return;
    spans.push(spanOf(spans.length, slot, kind, seconds, side, more));
  };
  const slots = slotsOf(plan);
  for (const [at, slot] of slots.entries()) {
    const sides = sidesOf(slot.entry, library);
    const leadIn = leadInOf(plan, slot);
    add(slot, leadIn.kind, leadIn.seconds, sides[0] ?? null);
    addEntry(slot, sides, spans, add);
    if (slots[at + 1]?.block !== slot.block) {
      add(slot, 'rest', slot.block.closingRestSeconds, null, { entryId: null, doing: [], round: slot.block.rounds });
    }
  }
  return spans;
}

function slotsOf(plan: Plan): readonly Slot[] {
  const slots: Slot[] = [];
  for (const block of plan.blocks) {
    for (let round = 1; round <= block.rounds; round += 1) {
      for (const entry of block.entries) {
        if (isLeftOut(entry, round)) continue;
        slots.push({ block, round, entry, turn: turnAfter(slots.at(-1), block, round) });
      }
    }
  }
  return slots;
}

function isLeftOut(entry: Entry, round: number): boolean {
  return entry.kind === 'move' && entry.byRound.some((one) => one.round === round && one.dose === null);
}

function turnAfter(before: Slot | undefined, block: Block, round: number): Turn {
  if (before === undefined) return 'class';
  if (before.block !== block) return 'block';
  return before.round === round ? 'entry' : 'round';
}

function leadInOf(plan: Plan, { block, entry, turn }: Slot): { kind: SpanKind; seconds: number } {
  const changeover = entry.kind === 'move' ? entry.changeoverSeconds : 0;
  if (turn === 'class') return { kind: 'countIn', seconds: Math.max(plan.countInSeconds, changeover) };
  const longer = { class: 0, block: block.leadInSeconds, round: block.breatherSeconds, entry: 0 }[turn];
  if (longer > 0) return { kind: 'breather', seconds: Math.max(longer, changeover) };
  return { kind: 'changeover', seconds: changeover };
}

/** The sides of a move in their order; both halves of a move in turn, else one. Nothing for what is no move. */
function sidesOf(entry: Entry, library: MoveLibrary): readonly Side[] {
  if (entry.kind !== 'move') return [];
  const move = library.get(entry.moveId);
  if (move === undefined) throw new Error(`paperOrder: no move ${entry.moveId}`);
  const sides = entry.sides ?? move.sides;
  if (sides === 'inTurn') return ['left', 'right'];
  return sides === 'reverse' ? ['forward', 'reverse'] : [sides];
}

function addEntry(
  slot: Slot,
  [first, second]: readonly Side[],
  spans: readonly Span[],
  add: (slot: Slot, kind: SpanKind, seconds: number, side: Side | null, more?: Partial<Span>) => void,
): void {
  const { entry, round } = slot;
  if (entry.kind === 'wait') add(slot, 'wait', entry.seconds, null, { open: entry.goesOn === 'whenAsked' });
  else if (entry.kind !== 'move') add(slot, entry.kind, entry.seconds, null);
  else {
    const dose = entry.byRound.find((one) => one.round === round)?.dose ?? entry.dose;
    const seconds = dose.kind === 'seconds' ? dose.seconds : Math.round(dose.count * dose.secondsEach * 1000) / 1000;
    const firstId = spans.length;
    const secondId = firstId + (entry.swapSeconds > 0 ? 2 : 1);
    add(slot, 'work', seconds, first ?? null, second === undefined ? {} : { pair: secondId });
    if (second === undefined) return;
    add(slot, 'sideChange', entry.swapSeconds, second);
    add(slot, 'work', seconds, second, { pair: firstId });
  }
}

function spanOf(id: number, slot: Slot, kind: SpanKind, seconds: number, side: Side | null, more: Partial<Span>): Span {
  const { block, round, entry } = slot;
  const isLeadIn = kind === 'countIn' || kind === 'changeover' || kind === 'breather';
  return {
    id,
    of: id,
    kind,
    lengthMs: Math.round(seconds * 1000),
    doneMs: 0,
    blockId: block.id,
    round,
    entryId: isLeadIn && entry.kind !== 'move' ? null : entry.id,
    doing:
      side === null || entry.kind !== 'move' ? [] : [{ entryId: entry.id, moveId: entry.moveId, side, group: null }],
    pair: null,
    gives: false,
    open: false,
    cueStyle: block.cueStyle,
    ...more,
  };
}
