import { setTimeout as wait } from 'node:timers/promises';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import type { OpenChromium } from './support/chromium.ts';
import { enterHall, hold, press, sayings, startClass, untilHall, untilSaid, untilStatus } from './support/hall.ts';
import { hallNow, readWatch, watchHalls } from './support/hall-watch.ts';
import { lastKept, markKinds } from './support/kept-rows.ts';
import { newPhone, type Phone } from './support/phone.ts';

const DEMO = 'demo-class';

let phone: Phone;
let chromium: OpenChromium;
let context: BrowserContext;
let page: Page;
let faults: string[];

beforeAll(async () => {
  phone = await newPhone();
  chromium = await phone.open();
});

afterAll(() => phone.end());

/** Nothing is kept from one test to the next. */
beforeEach(async () => {
  context = await chromium.browser.newContext();
  page = await context.newPage();
  faults = [];
  page.on('pageerror', (error) => faults.push(String(error)));
  await watchHalls(context);
});

afterEach(() => context.close());

/** Something that a browser may lack or refuse; run in the page before anything of the app. */
type Lack = readonly [name: string, take: () => void, said: string];

const lacks: readonly Lack[] = [
  ['an audio context', () => Reflect.deleteProperty(window, 'AudioContext'), 'No sound'],
  [
    'a sound device: making an audio context throws',
    () => {
      window.AudioContext = class {
        constructor() {
          throw new DOMException('no device', 'NotSupportedError');
        }
      } as unknown as typeof AudioContext;
    },
    'No sound',
  ],
  [
    'leave to sound: resume never settles',
    () => {
      window.AudioContext = class extends AudioContext {
        constructor() {
          super();
          void super.suspend();
        }
        override resume(): Promise<void> {
          return new Promise(() => undefined);
        }
      };
    },
    'Touch for sound',
  ],
  ['a wake lock', () => Reflect.deleteProperty(Navigator.prototype, 'wakeLock'), 'Screen may go dark'],
  [
    'leave to keep the screen on',
    () => {
      WakeLock.prototype.request = () => Promise.reject(new DOMException('low battery', 'NotAllowedError'));
    },
    'Screen may go dark',
  ],
  [
    'a database',
    () => Object.defineProperty(window, 'indexedDB', { value: undefined, configurable: true }),
    'Not being kept',
  ],
  [
    'a database whose name may be spoken',
    () =>
      Object.defineProperty(window, 'indexedDB', {
        configurable: true,
        get: () => {
          throw new DOMException('denied', 'SecurityError');
        },
      }),
    'Not being kept',
  ],
  [
    'a database that opens',
    () => {
      IDBFactory.prototype.open = () => {
        throw new DOMException('private window', 'InvalidStateError');
      };
    },
    'Not being kept',
  ],
  [
    'a database that answers',
    () => {
      const never = document.createElement('i');
      IDBFactory.prototype.open = () => never as unknown as IDBOpenDBRequest;
    },
    'Not being kept',
  ],
  [
    'a voice',
    () => {
      for (const name of ['speechSynthesis', 'SpeechSynthesisUtterance']) {
        Object.defineProperty(window, name, { value: undefined, configurable: true });
        Reflect.deleteProperty(window, name);
      }
    },
    'No voice',
  ],
];

/** Pressed to seen running, by the page's clock. */
async function startedWithinMs(): Promise<number> {
  const { presses, seen } = await readWatch(page);
  const pressed = presses.find(({ what }) => what === 'Start class')?.monoMs ?? Number.NaN;
  return (seen.find(({ status }) => status === 'running')?.monoMs ?? Number.NaN) - pressed;
}

/** The class runs on the screen: its seconds are the seconds of the page's clock. */
async function expectRuns(): Promise<void> {
  const start = Number((await untilStatus(page, 'running')).left);
  await untilHall(page, ({ left }) => Number(left) === start - 2);
  const { seen } = await readWatch(page);
  const [first, second] = [1, 2].map((passed) => seen.findLast(({ left }) => Number(left) === start - passed)?.monoMs);
  expect(Math.abs((second ?? 0) - (first ?? 0) - 1000)).toBeLessThan(400);
}

test.each(lacks)(
  'without %s a class starts within a second, runs, and the screen says what is missing',
  async (...lack) => {
    const [_name, take, said] = lack;
    await context.addInitScript(take);

    await startClass(page, phone.url, DEMO);
    await expectRuns();
    await untilSaid(page, said);

    expect(await startedWithinMs()).toBeLessThan(1000);
    expect(faults).toEqual([]);
    await press(page, 'Next move');
    await press(page, 'Pause');
    await untilStatus(page, 'paused');
  },
);

test('with everything there but a voice the screen says nothing else, so what it says above it says for a reason', async () => {
  await startClass(page, phone.url, DEMO);
  await expectRuns();

  expect(await sayings(page)).toEqual(['The class runs', 'No voice']);
});

