import { describe, expect, it } from 'vitest';
import { kitOf, rowsOf, type SheetRow } from '../../../../app/screens/plans/sheet-rows.ts';
import type { Entry } from '../../../../src/plan/plan.ts';
import { aBlock, aMove, anEntry, aTalk, aWait, SMALL_LIBRARY } from '../../../builders/small-plan.ts';

function rowOf(entry: Entry, leadSeconds = 0, library = SMALL_LIBRARY): SheetRow {
  const [row] = rowsOf(aBlock([entry]), library, leadSeconds);
  if (row === undefined) throw new Error('no row');
  return row;
}

describe('a row of the class sheet', () => {
  it('has its work, and the time that leads into it', () => {
    const row = rowOf(anEntry('a', { changeoverSeconds: 8 }));
    expect(row).toMatchObject({ name: 'The a', lower: 'Easy a', leadSeconds: 8, secondsText: '30' });
    expect(row.pieces).toEqual([{ does: 'work', seconds: 30 }]);
  });

  it('takes the longer of what leads into the block and into the entry', () => {
    expect(rowOf(anEntry('a', { changeoverSeconds: 8 }), 20).leadSeconds).toBe(20);
    expect(rowOf(anEntry('a', { changeoverSeconds: 25 }), 20).leadSeconds).toBe(25);
  });

  it('lets only the first entry wait for its block', () => {
    const rows = rowsOf(aBlock([anEntry('a'), anEntry('b')]), SMALL_LIBRARY, 20);
    expect(rows.map((row) => row.leadSeconds)).toEqual([20, 0]);
  });

  it.each(['sided', 'turned'])('gives %s its full time twice, with the change between', (moveId) => {
    const row = rowOf(anEntry(moveId, { swapSeconds: 5 }));
    expect(row.pieces).toEqual([
      { does: 'work', seconds: 30 },
      { does: 'gap', seconds: 5 },
      { does: 'work', seconds: 30 },
    ]);
    expect(row.secondsText).toBe('30 + 30');
  });

  it('believes the entry before the move about sides', () => {
    expect(rowOf(anEntry('sided', { sides: 'both' })).pieces).toHaveLength(1);
    expect(rowOf(anEntry('swapping')).details).toContain('alternating');
  });

  it('counts a dose at its tempo', () => {
    const row = rowOf(anEntry('a', { dose: { kind: 'count', count: 10, secondsEach: 1.5 } }));
    expect(row).toMatchObject({ secondsText: '15', details: ['10 times, 1.5 s each'] });
  });

  it('tells kit, further options, rounds, a second dose and what may go', () => {
    const options = [
      { level: 'lower', name: 'Half', hallName: 'half', how: 'less', figure: 'squat' },
      { level: 'lower', name: 'Quarter', hallName: 'quarter', how: 'less', figure: 'squat' },
      { level: 'higher', name: 'Whole and jump', hallName: 'jump', how: 'more', figure: 'squat' },
    ] as const;
    const library = new Map([['x', aMove('x', { kit: { handWeight: 2, mat: 1 }, options })]]);
    const entry = anEntry('x', {
      byRound: [
        { round: 2, dose: { kind: 'seconds', seconds: 90 } },
        { round: 3, dose: null },
      ],
      forSome: { who: 'new people', doing: 'march', dose: { kind: 'seconds', seconds: 20 } },
      locked: true,
      dropIfLate: 1,
    });
    const row = rowOf(entry, 0, library);
    expect(row.lower).toBe('Half');
    expect(row.details).toEqual([
      'mat, 2 hand weights',
      'lower still: Quarter',
      'higher: Whole and jump',
      'new people: march, 20 s',
      'round 2: 1 min 30 s',
      'not in round 3',
      'locked',
      'drop if late',
    ]);
  });

  it('has nobody on the floor for talk, water and a wait point', () => {
    for (const entry of [aTalk(), aTalk({ kind: 'water' }), aWait()]) expect(rowOf(entry).figure).toBeNull();
    expect(rowOf(aTalk())).toMatchObject({ name: 'Talk', details: ['today'], secondsText: '20' });
    expect(rowOf(aTalk({ about: '' })).details).toEqual([]);
  });

  it('ends the floor at a wait point that only the instructor ends', () => {
    expect(rowOf(aWait({ goesOn: 'whenAsked' })).pieces).toEqual([{ does: 'open', seconds: 20 }]);
    expect(rowOf(aWait()).pieces).toEqual([{ does: 'still', seconds: 20 }]);
  });
});

describe('kit for each', () => {
  it('is the largest count of each piece, since nobody holds two moves at once', () => {
    const library = new Map([
      ['one', aMove('one', { kit: { handWeight: 1, mat: 1 } })],
      ['two', aMove('two', { kit: { handWeight: 2 } })],
    ]);
    const blocks = [aBlock([anEntry('one'), aTalk()]), aBlock([anEntry('two')], { id: 'second' })];
    expect(kitOf(blocks, library)).toEqual({ handWeight: 2, mat: 1 });
  });
});
