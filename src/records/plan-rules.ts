import type { MoveId } from '../moves/move.ts';
import type { Block, Dose, Entry, MoveEntry, Plan } from '../plan/plan.ts';
import { WORK_SECONDS } from './fields.ts';
import { type FieldPath, type Refused, refuse } from './parsed.ts';
import { MOST_ENTRIES } from './plan-entry.ts';

type Placed<T> = { readonly value: T; readonly field: FieldPath };

/** What a schema cannot say of a plan: how its numbers and names hang together. Null when all is well. */
export function findPlanFault(plan: Plan): Refused | null {
  const entries = entriesOf(plan);
  if (entries.length > MOST_ENTRIES) return refuse('tooManyEntries', ['blocks']);
  const blockIds = plan.blocks.map((block, at) => ({ value: block.id, field: ['blocks', at, 'id'] }));
  const entryIds = entries.map(({ value, field }) => ({ value: value.id, field: [...field, 'id'] }));
  return (
    firstTwice(blockIds) ??
    firstTwice(entryIds) ??
    firstOf(moveEntriesOf(plan), findEntryFault) ??
    firstOf(blocksOf(plan), findRoundFault) ??
    (isWorkless(plan) ? refuse('noWork', ['blocks']) : null)
  );
}

/** The first entry whose move is not in `known`, or null. */
export function findUnknownMove(plan: Plan, known: { readonly has: (id: MoveId) => boolean }): FieldPath | null {
  const stranger = moveEntriesOf(plan).find(({ value }) => !known.has(value.moveId));
  return stranger === undefined ? null : [...stranger.field, 'moveId'];
}

/** The moves that a plan names, each once, in the order in which they first stand. */
export function moveIdsOf(plan: Plan): readonly MoveId[] {
  return [...new Set(moveEntriesOf(plan).map(({ value }) => value.moveId))];
}

/** The first value that stood before, by its later place. */
export function firstTwice(values: readonly Placed<string | number>[]): Refused | null {
  const seen = new Set<string | number>();
  for (const { value, field } of values) {
    if (seen.has(value)) return refuse('usedTwice', field);
    seen.add(value);
  }
  return null;
}

function findEntryFault({ value: entry, field }: Placed<MoveEntry>): Refused | null {
  const doses: Placed<Dose | null>[] = [
    { value: entry.dose, field: [...field, 'dose'] },
    ...entry.byRound.map((one, at) => ({ value: one.dose, field: [...field, 'byRound', at, 'dose'] })),
    { value: entry.forSome?.dose ?? null, field: [...field, 'forSome', 'dose'] },
  ];
  const rounds = entry.byRound.map((one, at) => ({ value: one.round, field: [...field, 'byRound', at, 'round'] }));
  return firstOf(doses, findDoseFault) ?? firstTwice(rounds);
}

/** A count's seconds keep the same bounds as seconds do. */
function findDoseFault({ value: dose, field }: Placed<Dose | null>): Refused | null {
  if (dose?.kind !== 'count') return null;
  const seconds = dose.count * dose.secondsEach;
  const isWithin = seconds >= WORK_SECONDS.least && seconds <= WORK_SECONDS.most;
  return isWithin ? null : refuse('doseOutOfBounds', field);
}

function findRoundFault({ value: block, field }: Placed<Block>): Refused | null {
  const rounds = placed(block.entries, [...field, 'entries']).flatMap(({ value: entry, field: at }) =>
    entry.kind === 'move'
      ? entry.byRound.map((one, i) => ({ value: one.round, field: [...at, 'byRound', i, 'round'] }))
      : [],
  );
  const beyond = rounds.find(({ value }) => value > block.rounds);
  return beyond === undefined ? null : refuse('noSuchRound', beyond.field);
}

function isWorkless(plan: Plan): boolean {
  return !plan.blocks.some((block) =>
    block.entries.some((entry) => entry.kind === 'move' && isInSomeRound(entry, block.rounds)),
  );
}

function isInSomeRound(entry: MoveEntry, rounds: number): boolean {
  return entry.byRound.filter((one) => one.dose === null).length < rounds;
}

function blocksOf(plan: Plan): readonly Placed<Block>[] {
  return placed(plan.blocks, ['blocks']);
}

function entriesOf(plan: Plan): readonly Placed<Entry>[] {
  return blocksOf(plan).flatMap(({ value, field }) => placed(value.entries, [...field, 'entries']));
}

function moveEntriesOf(plan: Plan): readonly Placed<MoveEntry>[] {
  return entriesOf(plan).flatMap(({ value, field }) => (value.kind === 'move' ? [{ value, field }] : []));
}

function placed<T>(values: readonly T[], field: FieldPath): readonly Placed<T>[] {
  return values.map((value, at) => ({ value, field: [...field, at] }));
}

function firstOf<T>(values: readonly T[], find: (value: T) => Refused | null): Refused | null {
  for (const value of values) {
    const fault = find(value);
    if (fault !== null) return fault;
  }
  return null;
}
