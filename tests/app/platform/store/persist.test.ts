import { expect, test, vi } from 'vitest';
import { browserPersist, type PersistNeeds } from '../../../../app/platform/store/persist.ts';
import { settle } from '../../../fakes/fake-clocks.ts';
import { memoryLog } from '../../../fakes/memory-log.ts';

function persistOver(storage: PersistNeeds['storage']) {
  const log = memoryLog();
  const persist = browserPersist({ storage, log });
  const said: string[] = [];
  persist.listen((fact) => said.push(fact));
  return { persist, said, log };
}

test('asks nobody before the tap', async () => {
  const ask = vi.fn(async () => true);
  const { persist } = persistOver({ persist: ask, persisted: async () => false });
  await settle();
  expect([persist.fact(), ask.mock.calls.length]).toEqual(['notAsked', 0]);
});

test.each([
  [true, 'granted'],
  [false, 'refused'],
] as const)('the answer %s becomes the fact %s, heard by who listens', async (answer, fact) => {
  const { persist, said } = persistOver({ persist: async () => answer });
  persist.ask();
  expect(persist.fact()).toBe('asking');
  await settle();
  expect([persist.fact(), said]).toEqual([fact, ['asking', fact]]);
});

test('a question that nobody answers stays open, and asking again asks no second one', async () => {
  const ask = vi.fn(() => new Promise<boolean>(() => undefined));
  const { persist } = persistOver({ persist: ask });
  persist.ask();
  persist.ask();
  await settle();
  expect([persist.fact(), ask.mock.calls.length]).toEqual(['asking', 1]);
});

test('what was granted in an earlier run is known without asking', async () => {
  const ask = vi.fn(async () => true);
  const { persist } = persistOver({ persist: ask, persisted: async () => true });
  await settle();
  persist.ask();
  expect([persist.fact(), ask.mock.calls.length]).toEqual(['granted', 0]);
});

test('who was refused may be asked again', async () => {
  const ask = vi.fn(async () => true).mockResolvedValueOnce(false);
  const { persist } = persistOver({ persist: ask });
  persist.ask();
  await settle();
  persist.ask();
  await settle();
  expect(persist.fact()).toBe('granted');
});

test.each([undefined, {}])('a browser without it (%s) is no trouble', async (storage) => {
  const { persist, log } = persistOver(storage);
  persist.ask();
  await settle();
  expect([persist.fact(), log.whats()]).toEqual(['absent', []]);
});

test('a browser that throws has refused', async () => {
  const { persist, log } = persistOver({
    persist: () => {
      throw new TypeError('not here');
    },
    persisted: () => Promise.reject(new TypeError('not here')),
  });
  persist.ask();
  await settle();
  expect([persist.fact(), log.whats().length]).toEqual(['refused', 2]);
});
