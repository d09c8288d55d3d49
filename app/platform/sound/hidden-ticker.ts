import type { Log } from '../../../src/ports/log.ts';

/** As much of a browser's worker as is used. */
export type TickingWorker = {
  onmessage: ((event: MessageEvent) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
  readonly terminate: () => void;
};

/** A file of its own: the content security policy allows no worker out of a blob. */
export function makeTickingWorker(): TickingWorker {
  return new Worker(new URL('./hidden-ticker-worker.ts', import.meta.url), { type: 'module' });
}

/**
 * Calls `tick` about four times a second, also while the page is hidden, until the returned function is called. Where
 * there are no workers it never ticks, and the page's own slow timers must do.
 */
export function startHiddenTicker(makeWorker: () => TickingWorker, tick: () => void, log: Log): () => void {
  let worker: TickingWorker | null = null;
  try {
    worker = makeWorker();
    worker.onmessage = tick;
    worker.onerror = (event) => log.note('ticker: worker failed', event.message);
  } catch (error) {
    log.note('ticker: no worker', error);
  }
  return () => {
    worker?.terminate();
    worker = null;
  };
}
