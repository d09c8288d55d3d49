import { cueLineContract } from '../../../contracts/cue-line.ts';
import { phoneWithSound } from './phone-with-sound.ts';

const world = (skewPpm: number, stepFrames: number) => async () => {
  const phone = phoneWithSound({ skewPpm, stepFrames });
  const { line, clocks, audio, heard } = phone;
  return {
    line,
    clocks,
    heard,
    touch: audio.touch,
    interrupt: audio.interrupt,
    endInterruption: audio.endInterruption,
  };
};

cueLineContract('by Web Audio, steps of 10 ms', world(0, 480));
cueLineContract('by Web Audio, steps of 43 ms, a fast crystal', world(60, 2048));
