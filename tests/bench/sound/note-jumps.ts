import type { RunnerTestCase } from 'vitest';
import { noteBeside } from '../figure-lines.ts';
import { rounded } from '../numbers.ts';
import type { SoundReport } from '../page/sound-page.tsx';
import { jumpsOf } from './audio-fit.ts';

/** Says how often the sound device itself lost time: just after that nothing could have been on time. */
export function noteJumps(task: RunnerTestCase, where: string, { taps }: SoundReport): void {
  const jumps = taps.flatMap(jumpsOf);
  const lostMs = jumps.reduce((sum, { byMs }) => sum + byMs, 0);
  noteBeside(task, 'jumps of the audio clock itself', where, `${jumps.length}, by ${rounded(lostMs, 0)} ms in all`);
}
