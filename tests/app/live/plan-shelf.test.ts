import { expect, test } from 'vitest';
import { planShelf } from '../../../app/live/plan-shelf.ts';
import { writePlanFile } from '../../../src/exchange/plan-file.ts';
import { aBlock, aMove, anEntry, aPlan, SMALL_LIBRARY } from '../../builders/small-plan.ts';
import { fakeClocks } from '../../fakes/fake-clocks.ts';
import { memoryPlanStore } from '../../fakes/memory-plan-store.ts';

const STARTER = {
  library: SMALL_LIBRARY,
  plans: [aPlan([aBlock([anEntry('a')])], { id: 'starter', name: 'Starter' })],
};
const MINE = aPlan([aBlock([anEntry('own')])], { id: 'mine', name: 'Mine' });
const FILE = writePlanFile(MINE, [aMove('own')]);

function aShelf() {
  const time = fakeClocks();
  const store = memoryPlanStore();
  const shelf = planShelf(store, time.clocks);
  shelf.stock(STARTER);
  return { time, store, shelf, names: () => shelf.plans.value.map(({ plan }) => plan.name) };
}

test('an opened file stands first, with its own moves beside the library', async () => {
  const { shelf, names } = aShelf();
  await expect(shelf.openFile(FILE)).resolves.toMatchObject({ ok: true });
  expect(names()).toEqual(['Mine', 'Starter']);
  expect([...(shelf.find('mine')?.library.keys() ?? [])]).toEqual(expect.arrayContaining(['own', 'a']));
});

test('a refused file says where, and changes nothing', async () => {
  const { store, shelf, names } = aShelf();
  const opened = await shelf.openFile(FILE.replace('"countInSeconds": 10', '"countInSeconds": -1'));
  expect(opened).toMatchObject({ ok: false, refused: { field: ['plan', 'countInSeconds'] } });
  expect(names()).toEqual(['Starter']);
  expect(store.disk.plans.size).toBe(0);
});

test('a file that cannot be kept is not shown as kept', async () => {
  const { store, shelf, names } = aShelf();
  store.behave({ refuse: 'full' });
  await expect(shelf.openFile(FILE)).resolves.toEqual({ ok: false, notKept: 'full' });
  expect(names()).toEqual(['Starter']);
});

test('a later text of the same plan takes its place on the shelf, and of the starter too', async () => {
  const { time, shelf, names } = aShelf();
  await shelf.openFile(FILE);
  time.advance(1000);
  await shelf.openFile(writePlanFile({ ...MINE, rev: 'rev-2', name: 'Mine again' }, [aMove('own')]));
  await shelf.openFile(writePlanFile(aPlan([aBlock([anEntry('b')])], { id: 'starter', name: 'Changed starter' }), []));
  expect(names()).toContain('Mine again');
  expect(names()).not.toContain('Mine');
  expect(names()).not.toContain('Starter');
});

test('a kept plan whose moves are gone is left out and counted', async () => {
  const { store, shelf, names } = aShelf();
  await store.put({ plan: MINE, ownMoves: [], savedWallMs: 1 });
  await shelf.read();
  expect(names()).toEqual(['Starter']);
  expect(shelf.unreadable.value).toBe(1);
});

test('without a store the starter is still there', async () => {
  const { store, shelf, names } = aShelf();
  store.behave({ refuse: 'unavailable' });
  await shelf.read();
  expect(names()).toEqual(['Starter']);
  expect(shelf.isRead.value).toBe(true);
});
