import * as v from 'valibot';
import type { Move, MoveLibrary } from '../moves/move.ts';
import type { Plan } from '../plan/plan.ts';
import { canonicalJson } from '../records/canonical.ts';
import { findMoveFault, moveSchema } from '../records/move.ts';
import { check, type Fault, type FieldPath, type Parsed, type Refused, refuse, within } from '../records/parsed.ts';
import { blockSchema, planSchema } from '../records/plan.ts';
import { doseSchema, entrySchema } from '../records/plan-entry.ts';
import { findPlanFault, findUnknownMove, firstTwice, moveIdsOf } from '../records/plan-rules.ts';
import { type JsonFault, readJson } from './json-text.ts';

const FORMAT = 'hallpace-plan';
/** The version of the plan file that is written; newer ones are refused. */
const PLAN_FILE_VERSION = 1;

/** A plan file, as far as a schema can say it; its JSON Schema is generated from here. */
export const planFileSchema = v.strictObject({
  format: v.literal(FORMAT),
  v: v.literal(PLAN_FILE_VERSION),
  plan: planSchema,
  moves: v.pipe(v.array(moveSchema), v.maxLength(200)),
});

/** The parts of a plan file that its JSON Schema names. */
export const planFileDefinitions = {
  plan: planSchema,
  block: blockSchema,
  entry: entrySchema,
  dose: doseSchema,
  move: moveSchema,
};

/**
 * Why a plan file was refused, whole. `notAPlan`: JSON, but not one of these files. `tooNew`: of a later version.
 * `unknownMove`: neither the library nor the file has it. `clash`: the file brings another move under a library's id.
 */
export type PlanFileFault = Fault | JsonFault | 'notAPlan' | 'tooNew' | 'unknownMove' | 'clash';

/** A plan and the moves it uses that the library does not have. */
export type OpenedPlan = { readonly ok: true; readonly plan: Plan; readonly ownMoves: readonly Move[] };

/**
 * Reads the text of a plan file against the moves that are there already. Never throws; a refused file gives nothing
 * but the first reason and where it stands. Moves in the file that the plan does not use are left out.
 */
export function readPlanFile(text: string, library: MoveLibrary): OpenedPlan | Refused<PlanFileFault> {
  const json = readJson(text);
  if (!json.ok) return json;
  const misfit = findMisfit(json.value);
  if (misfit !== null) return misfit;
  const file = check(planFileSchema, json.value);
  if (!file.ok) return file;
  const { plan, moves } = file.value;
  const fault = findPlanFault(plan);
  if (fault !== null) return within(['plan'], fault);
  return findMovesFault(plan, moves, library) ?? { ok: true, plan, ownMoves: movesToCarry(plan, moves, library) };
}

/** The text of a plan file that `readPlanFile` reads back as the same plan. `ownMoves` may hold more than it uses. */
export function writePlanFile(plan: Plan, ownMoves: readonly Move[]): string {
  const moves = movesToCarry(plan, ownMoves, new Map());
  return `${JSON.stringify({ format: FORMAT, v: PLAN_FILE_VERSION, plan, moves }, null, 2)}\n`;
}

/** Something else altogether, or of a later version: said before any field is looked at. */
function findMisfit(raw: unknown): Refused<PlanFileFault> | null {
  const kind = check(v.looseObject({ format: v.literal(FORMAT) }), raw);
  if (!kind.ok) return refuse('notAPlan', []);
  const version: Parsed<{ v: number }> = check(
    v.looseObject({ v: v.pipe(v.number(), v.integer(), v.minValue(1)) }),
    raw,
  );
  if (!version.ok) return version;
  return version.value.v > PLAN_FILE_VERSION ? refuse('tooNew', ['v']) : null;
}

function findMovesFault(plan: Plan, moves: readonly Move[], library: MoveLibrary): Refused<PlanFileFault> | null {
  const twice = firstTwice(moves.map((move, at) => ({ value: move.id, field: ['moves', at, 'id'] })));
  if (twice !== null) return twice;
  for (const [at, move] of moves.entries()) {
    const fault = findOwnMoveFault(move, ['moves', at], library);
    if (fault !== null) return fault;
  }
  const own = new Set(moves.map((move) => move.id));
  const stranger = findUnknownMove(plan, { has: (id) => own.has(id) || library.has(id) });
  return stranger === null ? null : refuse('unknownMove', ['plan', ...stranger]);
}

function findOwnMoveFault(move: Move, field: FieldPath, library: MoveLibrary): Refused<PlanFileFault> | null {
  const fault = findMoveFault(move);
  if (fault !== null) return within(field, fault);
  const known = library.get(move.id);
  if (known === undefined || canonicalJson(known) === canonicalJson(move)) return null;
  return refuse('clash', [...field, 'id']);
}

function movesToCarry(plan: Plan, moves: readonly Move[], library: MoveLibrary): readonly Move[] {
  const used = new Set(moveIdsOf(plan));
  return moves.filter((move) => used.has(move.id) && !library.has(move.id));
}
