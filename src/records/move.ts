import * as v from 'valibot';
import type { Move } from '../moves/move.ts';
import { hallNameField, idField, lineField, moveIdField, nameField, whole } from './fields.ts';
import { check, type Parsed, type Refused, refuse } from './parsed.ts';

/** How many options a move may have each way. */
const MOST_OPTIONS = 4;

const regionField = v.picklist([
  'legs',
  'hips',
  'calves',
  'chest',
  'back',
  'shoulders',
  'arms',
  'trunk',
  'neck',
  'heartAndLungs',
]);

const patternField = v.picklist([
  'squat',
  'lunge',
  'hinge',
  'push',
  'pull',
  'brace',
  'rotate',
  'carry',
  'jump',
  'run',
  'mobilise',
  'stretch',
]);

const positionField = v.picklist([
  'standing',
  'sitting',
  'kneeling',
  'allFours',
  'lyingFront',
  'lyingBack',
  'lyingSide',
]);

const piecesField = v.exactOptional(whole(1, 10));

// A list has none of the pieces as keys and would pass for "needs nothing", so it is turned away first.
const kitField = v.pipe(
  v.unknown(),
  v.check((raw) => !Array.isArray(raw)),
  v.strictObject({
    mat: piecesField,
    band: piecesField,
    loopBand: piecesField,
    bandHook: piecesField,
    handWeight: piecesField,
    step: piecesField,
    chair: piecesField,
    wall: piecesField,
    rope: piecesField,
    floorLine: piecesField,
  }),
);

const optionSchema = v.strictObject({
  level: v.picklist(['lower', 'higher']),
  name: nameField,
  hallName: hallNameField,
  how: lineField,
  figure: idField,
});

/** Which part of a class something belongs to. */
export const partField = v.picklist(['warmUp', 'circuit', 'stretch']);

/** How the two sides of the body take their turns. */
export const sidesField = v.picklist(['both', 'alternating', 'inTurn', 'reverse']);

/** All that a schema can say of a move; `findMoveFault` says the rest. */
export const moveSchema = v.strictObject({
  id: moveIdField,
  name: nameField,
  hallName: hallNameField,
  part: partField,
  pattern: patternField,
  regions: v.pipe(v.array(regionField), v.minLength(1), v.maxLength(6)),
  position: positionField,
  impact: v.picklist(['none', 'low', 'jump']),
  effort: v.picklist(['light', 'moderate', 'hard']),
  sides: sidesField,
  kit: kitField,
  options: v.pipe(v.array(optionSchema), v.maxLength(2 * MOST_OPTIONS)),
  formPoints: v.pipe(v.array(lineField), v.maxLength(6)),
  takeCareIf: v.pipe(v.array(lineField), v.maxLength(6)),
  figure: idField,
});

/** What a schema cannot say: regions once each, a circuit move with a lower option, at most four options each way. */
export function findMoveFault(move: Move): Refused | null {
  const twice = move.regions.findIndex((region, at) => move.regions.indexOf(region) !== at);
  if (twice >= 0) return refuse('usedTwice', ['regions', twice]);
  const lower = move.options.filter((option) => option.level === 'lower').length;
  const higher = move.options.length - lower;
  if (lower > MOST_OPTIONS || higher > MOST_OPTIONS) return refuse('tooManyOptions', ['options']);
  return move.part === 'circuit' && lower === 0 ? refuse('noLowerOption', ['options']) : null;
}

/** A move from a file or a store, checked whole. */
export function parseMove(raw: unknown): Parsed<Move> {
  const parsed = check(moveSchema, raw);
  return parsed.ok ? (findMoveFault(parsed.value) ?? parsed) : parsed;
}
