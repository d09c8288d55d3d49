import fc from 'fast-check';
import { expect, test, vi } from 'vitest';
import { idbClassStore } from '../../../../app/platform/store/idb-class-store.ts';
import { storeTransactions } from '../../../../app/platform/store/store-transactions.ts';
import type { ClassStore, Kept } from '../../../../src/ports/class-store.ts';
import { A_START_WALL_MS, aBeat, aHead, aNote, aPaper, ended, someMarks } from '../../../builders/kept-class.ts';
import { fakeClocks } from '../../../fakes/fake-clocks.ts';
import { fakeDatabase } from '../../../fakes/fake-database.ts';
import { memoryClassStore } from '../../../fakes/memory-class-store.ts';
import { memoryLog } from '../../../fakes/memory-log.ts';

type Ask = (store: ClassStore) => Promise<Kept<unknown>>;

const life = fc.integer({ min: 0, max: 3 });
const id = fc.constantFrom('class-1', 'class-2', 'class-3');
/** Heads of one id always have the same start, as in life; two ids share theirs. */
const headOf = (classId: string) =>
  aHead(classId, { startedWallMs: A_START_WALL_MS + (classId === 'class-3' ? 1 : 0) });
const marks = fc
  .tuple(fc.integer({ min: 0, max: 4 }), fc.integer({ min: -1, max: 3 }))
  .map(([from, more]) => someMarks(from, from + more));
const start = fc.constantFrom(A_START_WALL_MS, A_START_WALL_MS + 1, Number.POSITIVE_INFINITY);

const ask: fc.Arbitrary<Ask> = fc.oneof(
  fc.constant<Ask>((store) => store.takeOver()),
  fc.tuple(life, id).map(
    ([at, of]): Ask =>
      (store) =>
        store.begin(at, headOf(of), aPaper()),
  ),
  fc.tuple(life, id, marks).map(
    ([at, of, some]): Ask =>
      (store) =>
        store.putMarks(at, of, some),
  ),
  fc.tuple(life, id, fc.nat(9)).map(
    ([at, of, ms]): Ask =>
      (store) =>
        store.putBeat(at, aBeat(of, ms)),
  ),
  fc.tuple(life, id, marks).map(
    ([at, of, some]): Ask =>
      (store) =>
        store.end(at, ended(headOf(of)), some),
  ),
  fc.constant<Ask>((store) => store.openClass()),
  id.map(
    (of): Ask =>
      (store) =>
        store.readClass(of),
  ),
  fc.tuple(start, fc.nat(4)).map(
    ([before, limit]): Ask =>
      (store) =>
        store.listRecords(before, limit),
  ),
  fc.tuple(id, fc.constantFrom('n-1', 'n-2'), fc.constantFrom('x', 'y')).map(
    ([recordId, noteId, value]): Ask =>
      (store) =>
        store.addNote(aNote(noteId, { recordId, value })),
  ),
  id.map(
    (of): Ask =>
      (store) =>
        store.notesOf(of),
  ),
);

test('whatever is asked in whatever order, the database and its double give the same answers', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(ask, { maxLength: 40 }), async (asks) => {
      fakeDatabase();
      const real = idbClassStore(storeTransactions({ timers: fakeClocks().timers, log: memoryLog() }));
      const double = memoryClassStore();
      for (const one of asks) expect(await one(double)).toEqual(await one(real));
      vi.unstubAllGlobals();
    }),
    { numRuns: 60 },
  );
});
