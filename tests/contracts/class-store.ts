import { beforeEach, describe, expect, test } from 'vitest';
import type { ClassStore, Kept, RecordLine } from '../../src/ports/class-store.ts';
import { A_START_WALL_MS, aBeat, aHead, aMark, aNote, aPaper, ended, someMarks } from '../builders/kept-class.ts';

/** A place where raw rows lie, with the keys they lie under. */
export type Place = 'records' | 'papers' | 'marks' | 'beats' | 'notes' | 'settings';

export type ClassStoreHarness = {
  readonly store: ClassStore;
  /** Another window over the same data. */
  readonly again: () => ClassStore;
  /** Replaces the raw row under `key`; `undefined` takes it away. The row must be there. */
  readonly spoil: (place: Place, key: IDBValidKey, change: (row: object) => unknown) => Promise<void>;
  readonly count: (place: Place) => Promise<number>;
};

const tooNew = (row: object): object => ({ ...row, v: 99 });
const torn = (row: object): object => ({ ...row, v: 'torn' });

/** What every class store promises, whatever keeps the rows. */
export function classStoreContract(name: string, open: () => Promise<ClassStoreHarness>): void {
  describe(`class store: ${name}`, () => {
    let harness: ClassStoreHarness;
    let store: ClassStore;
    let life: number;

    beforeEach(async () => {
      harness = await open();
      store = harness.store;
      life = takeValue(await store.takeOver());
    });

    const begun = async (id = 'class-1', startedWallMs = A_START_WALL_MS) => {
      const head = aHead(id, { startedWallMs });
      takeValue(await store.begin(life, head, aPaper()));
      return head;
    };

    const openIn = async (window: ClassStore) => takeValue(await window.openClass());

    test('gives a class that was begun back to another window, with its papers', async () => {
      const head = await begun();
      expect(await openIn(harness.again())).toEqual({ head, paper: aPaper(), marks: [], beat: null });
    });

    test('knows of no open class where none was begun', async () => {
      expect(await store.openClass()).toEqual({ ok: true, value: null });
    });

    test('gives marks back in the order of their seq, with the last beat', async () => {
      const head = await begun();
      takeValue(await store.putMarks(life, head.id, someMarks(0, 11)));
      takeValue(await store.putBeat(life, aBeat(head.id, 8000)));
      takeValue(await store.putBeat(life, aBeat(head.id, 10_000)));
      const open = await openIn(harness.again());
      expect(open?.marks).toEqual(someMarks(0, 11));
      expect(open?.beat).toEqual(aBeat(head.id, 10_000));
    });

    test('takes the same marks, the same beginning and no marks at all without a change', async () => {
      const head = await begun();
      takeValue(await store.putMarks(life, head.id, someMarks(0, 2)));
      takeValue(await store.putMarks(life, head.id, someMarks(1, 3)));
      takeValue(await store.putMarks(life, head.id, []));
      await begun();
      expect((await openIn(store))?.marks).toEqual(someMarks(0, 3));
      expect(await harness.count('records')).toBe(1);
    });

    test('reads any class by its id, ended or not, and says null of one that is not there', async () => {
      const head = await begun();
      takeValue(await store.putMarks(life, head.id, someMarks(0, 1)));
      expect(takeValue(await store.readClass(head.id))).toEqual(await openIn(store));
      takeValue(await store.end(life, ended(head), someMarks(2, 3)));
      const read = takeValue(await store.readClass(head.id));
      expect(read).toEqual({ head: ended(head), paper: aPaper(), marks: someMarks(0, 3), beat: null });
      expect(takeValue(await store.readClass('class'))).toBeNull();
    });

    test('keeps the marks of each class apart', async () => {
      await begun('class-1', A_START_WALL_MS);
      await begun('class-10', A_START_WALL_MS + 1);
      takeValue(await store.putMarks(life, 'class-1', someMarks(0, 4)));
      takeValue(await store.putMarks(life, 'class-10', someMarks(0, 1)));
      expect((await openIn(store))?.marks).toEqual(someMarks(0, 1));
    });

    test('stores papers once however many classes ran from them', async () => {
      await begun('class-1');
      await begun('class-2');
      expect(await harness.count('papers')).toBe(1);
    });

    test('leaves papers as they lie, also those that it cannot read', async () => {
      await begun('class-1');
      await harness.spoil('papers', 'a'.repeat(64), tooNew);
      await begun('class-2');
      expect(await store.readClass('class-2')).toEqual({ ok: false, reason: 'tooNew' });
    });

    test('an ended class is open no more and is listed with its end and last mark', async () => {
      const head = await begun();
      takeValue(await store.putMarks(life, head.id, someMarks(0, 1)));
      takeValue(await store.putBeat(life, aBeat(head.id)));
      takeValue(await store.end(life, ended(head), someMarks(2, 4)));
      expect(await openIn(store)).toBeNull();
      expect(await list(store)).toEqual([{ readable: true, head: ended(head), lastSeq: 4 }]);
      expect(await harness.count('beats')).toBe(0);
    });

    test('a second beginning that comes after the end opens nothing again', async () => {
      const head = await begun();
      takeValue(await store.end(life, ended(head), []));
      await begun();
      expect(await openIn(store)).toBeNull();
    });

    test('of two open classes the one that started last is given', async () => {
      await begun('class-new', A_START_WALL_MS + 5);
      await begun('class-old', A_START_WALL_MS);
      expect((await openIn(store))?.head.id).toBe('class-new');
    });

    describe('fencing', () => {
      test('every take-over gives a higher number, from whichever window', async () => {
        const second = takeValue(await harness.again().takeOver());
        const third = takeValue(await store.takeOver());
        expect([second > life, third > second]).toEqual([true, true]);
      });

      test('after a take-over every write of the older window is refused and changes nothing', async () => {
        const head = await begun();
        takeValue(await store.putMarks(life, head.id, [aMark(0)]));
        const before = await openIn(store);
        takeValue(await harness.again().takeOver());
        const no = { ok: false, reason: 'fenced' };
        expect(await store.putMarks(life, head.id, [aMark(1)])).toEqual(no);
        expect(await store.putMarks(life, head.id, [])).toEqual(no);
        expect(await store.putBeat(life, aBeat(head.id, 5000))).toEqual(no);
        expect(await store.end(life, ended(head), [aMark(1)])).toEqual(no);
        expect(await store.begin(life, aHead('class-2'), aPaper('b'))).toEqual(no);
        expect(await openIn(store)).toEqual(before);
        expect([await harness.count('records'), await harness.count('papers')]).toEqual([1, 1]);
      });

      test('the newer window writes on', async () => {
        const head = await begun();
        const other = harness.again();
        const newer = takeValue(await other.takeOver());
        takeValue(await other.putMarks(newer, head.id, someMarks(0, 2, newer)));
        expect((await openIn(store))?.marks).toEqual(someMarks(0, 2, newer));
      });

      test('a number that storage has forgotten stands again with the first write', async () => {
        takeValue(await store.putBeat(life + 6, aBeat()));
        expect(await store.putBeat(life + 5, aBeat())).toEqual({ ok: false, reason: 'fenced' });
        expect(takeValue(await store.takeOver())).toBeGreaterThan(life + 6);
      });
    });

    describe('the list', () => {
      const idsOf = (lines: readonly RecordLine[]) => lines.map((line) => (line.readable ? line.head.id : line.id));

      test('is empty where nothing ran', async () => {
        expect(await list(store)).toEqual([]);
      });

      test('gives a page newest first, only what started before the instant asked for', async () => {
        for (const at of [3, 1, 2, 5, 4]) await begun(`class-${at}`, A_START_WALL_MS + at);
        expect(idsOf(takeValue(await store.listRecords(A_START_WALL_MS + 5, 2)))).toEqual(['class-4', 'class-3']);
        expect(idsOf(takeValue(await store.listRecords(A_START_WALL_MS + 3, 2)))).toEqual(['class-2', 'class-1']);
        expect(takeValue(await store.listRecords(A_START_WALL_MS + 5, 0))).toEqual([]);
      });

      test('loses none of several that started in one ms to the end of a page', async () => {
        for (const id of ['a', 'b', 'c']) await begun(id, A_START_WALL_MS);
        await begun('older', A_START_WALL_MS - 1);
        const page = takeValue(await store.listRecords(Number.POSITIVE_INFINITY, 2));
        expect(new Set(idsOf(page))).toEqual(new Set(['a', 'b', 'c']));
        expect(idsOf(takeValue(await store.listRecords(A_START_WALL_MS, 2)))).toEqual(['older']);
      });

      test('says -1 where no mark was kept', async () => {
        const head = await begun();
        expect(await list(store)).toEqual([{ readable: true, head, lastSeq: -1 }]);
      });

      test('sets unreadable heads and those of a newer version aside, by name, and leaves them there', async () => {
        for (const at of [1, 2, 3]) await begun(`class-${at}`, A_START_WALL_MS + at);
        await harness.spoil('records', 'class-2', torn);
        await harness.spoil('records', 'class-3', tooNew);
        expect(await list(store)).toEqual([
          { readable: false, id: 'class-3', reason: 'tooNew' },
          { readable: false, id: 'class-2', reason: 'unreadable' },
          { readable: true, head: aHead('class-1', { startedWallMs: A_START_WALL_MS + 1 }), lastSeq: -1 },
        ]);
        expect(await harness.count('records')).toBe(3);
      });
    });

    describe('an open class that cannot be gone on with', () => {
      test.each([
        ['a torn head', 'records', 'class-1', torn, 'unreadable'],
        ['a head of a newer version', 'records', 'class-1', tooNew, 'tooNew'],
        ['torn papers', 'papers', 'a'.repeat(64), torn, 'unreadable'],
        ['papers of a newer version', 'papers', 'a'.repeat(64), tooNew, 'tooNew'],
        ['papers that are gone', 'papers', 'a'.repeat(64), () => undefined, 'unreadable'],
        ['a torn mark', 'marks', ['class-1', 1], torn, 'unreadable'],
        ['a mark of a newer version', 'marks', ['class-1', 2], tooNew, 'tooNew'],
        ['a hole in the marks', 'marks', ['class-1', 1], () => undefined, 'unreadable'],
        ['a missing first mark', 'marks', ['class-1', 0], () => undefined, 'unreadable'],
      ] as const)('%s is said', async (_what, place, key, change, reason) => {
        const head = await begun();
        takeValue(await store.putMarks(life, head.id, someMarks(0, 3)));
        await harness.spoil(place, key as IDBValidKey, change);
        expect(await store.openClass()).toEqual({ ok: false, reason });
        expect(await store.readClass(head.id)).toEqual({ ok: false, reason });
        expect(await harness.count('records')).toBe(1);
      });

      test('is passed over for an older one that can', async () => {
        await begun('class-old', A_START_WALL_MS);
        await begun('class-new', A_START_WALL_MS + 1);
        await harness.spoil('records', 'class-new', torn);
        expect((await openIn(store))?.head.id).toBe('class-old');
      });
    });

    test('goes on without a tail of marks that is missing', async () => {
      const head = await begun();
      takeValue(await store.putMarks(life, head.id, someMarks(0, 3)));
      await harness.spoil('marks', [head.id, 3], () => undefined);
      expect((await openIn(store))?.marks).toEqual(someMarks(0, 2));
    });

    test('goes on without a beat that cannot be read', async () => {
      const head = await begun();
      takeValue(await store.putMarks(life, head.id, someMarks(0, 1)));
      takeValue(await store.putBeat(life, aBeat(head.id)));
      await harness.spoil('beats', head.id, torn);
      const open = await openIn(store);
      expect([open?.beat, open?.marks.length]).toEqual([null, 2]);
    });

    describe('notes', () => {
      test('are given by class and never changed once they are there', async () => {
        takeValue(await store.addNote(aNote('n-1')));
        takeValue(await store.addNote(aNote('n-2', { value: 'more water' })));
        takeValue(await store.addNote(aNote('n-1', { value: 'something else' })));
        takeValue(await store.addNote(aNote('n-3', { recordId: 'class-2' })));
        const notes = takeValue(await harness.again().notesOf('class-1'));
        expect(notes).toEqual([aNote('n-1'), aNote('n-2', { value: 'more water' })]);
      });

      test('that cannot be read are set aside and stay', async () => {
        takeValue(await store.addNote(aNote('n-1')));
        takeValue(await store.addNote(aNote('n-2')));
        await harness.spoil('notes', ['class-1', 'n-1'], torn);
        expect(takeValue(await store.notesOf('class-1'))).toEqual([aNote('n-2')]);
        expect(await harness.count('notes')).toBe(2);
      });
    });

    describe('the hall card', () => {
      const card = { v: 1, address: '5 Mill Lane', defibrillator: 'by the door', emergencyNumber: '112' };

      test('is null before the first, then the last one put', async () => {
        expect(takeValue(await store.hallCard())).toBeNull();
        takeValue(await store.putHallCard({ ...card, address: '' }));
        takeValue(await store.putHallCard(card));
        expect(takeValue(await harness.again().hallCard())).toEqual(card);
      });

      test.each([
        ['torn', torn, 'unreadable'],
        ['of a newer version', tooNew, 'tooNew'],
      ] as const)('that is %s is said to be', async (_what, change, reason) => {
        takeValue(await store.putHallCard(card));
        await harness.spoil('settings', 'hallCard', change);
        expect(await store.hallCard()).toEqual({ ok: false, reason });
      });
    });
  });
}

async function list(store: ClassStore): Promise<readonly RecordLine[]> {
  return takeValue(await store.listRecords(Number.POSITIVE_INFINITY, 100));
}

/** The value of an answer that must be a yes. */
export function takeValue<T>(answer: Kept<T>): T {
  if (!answer.ok) throw new Error(`the store said ${answer.reason}`);
  return answer.value;
}
