import { type EngineTimes, timeEngine } from '../engine/engine-work.ts';

declare global {
  interface Window {
    timeEngine: () => EngineTimes;
  }
}

window.timeEngine = () => timeEngine(() => performance.now());
