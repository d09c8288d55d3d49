import type { Kept, StoreReason } from '../../src/ports/class-store.ts';
import type { Timers } from '../../src/ports/clocks.ts';
import type { Log } from '../../src/ports/log.ts';

/** What to do once it is known that something was written; `isLate`: given up before, and perhaps written again since. */
export type Hold = (isLate: boolean) => void;

/** One write that may be done again. */
export type Write = () => Promise<Kept<Hold>>;

export type PatientWriter = {
  /** Writes whatever is next, unless a write is under way or another try is being waited for. */
  readonly look: () => void;
  /** Ends the wait before another try. */
  readonly hasten: () => void;
};

export type WriterNeeds = {
  readonly timers: Timers;
  readonly log: Log;
  /** The most urgent write, or null when there is none. The same one comes again until it held. */
  readonly next: () => Write | null;
  readonly onFailure: (reason: StoreReason) => void;
  /** After every answer, late ones too. */
  readonly onAnswer: () => void;
};

/** A store answers within 2 s; one that breaks that promise costs this long and no class. */
const PATIENCE_MS = 5000;
const FIRST_WAIT_MS = 250;
const LONGEST_WAIT_MS = 8000;

/** Runs one write at a time, for ever, with growing waits while they fail. */
export function patientWriter({ timers, log, next, onFailure, onAnswer }: WriterNeeds): PatientWriter {
  let isWriting = false;
  let endWait: (() => void) | null = null;
  let failures = 0;

  const wait = (): void => {
    const delayMs = Math.min(FIRST_WAIT_MS * 2 ** failures, LONGEST_WAIT_MS);
    failures += 1;
    endWait = timers.after(delayMs, () => {
      endWait = null;
      look();
    });
  };

  const write = (one: Write): void => {
    let isOver = false;

    const hear = (answer: Kept<Hold>): void => {
      if (answer.ok) answer.value(isOver);
      else onFailure(answer.reason);
      if (!isOver) goOn(answer.ok);
      onAnswer();
      look();
    };

    const goOn = (isHeld: boolean): void => {
      isOver = true;
      stopWaiting();
      isWriting = false;
      if (isHeld) failures = 0;
      else wait();
    };

    const stopWaiting = timers.after(PATIENCE_MS, () => hear({ ok: false, reason: 'unavailable' }));
    run(one, log)
      .then(hear)
      .catch((fault: unknown) => log.note('outbox: an answer could not be taken', fault));
  };

  const look = (): void => {
    if (isWriting || endWait !== null) return;
    const one = next();
    if (one === null) return;
    isWriting = true;
    write(one);
  };

  return {
    look,
    hasten: () => {
      if (endWait === null) return;
      endWait();
      endWait = null;
      look();
    },
  };
}

/** Begins at once, and makes of a store that throws one that is unavailable. */
async function run(one: Write, log: Log): Promise<Kept<Hold>> {
  try {
    return await one();
  } catch (fault) {
    log.note('outbox: the store threw', fault);
    return { ok: false, reason: 'unavailable' };
  }
}
