// How sure each value is: "read" - seen in writing at the source named; "computed" - from the numbers of that source;
// "memory" - from memory, to be confirmed at the original. T = n x work + (n - 1) x rest; with the last rest counted,
// n x (work + rest). Every total runs from the start of the first work span to the end of the last.
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { fixtureText, protocols } from './make-protocols.mjs';
import { timelineOf, type WorkSpan } from './open-protocol.ts';

const COUNT_INS = [0, 7];
const minutes = (min: number, s = 0): number => min * 60 + s;
const startsOf = (work: readonly WorkSpan[]): readonly number[] => work.map(({ start }) => start);

describe('the fixtures', () => {
  const folder = new URL('../fixtures/protocols/', import.meta.url);

  it('are what the committed script writes, one for one', () => {
    const names = Object.keys(protocols).map((name) => `${name}.json`);
    expect(readdirSync(folder).sort()).toEqual(names.sort());
    for (const [name, plan] of Object.entries(protocols)) {
      expect(readFileSync(new URL(`${name}.json`, folder), 'utf8'), name).toBe(fixtureText(plan));
    }
  });
});

/** Fixture, work in all, total without and with the last rest, the rest. */
type Row = readonly [name: string, work: number, off: number, on: number, rest: number];

// Tabata I et al. 1996, Med Sci Sports Exerc 28(10):1327-1330 (7-8 sets; citation read, sets from a second copy, totals
// computed). Ma JK et al. 2013, Open J Mol Integr Physiol 3(4), doi 10.4236/ojmip.2013.34027: "4 min" for the eight
// (read). Hov H et al. 2022, Scand J Med Sci Sports 33(2):146-159, doi 10.1111/sms.14251: the same eight (read).
// Tabata I et al. 1997, MSSE 29(3):390-395: six to seven (bouts read, 10 s rest from memory, totals computed).
const tenSecondRests: readonly Row[] = [
  ['bouts-20-10-by-8', 160, minutes(3, 50), minutes(4), 10],
  ['bouts-20-10-by-7', 140, minutes(3, 20), minutes(3, 30), 10],
  ['bouts-20-10-by-6', 120, minutes(2, 50), minutes(3), 10],
];

// Gibala MJ et al. 2006, J Physiol 575(3):901-911, doi 10.1113/jphysiol.2006.112094: 4-6 x 30 s, 4 min recovery (read;
// totals computed). Koral J et al. 2018, J Strength Cond Res 32(3):617-623: 4-7 x 30 s, 4 min (read; totals computed).
const sprints: readonly Row[] = [
  ['sprints-30-240-by-4', 120, minutes(14), minutes(18), 240],
  ['sprints-30-240-by-5', 150, minutes(18, 30), minutes(22, 30), 240],
  ['sprints-30-240-by-6', 180, minutes(23), minutes(27), 240],
  ['sprints-30-240-by-7', 210, minutes(27, 30), minutes(31, 30), 240],
];

// Hov 2022 as above: 4 x 4 min with 3 min, and 10 x 30 s with 3.5 min (read; totals computed); the first also in
// Helgerud J et al. 2007, MSSE 39(4):665-671 (memory). Gibala MJ 2015, Sports Science Exchange 28 no. 139: 10 x 60 s
// with 60 s (read). Little JP et al. 2010, J Physiol 588(6):1011-1022: 8-12 x 60 s with 75 s (memory; totals computed).
const longer: readonly Row[] = [
  ['intervals-240-180-by-4', 960, minutes(25), minutes(28), 180],
  ['bouts-30-210-by-10', 300, minutes(36, 30), minutes(40), 210],
  ['intervals-60-60-by-10', 600, minutes(19), minutes(20), 60],
  ['intervals-60-75-by-8', 480, minutes(16, 45), minutes(18), 75],
  ['intervals-60-75-by-10', 600, minutes(21, 15), minutes(22, 30), 75],
  ['intervals-60-75-by-12', 720, minutes(25, 45), minutes(27), 75],
];

