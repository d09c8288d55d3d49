import type { ClassStore, OpenClass } from '../../src/ports/class-store.ts';
import type { Clocks, Timers } from '../../src/ports/clocks.ts';
import type { Log } from '../../src/ports/log.ts';
import { type Paper, type RecordHead, STORED_VERSION } from '../../src/records/stored-shapes.ts';
import type { Keeper } from './live-contract.ts';
import { createOutbox, type Outbox } from './outbox.ts';

export type KeeperNeeds = {
  readonly store: ClassStore;
  readonly clocks: Clocks;
  readonly timers: Timers;
  readonly log: Log;
};

export type NewRecord = {
  readonly recordId: string;
  readonly zone: string;
  readonly paper: Promise<Paper | null>;
};

/**
 * Keeps a class that is yet to start. The papers may still be on their way at Start; until they are there everything
 * waits in order. Without papers nothing can be kept, and the fact says so.
 */
export function newKeeper(needs: KeeperNeeds, { recordId, zone, paper }: NewRecord): Keeper {
  let outbox: Outbox | null = null;
  let head: RecordHead | null = null;
  let isOff = false;
  const hearers = new Set<() => void>();
  const told = (): void => {
    for (const hear of [...hearers]) hear();
  };

  /** Runs in order once the class has begun and its papers are there. */
  let begun: Promise<void> | null = null;
  const later = (work: (box: Outbox) => void): void => {
    if (outbox !== null) work(outbox);
    else
      void begun?.then(() => outbox !== null && work(outbox)).catch((error) => needs.log.note('keeper: lost', error));
  };

  const begin = async (startedWallMs: number): Promise<void> => {
    const papers = await paper;
    if (papers === null) {
      isOff = true;
      told();
      return;
    }
    head = headOf(recordId, zone, papers, startedWallMs);
    outbox = createOutbox({ ...needs, recordId, life: null, keptSeq: null });
    outbox.listen(told);
    outbox.begin(head, papers);
    told();
  };

  return {
    life: () => outbox?.life() ?? 0,
    begin: ({ startedWallMs }) => {
      begun = begin(startedWallMs).catch((error) => needs.log.note('keeper: no begin', error));
    },
    add: (marks) => later((box) => box.add(marks)),
    beat: (atMs, wallMs) => later((box) => box.beat(beatOf(box, recordId, atMs, wallMs))),
    end: (outcome, endedWallMs) => later((box) => head !== null && box.finish({ ...head, outcome, endedWallMs })),
    fact: () => (isOff ? 'off' : (outbox?.state() ?? 'keeping')),
    keptSeq: () => outbox?.keptSeq() ?? null,
    hasten: () => outbox?.hasten(),
    listen: (hear) => {
      hearers.add(hear);
      return () => hearers.delete(hear);
    },
  };
}

/** Keeps on keeping a class that was taken up again. */
export function resumedKeeper(needs: KeeperNeeds, { head, marks }: OpenClass, life: number | null): Keeper {
  const outbox = createOutbox({ ...needs, recordId: head.id, life, keptSeq: marks.at(-1)?.seq ?? null });
  return {
    life: () => outbox.life() ?? 0,
    begin: () => undefined,
    add: outbox.add,
    beat: (atMs, wallMs) => outbox.beat(beatOf(outbox, head.id, atMs, wallMs)),
    end: (outcome, endedWallMs) => outbox.finish({ ...head, outcome, endedWallMs }),
    fact: outbox.state,
    keptSeq: outbox.keptSeq,
    hasten: outbox.hasten,
    listen: outbox.listen,
  };
}

/** A rehearsal is not kept. */
export const rehearsalKeeper: Keeper = {
  life: () => 0,
  begin: () => undefined,
  add: () => undefined,
  beat: () => undefined,
  end: () => undefined,
  fact: () => 'rehearsal',
  keptSeq: () => null,
  hasten: () => undefined,
  listen: () => () => undefined,
};

function headOf(id: string, zone: string, { hash, plan }: Paper, startedWallMs: number): RecordHead {
  return {
    v: STORED_VERSION,
    id,
    startedWallMs,
    zone,
    planId: plan.id,
    planName: plan.name,
    paperHash: hash,
    courseId: null,
    endedWallMs: null,
    outcome: null,
  };
}

function beatOf(outbox: Outbox, recordId: string, atMs: number, wallMs: number) {
  return { v: STORED_VERSION, recordId, life: outbox.life() ?? 0, atMs, wallMs };
}
