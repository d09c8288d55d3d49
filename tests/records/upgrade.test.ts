import { describe, expect, it } from 'vitest';
import type { Parsed } from '../../src/records/parsed.ts';
import { parseRow, type RawRow, type Upgrade } from '../../src/records/upgrade.ts';

// A shape with a history: version 1 had minutes, version 2 seconds, version 3 a unit beside them.
const upgrades: readonly Upgrade[] = [
  ({ minutes, ...row }) => ({ ...row, v: 2, seconds: Number(minutes) * 60 }),
  (row) => ({ ...row, v: 3, unit: 's' }),
];

const asItIs = (row: RawRow): Parsed<RawRow> => ({ ok: true, value: row });
const read = (raw: unknown): unknown => parseRow(raw, upgrades, asItIs);

describe('parseRow', () => {
  it('takes a row of any version through every upgrade after its own, in order', () => {
    const today = { ok: true, value: { v: 3, seconds: 120, unit: 's' } };
    expect(read({ v: 1, minutes: 2 })).toEqual(today);
    expect(read({ v: 2, seconds: 120 })).toEqual(today);
    expect(read({ v: 3, seconds: 120, unit: 's' })).toEqual(today);
  });

  it('leaves the row in the store as it is', () => {
    const row = Object.freeze({ v: 1, minutes: 2 });
    read(row);
    expect(row).toEqual({ v: 1, minutes: 2 });
  });

  it('does not touch a row of a later version, nor one without a version', () => {
    expect(read({ v: 4 })).toEqual({ ok: false, reason: 'tooNew', field: ['v'] });
    expect(read({ minutes: 2 })).toEqual({ ok: false, reason: 'unreadable', field: ['v'] });
    expect(read({ v: -1 })).toEqual({ ok: false, reason: 'unreadable', field: ['v'] });
  });

  it('says where a row is at fault', () => {
    const picky = (): Parsed<never> => ({ ok: false, reason: 'missing', field: ['seconds'] });
    expect(parseRow({ v: 3 }, upgrades, picky)).toEqual({ ok: false, reason: 'unreadable', field: ['seconds'] });
  });
});
