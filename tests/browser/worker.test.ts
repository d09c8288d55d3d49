import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, inject, test, vi } from 'vitest';
import { startServer } from '../../app/build/serve.mjs';

vi.setConfig({ testTimeout: 30_000 });

let browser: Browser;
let context: BrowserContext;
let page: Page;
let server: Awaited<ReturnType<typeof startServer>>;
let scratch: string;

beforeAll(async () => {
  browser = await chromium.launch({ executablePath: inject('chromium'), args: ['--no-sandbox', '--disable-gpu'] });
});

afterAll(() => browser.close());

beforeEach(async () => {
  scratch = mkdtempSync(join(tmpdir(), 'hallpace-worker-test-'));
  server = await startServer({ root: inject('builtApp'), port: 0 });
  context = await browser.newContext();
  page = await context.newPage();
});

afterEach(async () => {
  await context.close();
  await server.close();
  rmSync(scratch, { recursive: true, force: true });
});

/** Registers the worker as the page does, and waits until it has everything. */
async function install(path = '/'): Promise<void> {
  await page.goto(server.url + path);
  await page.evaluate(async () => {
    await navigator.serviceWorker.register('./worker.js');
    await navigator.serviceWorker.ready;
  });
}

const marker = 'data-of-a-release';

/** A later release: the same app whose page carries a mark, with its revision in the worker's list. */
function release(name: string, change: (folder: string) => void = () => {}): string {
  const folder = join(scratch, name);
  cpSync(inject('builtApp'), folder, { recursive: true });
  const edit = (file: string, from: RegExp, to: string) => {
    const text = readFileSync(join(folder, file), 'utf8');
    const edited = text.replace(from, to);
    if (edited === text) throw new Error(`${file} has no ${from}`);
    writeFileSync(join(folder, file), edited);
  };
  edit('index.html', /<body>/, `<body ${marker}="${name}">`);
  edit('worker.js', /("?revision"?:)\s*"\w+"(,\s*"?url"?:\s*"index\.html")/, `$1"${name}"$2`);
  change(folder);
  return folder;
}

const shown = () => page.evaluate((attribute) => document.body.getAttribute(attribute), marker);

/** Asks for a newer worker and waits for the state that it comes to. */
const update = () =>
  page.evaluate(async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    if (registration === undefined) throw new Error('there is no worker');
    const found = new Promise<ServiceWorker>((done) => {
      registration.addEventListener('updatefound', () => {
        if (registration.installing !== null) done(registration.installing);
      });
    });
    await registration.update();
    const worker = await found;
    return new Promise<string>((done) => {
      const look = () => {
        if (worker.state === 'installed' || worker.state === 'redundant') done(worker.state);
      };
      worker.addEventListener('statechange', look);
      look();
    });
  });

test('opens again when the server is gone, with every file of the app', async () => {
  await install();
  const folder = inject('builtApp');
  const files = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name !== 'worker.js')
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)));
  await server.close();

  await page.reload();
  const lengths = await page.evaluate(
    (names) => Promise.all(names.map(async (name) => (await (await fetch(`./${name}`)).arrayBuffer()).byteLength)),
    files,
  );

  expect(await page.title()).toBe('Hallpace');
  expect(files.length).toBeGreaterThan(4);
  expect(lengths).toEqual(files.map((file) => readFileSync(join(folder, file)).length));
});

test('works below another address as well', async () => {
  cpSync(inject('builtApp'), join(scratch, 'site', 'clubs', 'hall'), { recursive: true });
  server.swapRoot(join(scratch, 'site'));
  await install('/clubs/hall/');
  await server.close();

  await page.goto(`${server.url}/clubs/hall/?from=home#/plans`);

  await page.locator('#app > *').first().waitFor({ state: 'attached' });

  expect(await page.title()).toBe('Hallpace');
});

test('answers a range from what it keeps', async () => {
  await install();
  await server.close();
  await page.reload();

  const part = await page.evaluate(async () => {
    const answer = await fetch('./icons/icon-512.png', { headers: { range: 'bytes=1-3' } });
    return { status: answer.status, range: answer.headers.get('content-range'), text: await answer.text() };
  });

  expect(part).toMatchObject({ status: 206, range: expect.stringMatching(/^bytes 1-3\/\d+$/), text: 'PNG' });
});

test('brings a mistyped path back into the app, and never passes the page off as a file', async () => {
  await install();
  await server.close();
  await page.reload();

  await page.goto(`${server.url}/plans/nowhere`);
  const there = page.url();
  const gone = page.goto(`${server.url}/sounds/gone.wav`);

  expect(there).toBe(`${server.url}/`);
  await expect(gone).rejects.toThrow(/ERR_/);
});

test('a new release waits until the page asks for it, and the open page is left alone', async () => {
  await install();
  await page.reload();
  server.swapRoot(release('second'));

  const state = await update();
  await page.reload();
  const beforeAsking = await shown();
  await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    const took = new Promise((done) => {
      navigator.serviceWorker.addEventListener('controllerchange', done);
    });
    registration?.waiting?.postMessage({ type: 'ANYTHING' });
    registration?.waiting?.postMessage({ type: 'SKIP_WAITING' });
    await took;
  });
  const untilReload = await shown();
  await server.close();
  await page.reload();

  expect(state).toBe('installed');
  expect(beforeAsking).toBeNull();
  expect(untilReload).toBeNull();
  expect(await shown()).toBe('second');
});

test('a message that it does not know is no reason to take over', async () => {
  await install();
  await page.reload();
  server.swapRoot(release('second'));
  await update();

  await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    for (const message of [null, 'SKIP_WAITING', { type: 'OTHER' }]) registration?.waiting?.postMessage(message);
  });
  await page.reload();
  await page.reload();

  expect(await shown()).toBeNull();
});

test('a release with a missing file is not taken, and the old one goes on without a network', async () => {
  await install();
  await page.reload();
  server.swapRoot(release('broken', (folder) => rmSync(join(folder, 'index.html'))));

  const state = await update();
  await server.close();
  await page.reload();

  expect(state).toBe('redundant');
  expect(await page.title()).toBe('Hallpace');
});

test('the first visit is not taken over under the open page', async () => {
  await install();

  expect(await page.evaluate(() => navigator.serviceWorker.controller)).toBeNull();
});
