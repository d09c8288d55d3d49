import type { Mark } from '../../src/class-run/marks.ts';
import type { ClassStore } from '../../src/ports/class-store.ts';
import type { Clocks, Timers } from '../../src/ports/clocks.ts';
import type { Log } from '../../src/ports/log.ts';
import type { Beat, Paper, RecordHead } from '../../src/records/stored-shapes.ts';
import { patientWriter, type Write } from './patient-writer.ts';
import { waitingRows } from './waiting-rows.ts';

/**
 * How keeping goes. `behind`: something has waited for over 2 s. `fenced`: another window has taken over, nothing more
 * is written from here. `off`: no fencing number can be had, so nothing is written yet; it is asked for again and again.
 */
export type KeepingState = 'keeping' | 'behind' | 'fenced' | 'off';

/** Takes what a class has to keep and writes it, in order, as long as it takes. Nothing here is waited for or throws. */
export type Outbox = {
  /** The class has started: head and papers go before everything else. Not for a class that is gone on with. */
  readonly begin: (head: RecordHead, paper: Paper) => void;
  /** In order of seq, each mark once. */
  readonly add: (marks: readonly Mark[]) => void;
  /** Only the newest is written, after the marks that wait. Ignored once the class has finished. */
  readonly beat: (beat: Beat) => void;
  /** The head with its end; the marks that still wait go with it in one transaction. */
  readonly finish: (head: RecordHead) => void;
  /** Tries again at once where another try is being waited for: for a page that came back. */
  readonly hasten: () => void;
  readonly state: () => KeepingState;
  /** The fencing number in use, or null while there is none. */
  readonly life: () => number | null;
  /** The last seq known to be stored, every one before it too; null while none is. Never falls, never says too much. */
  readonly keptSeq: () => number | null;
  /** The `monoMs` at which the oldest row that still waits was added; null when none waits. Beats do not count. */
  readonly behindSinceMs: () => number | null;
  /** Settles when nothing waits, or never will again because this window is fenced. */
  readonly flushed: () => Promise<void>;
  /** Calls `hear` when `state` or `keptSeq` has changed until the returned function is called. */
  readonly listen: (hear: () => void) => () => void;
};

export type OutboxNeeds = {
  readonly store: ClassStore;
  readonly clocks: Clocks;
  readonly timers: Timers;
  readonly log: Log;
  readonly recordId: string;
  /** What `takeOver` gave, or null where it failed: then the outbox takes over by itself as soon as it can. */
  readonly life: number | null;
  /** The last seq in the store of a class that is gone on with; null for a new one. */
  readonly keptSeq: number | null;
};

const BEHIND_MS = 2000;

export function createOutbox(needs: OutboxNeeds): Outbox {
  const { store, clocks, timers, log } = needs;
  const rows = waitingRows(needs.recordId, needs.keptSeq);
  const hearers = new Set<{ readonly hear: () => void }>();
  let waitingForFlush: (() => void)[] = [];
  let life = needs.life;
  let isFenced = false;
  /** A take-over has failed and none has come about since. */
  let isOff = false;
  let endWatch: (() => void) | null = null;

  const takeOver: Write = async () => {
    const answer = await store.takeOver();
    if (!answer.ok) return answer;
    // A late number is not taken: the next try may raise it, and this window would fence itself.
    const hold = (isLate: boolean): void => {
      if (isLate) return;
      life = answer.value;
      isOff = false;
    };
    return { ok: true, value: hold };
  };

  const state = (): KeepingState => {
    if (isFenced) return 'fenced';
    if (isOff) return 'off';
    const sinceMs = rows.sinceMs();
    return sinceMs !== null && clocks.monoMs() - sinceMs >= BEHIND_MS ? 'behind' : 'keeping';
  };

  let told = { state: state(), keptSeq: rows.keptSeq() };

  const tell = (): void => {
    watch();
    const now = { state: state(), keptSeq: rows.keptSeq() };
    if (now.state === told.state && now.keptSeq === told.keptSeq) return;
    told = now;
    for (const one of [...hearers]) tellOne(one.hear);
  };

  const tellOne = (hear: () => void): void => {
    try {
      hear();
    } catch (fault) {
      // What hears is somebody's screen; what waits here is somebody's class.
      log.note('outbox: a hearer threw', fault);
    }
  };

  /** Comes back when the oldest row has waited too long; nothing else happens then that would say so. */
  const watch = (): void => {
    const sinceMs = rows.sinceMs();
    const leftMs = sinceMs === null ? 0 : sinceMs + BEHIND_MS - clocks.monoMs();
    if (leftMs > 0 && endWatch !== null) return;
    endWatch?.();
    endWatch = leftMs <= 0 ? null : timers.after(leftMs, onWatched);
  };

  const onWatched = (): void => {
    endWatch = null;
    tell();
  };

  const endFlush = (): void => {
    if (!rows.isEmpty()) return;
    for (const settle of waitingForFlush) settle();
    waitingForFlush = [];
  };

  const writer = patientWriter({
    timers,
    log,
    next: () => (life === null ? takeOver : rows.next(store, life)),
    onFailure: (reason) => {
      if (life === null) isOff = true;
      if (reason !== 'fenced') return;
      // Nothing comes in from here on, so there is nothing more to write.
      isFenced = true;
      rows.clear();
    },
    onAnswer: () => {
      endFlush();
      tell();
    },
  });

  /** What comes in goes on its way at once, so that the last words of a page that is hidden are still sent. */
  const take = (put: (nowMs: number) => void): void => {
    if (isFenced) return;
    put(clocks.monoMs());
    writer.look();
    tell();
  };

  const addOne = (mark: Mark, nowMs: number): void => {
    if (mark.seq !== rows.nextSeq()) log.note('outbox: a mark out of order', mark.seq);
    if (mark.seq >= rows.nextSeq()) rows.add(mark, nowMs);
  };

  writer.look();

  return {
    begin: (head, paper) => take((nowMs) => rows.begin(head, paper, nowMs)),
    add: (marks) =>
      take((nowMs) => {
        for (const mark of marks) addOne(mark, nowMs);
      }),
    beat: (beat) => take(() => rows.beat(beat)),
    finish: (head) => take((nowMs) => rows.end(head, nowMs)),
    hasten: () => writer.hasten(),
    state,
    life: () => life,
    keptSeq: () => rows.keptSeq(),
    behindSinceMs: () => rows.sinceMs(),
    flushed: () =>
      new Promise((resolve) => {
        waitingForFlush.push(resolve);
        endFlush();
      }),
    listen: (hear) => {
      const one = { hear };
      hearers.add(one);
      return () => {
        hearers.delete(one);
      };
    },
  };
}
