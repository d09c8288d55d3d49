import { afterEach, beforeEach, inject, type RunnerTestCase, test } from 'vitest';
import { SOUND_KINDS } from '../../../app/platform/sound/clips.ts';
import { newPhone, type Phone } from '../../browser/support/phone.ts';
import { noteBeside, noteFigure } from '../figure-lines.ts';
import { medianAndWorst, rounded, worstOf } from '../numbers.ts';
import type { SoundReport } from '../page/sound-page.tsx';
import { everyCueClass } from '../sound/bench-classes.ts';
import { blocked, hidden, slowed, undisturbed } from '../sound/conditions.ts';
import { expectedCues } from '../sound/expected-cues.ts';
import { type CueHeard, type Matched, matchOnsets, naiveHeard } from '../sound/match-onsets.ts';
import { noteJumps } from '../sound/note-jumps.ts';
import { type Condition, runClass } from '../sound/run-class.ts';

const CLASS_CLOCK_LIMIT_MS = 10;
/** A hidden page reads its clocks less often. */
const HIDDEN_LIMIT_MS = 12;
const LATE_MS = 150;
const SCHEDULE_LIMIT_SAMPLES = 1;

type Case = {
  readonly where: string;
  readonly during: Condition;
  /** From 45 s on there is a halfway to hear as well, which makes the longest class. */
  readonly firstMoveSeconds: number;
  readonly limitMs: number;
  /** Ticks a second of a 100 ms timer: above this the page was not under the condition. */
  readonly mostTicks: number;
};

const plain = { firstMoveSeconds: 6, limitMs: CLASS_CLOCK_LIMIT_MS };
const CASES: readonly Case[] = [
  { ...plain, where: 'undisturbed', during: undisturbed, firstMoveSeconds: 45, mostTicks: 11 },
  { ...plain, where: 'main thread blocked 3 s at a time', during: blocked, mostTicks: 4 },
  { ...plain, where: 'slowed 6 times', during: slowed, mostTicks: 11 },
  { ...plain, where: 'page hidden', during: hidden, limitMs: HIDDEN_LIMIT_MS, mostTicks: 2 },
];

let phone: Phone;

beforeEach(async () => {
  phone = await newPhone(inject('benchPages'));
});

afterEach(() => phone.end());

test.for(CASES)('onset, $where', async ({ where, during, firstMoveSeconds, limitMs, mostTicks }, { task }) => {
  const plan = everyCueClass(firstMoveSeconds);
  const missing = SOUND_KINDS.filter((kind) => !expectedCues(plan).some((cue) => cue.kind === kind));
  if (missing.some((kind) => kind !== 'halfway' || firstMoveSeconds >= 45))
    throw new Error(`no ${missing} in the class`);
  const report = await runClass(phone, await phone.open(), plan, during);
  const ticks = report.timerTicks / report.timerSeconds;
  if (ticks > mostTicks) throw new Error(`a 100 ms timer ticked ${rounded(ticks)} times a second: no such condition`);
  noteOnsets(task, where, matchOnsets(report), limitMs);
  noteNaive(task, where, report, ticks);
  noteJumps(task, where, report);
});

function noteOnsets(task: RunnerTestCase, where: string, { cues, strayOnsets }: Matched, limitMs: number): void {
  const lost = cues.filter(({ times }) => times.length === 0);
  const doubled = cues.filter(({ times }) => times.length > 1);
  const late = cues.filter(({ times }) => times.some(({ lateMs }) => lateMs > LATE_MS));
  const all = cues.flatMap(({ times }) => times);
  const offFrames = all.map(({ offScheduleFrames }) => Math.abs(offScheduleFrames));
  const offMs = all.map(({ lateMs }) => Math.abs(lateMs));
  noteFigure(task, {
    figure: 'onset from schedule',
    where,
    value: worstOf(offFrames),
    limit: SCHEDULE_LIMIT_SAMPLES,
    unit: 'samples',
    measured: `${worstOf(offFrames)} samples worst of ${offFrames.length}`,
  });
  noteFigure(task, {
    figure: 'onset from class clock',
    where,
    value: worstOf(offMs),
    limit: limitMs,
    unit: 'ms',
    measured: medianAndWorst(offMs, 'ms'),
  });
  noteFigure(task, {
    figure: `cues lost, doubled, over ${LATE_MS} ms late or stray`,
    where,
    value: lost.length + doubled.length + late.length + strayOnsets,
    limit: 0,
    unit: `of ${cues.length}`,
    measured: [
      `${lost.length}, ${doubled.length}, ${late.length}, ${strayOnsets} of ${cues.length}`,
      ...[...lost, ...doubled, ...late].map(told),
    ].join('; '),
  });
}

function told({ key, times }: CueHeard): string {
  return `${key} ${times.length === 0 ? 'lost' : times.map(({ lateMs }) => `${rounded(lateMs)} ms`).join(' and ')}`;
}

function noteNaive(task: RunnerTestCase, where: string, report: SoundReport, ticks: number): void {
  const { lateMs, apart } = naiveHeard(report);
  const heard = lateMs.filter((late) => late !== null);
  const offMs = heard.map(Math.abs);
  const measured = `${medianAndWorst(offMs, 'ms')}, ${lateMs.length - heard.length} lost, ${apart} told apart of ${lateMs.length}`;
  noteBeside(task, 'by setInterval and howl.play() from class clock', where, measured);
  noteBeside(task, 'a 100 ms timer of the page', where, `${rounded(ticks)} ticks a second`);
}
