import { afterEach, beforeEach, inject, type RunnerTestCase, test } from 'vitest';
import { newPhone, type Phone } from '../../browser/support/phone.ts';
import { noteFigure } from '../figure-lines.ts';
import { rounded, worstOf } from '../numbers.ts';
import type { SoundReport } from '../page/sound-page.tsx';
import { type Jump, jumpsOf } from '../sound/audio-fit.ts';
import { denseClass } from '../sound/bench-classes.ts';
import { frozenForAWhile, sinkSuspendedForAWhile } from '../sound/conditions.ts';
import { matchOnsets } from '../sound/match-onsets.ts';
import { noteJumps } from '../sound/note-jumps.ts';
import { runClass } from '../sound/run-class.ts';
import { hasSoundServer, type SoundServer, startSoundServer } from '../sound/sound-server.ts';

const LIMIT_MS = 10;
const SETTLED_MS = 2000;
const MOVES = 6;

let phone: Phone;
let server: SoundServer | null = null;

beforeEach(async () => {
  phone = await newPhone(inject('benchPages'));
});

afterEach(async () => {
  await phone.end();
  await server?.end();
  server = null;
});

/**
 * Every cue from two seconds after the page or the sound was back; what is not heard once, in its time, is no number. A
 * sound server that gets no time makes jumps of its own, each of them one more stop: two seconds after those count as well.
 */
function noteAfter(task: RunnerTestCase, where: string, report: SoundReport, backMonoMs: number): void {
  const { cues } = matchOnsets(report);
  const jumps = report.taps.flatMap(jumpsOf).filter(({ fromMonoMs }) => fromMonoMs > backMonoMs);
  const after = cues.filter(({ dueMonoMs }) => dueMonoMs >= backMonoMs + SETTLED_MS);
  const calm = after.filter(({ dueMonoMs }) => !jumps.some((jump) => isJustBefore(jump, dueMonoMs)));
  if (calm.length < after.length / 2)
    throw new Error(`${jumps.length} jumps of the sound device: the machine is too busy`);
  const offMs = calm.map(({ times }) => (times.length === 1 ? Math.abs(times[0]?.lateMs ?? Number.NaN) : Number.NaN));
  const heard = offMs.filter((ms) => !Number.isNaN(ms));
  noteFigure(task, {
    figure: 'onset from class clock',
    where,
    value: worstOf(offMs),
    limit: LIMIT_MS,
    unit: 'ms',
    measured: `${rounded(worstOf(heard))} ms worst, ${heard.length} of ${calm.length} heard once, ${after.length - calm.length} after other jumps`,
  });
  noteJumps(task, where, report);
}

function isJustBefore({ fromMonoMs, toMonoMs }: Jump, dueMonoMs: number): boolean {
  return dueMonoMs > fromMonoMs && dueMonoMs < toMonoMs + SETTLED_MS;
}

test('2 s after a freeze', async ({ task }) => {
  const report = await runClass(phone, await phone.open(), denseClass(MOVES), frozenForAWhile);
  const thawed = report.life.find(([, event]) => event.startsWith('resume'));
  if (thawed === undefined) throw new Error('the page was never frozen');
  noteAfter(task, '2 s after a freeze of 4 s', report, thawed[0]);
});

test('2 s after a suspended sink', async ({ task, skip }) => {
  if (!hasSoundServer()) skip('no pulseaudio');
  server = await startSoundServer();
  const opened = await phone.open({ flags: [], env: server.env });
  const condition = sinkSuspendedForAWhile(server);
  const report = await runClass(phone, opened, denseClass(MOVES), condition.during);
  const stalled = report.facts.some(([, fact]) => fact === 'stalled');
  if (!stalled) throw new Error('the sound never stood still');
  noteAfter(task, '2 s after a sink suspended for 4 s', report, condition.backMonoMs());
});
