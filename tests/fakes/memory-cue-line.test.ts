import { cueLineContract } from '../contracts/cue-line.ts';
import { fakeClocks } from './fake-clocks.ts';
import { memoryCueLine } from './memory-cue-line.ts';

cueLineContract('into memory', async () => {
  const clocks = fakeClocks();
  const line = memoryCueLine(clocks);
  return {
    line,
    clocks,
    touch: (press) => press(),
    heard: line.heard,
    interrupt: () => line.become('interrupted'),
    endInterruption: () => line.become('needsTap'),
  };
});
