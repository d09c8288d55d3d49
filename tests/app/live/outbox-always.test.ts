import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createOutbox, type Outbox } from '../../../app/live/outbox.ts';
import type { Mark } from '../../../src/class-run/marks.ts';
import { aBeat, aHead, aMark, aPaper, ended } from '../../builders/kept-class.ts';
import { takeValue } from '../../contracts/class-store.ts';
import { type FakeClocks, fakeClocks, settle } from '../../fakes/fake-clocks.ts';
import { type MemoryClassStore, memoryClassStore } from '../../fakes/memory-class-store.ts';
import { type MemoryDisk, memoryDisk } from '../../fakes/memory-disk.ts';
import { memoryLog } from '../../fakes/memory-log.ts';
import type { Behaviour } from '../../fakes/wilful.ts';

/** One window of a phone with a class in it: what it was given, and what it says is kept. */
type Window = {
  readonly store: MemoryClassStore;
  readonly outbox: Outbox;
  readonly life: number;
  /** Marks as this window knows the class, stored or not. */
  readonly marks: Mark[];
  /** The highest seq that it ever said is kept. */
  saidSeq: number | null;
};

type Phone = { readonly time: FakeClocks; readonly disk: MemoryDisk };

const behaviour: fc.Arbitrary<Behaviour> = fc.constantFrom<Behaviour>(
  'obey',
  'hang',
  'holdAnswer',
  'loseAnswer',
  'landLate',
  'landTwice',
  { refuse: 'unavailable' },
  { refuse: 'full' },
);

type Happening =
  | { readonly do: 'add'; readonly count: number }
  | { readonly do: 'behave'; readonly how: Behaviour; readonly times: number }
  | { readonly do: 'pass'; readonly ms: number }
  | { readonly do: 'takeOver'; readonly kills: boolean }
  | { readonly do: 'beat' | 'release' | 'hasten' };

const happening: fc.Arbitrary<Happening> = fc.oneof(
  { weight: 6, arbitrary: fc.record({ do: fc.constant('add'), count: fc.integer({ min: 1, max: 130 }) }) },
  {
    weight: 4,
    arbitrary: fc.record({ do: fc.constant('behave'), how: behaviour, times: fc.integer({ min: 1, max: 4 }) }),
  },
  { weight: 5, arbitrary: fc.record({ do: fc.constant('pass'), ms: fc.constantFrom(0, 250, 2000, 5250, 9000) }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('takeOver'), kills: fc.boolean() }) },
  { weight: 6, arbitrary: fc.record({ do: fc.constantFrom('beat', 'release', 'release', 'hasten') }) },
);

/** Marks in the store, in order of seq. */
const storedMarks = ({ disk }: Phone): readonly Mark[] =>
  [...(disk.marks.get('class-1') ?? [])].sort(([a], [b]) => a - b).map(([, row]) => (row as { mark: Mark }).mark);

const seqsUpTo = (length: number): readonly number[] => Array.from({ length }, (_, seq) => seq);

function openWindow({ time, disk }: Phone, life: number, marks: readonly Mark[]): Window {
  const store = memoryClassStore(disk);
  const outbox = createOutbox({
    store,
    clocks: time.clocks,
    timers: time.timers,
    log: memoryLog(),
    recordId: 'class-1',
    life,
    keptSeq: marks.length === 0 ? null : marks.length - 1,
  });
  return { store, outbox, life, marks: [...marks], saidSeq: outbox.keptSeq() };
}

async function startClass(phone: Phone): Promise<Window> {
  const life = takeValue(await memoryClassStore(phone.disk).takeOver());
  const first = openWindow(phone, life, []);
  first.outbox.begin(aHead(), aPaper());
  await settle();
  return first;
}

/** Another window takes the class from the one before, which is killed or lives on unaware; what it has is what is stored. */
async function takeOver(phone: Phone, from: Window, kills: boolean): Promise<Window> {
  if (kills) from.store.die();
  const fresh = memoryClassStore(phone.disk);
  const life = takeValue(await fresh.takeOver());
  const open = takeValue(await fresh.openClass());
  if (open === null) throw new Error('the class is gone');
  return openWindow(phone, life, open.marks);
}

function addMarks(window: Window, count: number): void {
  const first = window.marks.length;
  const marks = Array.from({ length: count }, (_, at) => aMark(first + at, window.life));
  window.marks.push(...marks);
  window.outbox.add(marks);
}