describe.each(COUNT_INS)('with a count-in of %i s', (countIn) => {
  describe('bouts with a rest between come to the published totals', () => {
    it.each([...tenSecondRests, ...sprints, ...longer])(
      '%s: %i s of work, %i s, or %i s with the last rest',
      (...row) => {
        const [name, work, off, on, rest] = row;
        const without = timelineOf(name, { countIn });
        const withLast = timelineOf(name, { countIn, closingRest: rest });
        expect([without.workSum, without.total, without.totalWithRest]).toEqual([work, off, off]);
        expect([withLast.workSum, withLast.total, withLast.totalWithRest]).toEqual([work, off, on]);
      },
    );

    it('two weeks of 4, 5 and 6 sprints, last rests counted, come to 135 min; the paper says about 2.5 h', () => {
      // Gibala 2006 as above; the progression 4-4-5-5-6-6 is from memory.
      const one = (name: string): number => timelineOf(name, { countIn, closingRest: 240 }).totalWithRest;
      const sum = one('sprints-30-240-by-4') + one('sprints-30-240-by-5') + one('sprints-30-240-by-6');
      expect(2 * sum).toBe(minutes(135));
      expect(2 * sum).toBeLessThan(minutes(150));
    });
  });

  // Gunnarsson TP, Bangsbo J 2012, J Appl Physiol 113(1):16-24: blocks of five times 30 s low, 20 s moderate, 10 s above
  // 90 %, 3-4 blocks, 2 min between (read; totals and starts computed).
  describe('10-20-30', () => {
    it.each([
      [3, minutes(19), minutes(21)],
      [4, minutes(26), minutes(28)],
    ])('%i blocks come to %i s, or %i s with the last rest', (blocks, off, on) => {
      const timeline = timelineOf(`ten-twenty-thirty-${blocks}`, { countIn, closingRest: 120 });
      expect([timeline.workSum, timeline.total, timeline.totalWithRest]).toEqual([blocks * 300, off, on]);
    });

    it('has 15 phases a block, sprints at 50, 110, 170, 230 and 290 s', () => {
      const { work } = timelineOf('ten-twenty-thirty-3', { countIn });
      const first = work.slice(0, 15);
      expect(startsOf(first)).toEqual([0, 30, 50, 60, 90, 110, 120, 150, 170, 180, 210, 230, 240, 270, 290]);
      expect(startsOf(first.filter(({ moveId }) => moveId === 'ref-high'))).toEqual([50, 110, 170, 230, 290]);
      expect(first.at(-1)?.end).toBe(300);
    });

    it('starts block 2 at 7:00 and block 3 at 14:00', () => {
      const { work } = timelineOf('ten-twenty-thirty-3', { countIn });
      expect([work[15]?.start, work[30]?.start]).toEqual([minutes(7), minutes(14)]);
    });
  });

  // Klika B, Jordan C 2013, ACSM's Health & Fitness Journal 17(3):8-13 (volume and pages memory): 12 stations, 30 s each,
  // 10 s between, 2-3 times through (order and times read; starts and totals computed). How the last station's sides are
  // split is not published; half each here.
  describe('the 12-station body-weight circuit', () => {
    it('starts its stations at 0, 40 ... 440 s and ends at 470 s', () => {
      const { work } = timelineOf('twelve-stations-1', { countIn });
      const firsts = work.filter(({ moveId }, at) => work[at - 1]?.moveId !== moveId);
      expect(startsOf(firsts)).toEqual([0, 40, 80, 120, 160, 200, 240, 280, 320, 360, 400, 440]);
      expect(firsts.slice(0, -1).map(({ end }) => end)).toEqual([30, 70, 110, 150, 190, 230, 270, 310, 350, 390, 430]);
      expect(work.slice(-2).map(({ start, end }) => [start, end])).toEqual([
        [440, 455],
        [455, 470],
      ]);
    });

    it.each([
      [1, 470, 480],
      [2, 950, 960],
      [3, 1430, 1440],
    ])('%i rounds come to %i s, or %i s with the last rest', (rounds, off, on) => {
      const timeline = timelineOf(`twelve-stations-${rounds}`, { countIn, closingRest: 10 });
      expect([timeline.total, timeline.totalWithRest]).toEqual([off, on]);
    });

    it('is not the seven minutes that its popular label says', () => {
      const timeline = timelineOf('twelve-stations-1', { countIn, closingRest: 10 });
      expect(timeline.total).toBeGreaterThan(minutes(7));
      expect(timeline.totalWithRest).toBe(minutes(8));
    });
  });

  // FM 21-20 (1992, C1 1998) ch. 7: 10 stations, 3 rounds, 30 s, then 20 s, 15 s to move; 5-7 min before and after; less
  // than 45 min in all (read; sums computed).
  describe('the fixed circuit whose later rounds are shorter', () => {
    it('works 300 + 200 + 200 s and comes to 1135 s with its 29 moves of 15 s', () => {
      const timeline = timelineOf('fixed-circuit-30-20-20', { countIn });
      expect([timeline.work.length, timeline.workSum, timeline.total]).toEqual([30, 700, 1135]);
    });

    it('comes to 1335 s when every round has 30 s', () => {
      const timeline = timelineOf('fixed-circuit-30-30-30', { countIn });
      expect([timeline.workSum, timeline.total]).toEqual([900, 1335]);
    });

    it.each([
      [5, minutes(28, 55)],
      [7, minutes(32, 55)],
    ])('with %i min at each end comes to %i s, under the published 45 min', (ends, total) => {
      const timeline = timelineOf(`fixed-circuit-with-ends-${ends}`, { countIn });
      expect(timeline.total).toBe(total);
      expect(timeline.total).toBeLessThan(minutes(45));
    });
  });

  // FM 7-22 (2012) ch. 6 and ATP 7-22.02 (2020) ch. 4: four holds of at most 60 s, nos. 2 and 4 on both sides (read). Which
  // of the two readings is meant is not said, so it is a setting of the entry: its sides.
  describe('four holds, two of them one-sided', () => {
    it('come to 240 s with 60 s an exercise and to 360 s with 60 s a side', () => {
      expect(timelineOf('four-holds-per-exercise', { countIn }).total).toBe(240);
      expect(timelineOf('four-holds-per-side', { countIn }).total).toBe(360);
    });
  });

  // FM 7-22 (2012) table 8-3: five two-position exercises, 20-30 s each (read); ATP 7-22.02 (2020) ch. 16: eight (list read).
  // Sums of holds computed.
  describe('recovery drills', () => {
    it.each([
      ['recovery-5-by-20', 10, 200],
      ['recovery-5-by-30', 10, 300],
      ['recovery-8-by-20', 16, 320],
      ['recovery-8-by-30', 16, 480],
    ])('%s: %i holds, %i s of holding', (name, holds, sum) => {
      const timeline = timelineOf(name, { countIn });
      expect([timeline.work.length, timeline.workSum]).toEqual([holds, sum]);
    });
  });

  // FM 7-22 (2012) ch. 9: ten stations of 60 s, up to three rotations (read); 15 s to move as in FM 21-20, sums computed.
  it('ten stations of a minute work 600 s a rotation and 1800 s in three', () => {
    expect(timelineOf('strength-circuit-1', { countIn }).workSum).toBe(600);
    expect(timelineOf('strength-circuit-3', { countIn }).workSum).toBe(1800);
  });

  // FM 7-22 (2012) ch. 10: 30:60 s and 60:120 s, work to recovery 1:2 (read); ten bouts are our own choice.
  it.each(['speed-running-30-60', 'speed-running-60-120'])('%s rests twice as long as it works', (name) => {
    const { work } = timelineOf(name, { countIn });
    const gaps = work.slice(1).map(({ start }, at) => start - (work[at]?.end ?? 0));
    expect(gaps).toHaveLength(9);
    for (const [at, gap] of gaps.entries()) expect(gap).toBe(2 * ((work[at]?.end ?? 0) - (work[at]?.start ?? 0)));
  });

  // FM 7-22 (2012) ch. 7: slow 50, moderate 80 counts a minute (read); a repetition of four counts is 4.8 or 3.0 s
  // (computed). Ch. 8: ten exercises in this order (read), five repetitions; that two of them are moderate is memory.
  describe('the preparation drill by counts', () => {
    it.each([
      [5, 24, 15, 222],
      [10, 48, 30, 444],
    ])('%i repetitions take %i s slow and %i s moderate, %i s in all', (repetitions, slow, moderate, total) => {
      const { work, ...timeline } = timelineOf(`preparation-drill-${repetitions}`, { countIn });
      const lengths = work.map(({ start, end }) => Math.round((end - start) * 1000) / 1000);
      expect(lengths).toEqual([slow, slow, moderate, slow, slow, slow, slow, slow, slow, moderate]);
      expect(timeline.total).toBe(total);
    });
  });

  // NHS (UK), "How to warm up before exercising" (read, reviewed 2013): march 3 min, 60 heel digs in 60 s, 30 knee lifts in
  // 30 s; an older text marches 2 min (second copy). Sums of the timed part computed.
  it('the timed part of a warm-up comes to 4:30, in its older form to 3:30', () => {
    expect(timelineOf('warm-up-timed-part', { countIn }).total).toBe(270);
    expect(timelineOf('warm-up-timed-part-older', { countIn }).total).toBe(210);
  });
});