test('without a database the class goes to its end, and nothing is shown as kept', async () => {
  await context.addInitScript(() =>
    Object.defineProperty(window, 'indexedDB', { value: undefined, configurable: true }),
  );
  await startClass(page, phone.url, DEMO);

  await hold(page, 'Finish', 1100);
  await untilStatus(page, 'finished');

  const { seen } = await readWatch(page);
  expect(seen.map(({ kept }) => kept).filter((kept) => kept !== '')).toEqual([]);
  await page.getByRole('heading', { name: 'Class over' }).waitFor();
});

test('without workers the start page says that it opens only with a network, and the class runs', async () => {
  await context.addInitScript(() => Reflect.deleteProperty(Navigator.prototype, 'serviceWorker'));
  await page.goto(phone.url);
  await page.getByText('it opens only with a network').waitFor();

  await startClass(page, phone.url, DEMO);

  await expectRuns();
  expect(await startedWithinMs()).toBeLessThan(1000);
  expect(faults).toEqual([]);
});

describe('without window locks', () => {
  beforeEach(() => context.addInitScript(() => Reflect.deleteProperty(Navigator.prototype, 'locks')));

  test('a class starts within a second, runs and is kept', async () => {
    await startClass(page, phone.url, DEMO);

    await expectRuns();

    expect(await startedWithinMs()).toBeLessThan(1000);
    await expect.poll(() => markKinds(page)).toEqual(['started']);
    expect(faults).toEqual([]);
  });

  test('a second window takes the class over by its number, and the first says so and writes no more', async () => {
    await startClass(page, phone.url, DEMO);
    await expect.poll(async () => (await hallNow(page)).kept).toBe('0');
    const second = await context.newPage();
    await second.goto(phone.url);
    await untilHall(second, ({ status, kept }) => status === 'running' && kept !== '');

    await page.getByRole('heading', { name: 'This class runs in another window' }).waitFor();
    await page.bringToFront();
    for (const key of ['n', 'PageDown']) await page.keyboard.press(key);
    await wait(800);

    expect(await markKinds(second)).toEqual(['started', 'away']);
    const first = (await lastKept(second)).marks[0]?.seen.life ?? Number.NaN;
    await expect.poll(async () => (await lastKept(second)).beat?.life).toBeGreaterThan(first);
  });
});

/** Puts so much beside the app's own data that not another kilobyte goes in; the phone must have a bound on it. */
function fillUp(): Promise<void> {
  return page.evaluate(
    () =>
      new Promise<void>((done, fail) => {
        const opening = indexedDB.open('filler');
        opening.onerror = () => fail(opening.error);
        opening.onupgradeneeded = () => opening.result.createObjectStore('bytes', { autoIncrement: true });
        opening.onsuccess = () => {
          // What can be pressed together does not count.
          const put = (kilobytes: readonly number[]): void => {
            const [size, ...smaller] = kilobytes;
            if (size === undefined) {
              opening.result.close();
              done();
              return;
            }
            const bytes = new Uint8Array(size * 1024);
            for (let at = 0; at < bytes.length; at += 65_536) crypto.getRandomValues(bytes.subarray(at, at + 65_536));
            const tx = opening.result.transaction('bytes', 'readwrite');
            tx.objectStore('bytes').put(bytes);
            tx.oncomplete = () => put(kilobytes);
            tx.onabort = () => put(smaller);
          };
          put([512, 64, 8, 1]);
        };
      }),
  );
}

test('a phone that is full in mid-class says so, goes on, and keeps what waited once there is room', async () => {
  await page.goto(phone.url);
  await page.getByText('opens without a network').waitFor();
  const session = await context.newCDPSession(page);
  await session.send('Storage.overrideQuotaForOrigin', { origin: phone.url, quotaSize: 5_000_000 });
  await startClass(page, phone.url, DEMO);
  await expect.poll(async () => (await hallNow(page)).kept).toBe('0');

  await fillUp();
  await press(page, 'Next move');
  await press(page, 'Pause');
  await untilSaid(page, 'Not all kept yet');
  await press(page, 'Carry on');
  const whileFull = await untilStatus(page, 'running');
  await expectRuns();
  await session.send('Storage.overrideQuotaForOrigin', { origin: phone.url });
  await untilHall(page, ({ kept }) => Number(kept) >= 3);

  expect(whileFull.kept).toBe('0');
  expect((await markKinds(page)).slice(0, 4)).toEqual(['started', 'skip', 'paused', 'carriedOn']);
  await expect.poll(() => sayings(page)).not.toContain('Not all kept yet');
  expect(faults).toEqual([]);
});

test('before the start what is missing is said in whole sentences', async () => {
  await context.addInitScript(() => {
    Reflect.deleteProperty(window, 'AudioContext');
    Object.defineProperty(window, 'indexedDB', { value: undefined, configurable: true });
  });

  await enterHall(page, phone.url, DEMO);
  await press(page, 'Sound check');

  await page.getByText('No sound on this phone: the class runs, and shows everything.').waitFor();
});