/** What holds at every instant: the store has a dense prefix, and all that the window said is kept is in it as given. */
function checkKept(phone: Phone, window: Window): void {
  const stored = storedMarks(phone);
  expect(stored.map((mark) => mark.seq)).toEqual(seqsUpTo(stored.length));
  const keptSeq = window.outbox.keptSeq();
  if (window.saidSeq !== null) expect(keptSeq).toBeGreaterThanOrEqual(window.saidSeq);
  window.saidSeq = keptSeq;
  const keptCount = keptSeq === null ? 0 : keptSeq + 1;
  expect(stored.slice(0, keptCount)).toEqual(window.marks.slice(0, keptCount));
}

/** All windows of one run: those that lost the class, and the one that has it. */
type Run = { readonly phone: Phone; readonly olderOnes: Window[]; window: Window };

async function happen(run: Run, one: Happening): Promise<void> {
  const { phone, olderOnes, window } = run;
  switch (one.do) {
    case 'add':
      return addMarks(window, one.count);
    case 'beat':
      return window.outbox.beat(aBeat());
    case 'behave':
      return window.store.behave(one.how, one.times);
    case 'release':
      for (const any of [...olderOnes, window]) any.store.release();
      return;
    case 'pass':
      return phone.time.advanceSettling(one.ms);
    case 'hasten':
      return window.outbox.hasten();
    case 'takeOver':
      olderOnes.push(window);
      run.window = await takeOver(phone, window, one.kills);
  }
}

async function endWell({ phone, window }: Run): Promise<void> {
  window.store.behave('obey');
  window.store.release();
  window.outbox.finish(ended(aHead()));
  await phone.time.advanceSettling(20_000);
  await window.outbox.flushed();
}

describe('whatever the store does and whoever is killed when', () => {
  test('the store holds a dense prefix, nothing said to be kept is missing, and in the end all of it is there', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(happening, { maxLength: 40 }), async (happenings) => {
        const phone = { time: fakeClocks(), disk: memoryDisk() };
        const run: Run = { phone, olderOnes: [], window: await startClass(phone) };
        for (const one of happenings) {
          await happen(run, one);
          await settle();
          checkKept(phone, run.window);
        }
        await endWell(run);
        expect(storedMarks(phone)).toEqual(run.window.marks);
        expect(takeValue(await memoryClassStore(phone.disk).openClass())).toBeNull();
        expect(run.window.outbox.state()).toBe('keeping');
      }),
      { numRuns: 200 },
    );
  });
});

/** What a window that does not know yet may go on doing. */
const UNAWARE = {
  add: (older: Window) => addMarks(older, 2),
  beat: (older: Window) => older.outbox.beat(aBeat('class-1', 9000)),
  finish: (older: Window) => older.outbox.finish(ended(aHead())),
  begin: (older: Window) => older.outbox.begin(aHead('class-9'), aPaper('b')),
  hasten: (older: Window) => older.outbox.hasten(),
  release: (older: Window) => older.store.release(),
  wait: (_older: Window, phone: Phone) => phone.time.advanceSettling(9000),
};
const unaware = fc.constantFrom(...(Object.keys(UNAWARE) as (keyof typeof UNAWARE)[]));

describe('two windows with one class', () => {
  test('from the take-over on the older one changes nothing, whatever it still has to write', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.nat(3),
        behaviour,
        fc.array(unaware, { minLength: 1, maxLength: 20 }),
        async (had, how, acts) => {
          const phone = { time: fakeClocks(), disk: memoryDisk() };
          const older = await startClass(phone);
          addMarks(older, had);
          await settle();
          older.store.behave(how);
          addMarks(older, 1);
          await settle();
          const newer = await takeOver(phone, older, false);
          const before = structuredClone(phone.disk);
          older.store.behave('obey');
          for (const act of acts) {
            await UNAWARE[act](older, phone);
            await settle();
            expect(phone.disk).toEqual(before);
          }
          addMarks(newer, 3);
          await settle();
          expect(newer.outbox.keptSeq()).toBe(newer.marks.length - 1);
          expect(storedMarks(phone)).toEqual(newer.marks);
        },
      ),
      { numRuns: 200 },
    );
  });

  test('the older one learns of it with the first write that reaches the store', async () => {
    const phone = { time: fakeClocks(), disk: memoryDisk() };
    const older = await startClass(phone);
    await takeOver(phone, older, false);
    addMarks(older, 1);
    await settle();
    expect(older.outbox.state()).toBe('fenced');
  });
});
