import * as v from 'valibot';
import type { Move } from '../moves/move.ts';
import { instantField } from './fields.ts';
import { parseMove } from './move.ts';
import { check, type Parsed, refuse, within } from './parsed.ts';
import { parsePlan } from './plan.ts';
import { findUnknownMove, firstTwice } from './plan-rules.ts';
import { parseRunningOrder } from './running-order.ts';
import { type KeptPlanRow, type Paper, STORED_VERSION } from './stored-shapes.ts';
import { parseRow, type RawRow, type StoredReason, type Upgrade } from './upgrade.ts';

const paperSchema = v.strictObject({
  v: v.literal(STORED_VERSION),
  hash: v.pipe(v.string(), v.regex(/^[0-9a-f]{64}$/)),
  plan: v.unknown(),
  order: v.unknown(),
  moves: v.array(v.unknown()),
});

const keptPlanSchema = v.strictObject({
  v: v.literal(STORED_VERSION),
  plan: v.unknown(),
  ownMoves: v.array(v.unknown()),
  savedWallMs: instantField,
});

const paperUpgrades: readonly Upgrade[] = [];
const keptPlanUpgrades: readonly Upgrade[] = [];

/** The papers of a class as stored: a plan, its running order, and every move it names. */
export function parsePaper(raw: unknown): Parsed<Paper, StoredReason> {
  return parseRow(raw, paperUpgrades, checkPaper);
}

/** A kept plan as stored. Whether the starter library still has its other moves is for the caller to see. */
export function parseKeptPlan(raw: unknown): Parsed<KeptPlanRow, StoredReason> {
  return parseRow(raw, keptPlanUpgrades, checkKeptPlan);
}

/** Several moves, each whole, no id twice. */
export function parseMoves(raws: readonly unknown[]): Parsed<readonly Move[]> {
  const moves: Move[] = [];
  for (const [at, raw] of raws.entries()) {
    const move = parseMove(raw);
    if (!move.ok) return within([at], move);
    moves.push(move.value);
  }
  return firstTwice(moves.map((move, at) => ({ value: move.id, field: [at, 'id'] }))) ?? { ok: true, value: moves };
}

function checkPaper(row: RawRow): Parsed<Paper> {
  const outer = check(paperSchema, row);
  if (!outer.ok) return outer;
  const plan = parsePlan(outer.value.plan);
  if (!plan.ok) return within(['plan'], plan);
  const order = parseRunningOrder(outer.value.order);
  if (!order.ok) return within(['order'], order);
  const moves = parseMoves(outer.value.moves);
  if (!moves.ok) return within(['moves'], moves);
  const stranger = findUnknownMove(plan.value, new Set(moves.value.map((move) => move.id)));
  if (stranger !== null) return refuse('badField', ['plan', ...stranger]);
  return { ok: true, value: { ...outer.value, plan: plan.value, order: order.value, moves: moves.value } };
}

function checkKeptPlan(row: RawRow): Parsed<KeptPlanRow> {
  const outer = check(keptPlanSchema, row);
  if (!outer.ok) return outer;
  const plan = parsePlan(outer.value.plan);
  if (!plan.ok) return within(['plan'], plan);
  const ownMoves = parseMoves(outer.value.ownMoves);
  if (!ownMoves.ok) return within(['ownMoves'], ownMoves);
  return { ok: true, value: { ...outer.value, plan: plan.value, ownMoves: ownMoves.value } };
}
