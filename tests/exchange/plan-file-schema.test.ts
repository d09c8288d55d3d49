import { readdirSync } from 'node:fs';
import Ajv2020 from 'ajv/dist/2020.js';
import fc from 'fast-check';
import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { schemaText } from '../../app/build/make-schema.mjs';
import { planFileDefinitions, planFileSchema, readPlanFile } from '../../src/exchange/plan-file.ts';
import { anyBend, anyPlanFile, bend } from '../builders/any-plan.ts';
import { starterLibrary } from '../builders/starter-moves.ts';
import { readTop, readTopJson } from '../builders/stored.ts';

const PATH = 'assets/schema/plan-file.schema.json';
const schema = readTopJson(PATH);
const isValid = new Ajv2020({ strict: true, allErrors: false }).compile(Object(schema));

const protocols = readdirSync(new URL('../fixtures/protocols/', import.meta.url)).map(
  (name) => `tests/fixtures/protocols/${name}`,
);

describe('the JSON Schema of a plan file', () => {
  it('is what the validator says today; node app/build/make-schema.mjs writes it', () => {
    expect(readTop(PATH)).toBe(schemaText(planFileSchema, planFileDefinitions));
  });

  it.each(['assets/plans/demo-class.json', ...protocols])('takes %s, as the reader does', (path) => {
    expect(isValid(readTopJson(path)), JSON.stringify(isValid.errors)).toBe(true);
    expect(readPlanFile(readTop(path), starterLibrary())).toMatchObject({ ok: true });
  });

  it('agrees with the validator on every bent plan file, wherever it can say the rule', () => {
    const seen = { taken: 0, refused: 0 };
    fc.assert(
      fc.property(anyPlanFile, anyBend, (sound, how) => {
        const bent: unknown = JSON.parse(JSON.stringify(bend(sound, how)) ?? 'null');
        const ours = v.safeParse(planFileSchema, bent).success;
        expect(isValid(bent)).toBe(ours);
        seen[ours ? 'taken' : 'refused'] += 1;
      }),
      { numRuns: 1500 },
    );
    expect(Math.min(seen.taken, seen.refused)).toBeGreaterThan(30);
  });

  it('refuses nothing that the reader takes', () => {
    fc.assert(
      fc.property(anyPlanFile, anyBend, (sound, how) => {
        const text = JSON.stringify(bend(sound, how)) ?? 'null';
        if (readPlanFile(text, new Map()).ok) expect(isValid(JSON.parse(text))).toBe(true);
      }),
      { numRuns: 500 },
    );
  });
});
