import { spawn } from 'node:child_process';
import { setTimeout as wait } from 'node:timers/promises';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { inject } from 'vitest';

/** A Chromium in a process group of its own, as a person's: pages are hidden, throttled and frozen as they really are. */
export type OpenChromium = {
  readonly browser: Browser;
  readonly context: BrowserContext;
  readonly page: Page;
  /** Ends exactly this process group, at once and without a word to it. */
  readonly kill: () => Promise<void>;
  /** Lets it close by itself and waits until it has. */
  readonly quit: () => Promise<void>;
};

export type ChromiumOptions = {
  /** The folder with the profile; two Chromiums after each other may share one. */
  readonly profile: string;
  readonly flags?: readonly string[];
  /** Beside this process's own variables. */
  readonly env?: Readonly<Record<string, string>>;
};

const FLAGS = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--disable-dev-shm-usage',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--remote-debugging-port=0',
  '--window-size=1024,768',
  // What Chromium wants of its maker for itself stays here.
  '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE localhost',
  '--disable-features=AutofillServerCommunication,OptimizationHints,OptimizationGuideModelDownloading',
];

/** Groups that are not known to be over: a run that is broken off takes them along. */
const openGroups = new Set<number>();
process.once('exit', () => {
  for (const pid of openGroups) signal(pid, 'SIGKILL');
});

/** Opens a Chromium with one empty page. Without defaults: those of Playwright keep every page visible for ever. */
export async function openChromium({ profile, flags = ['--mute-audio'], env = {} }: ChromiumOptions) {
  const program = spawn(inject('chromium'), [...FLAGS, ...flags, `--user-data-dir=${profile}`, 'about:blank'], {
    detached: true,
    stdio: ['ignore', 'ignore', 'pipe'],
    env: { ...process.env, ...env },
  });
  if (program.pid !== undefined) openGroups.add(program.pid);
  program.once('exit', () => openGroups.delete(program.pid ?? 0));
  const address = await debuggingAddress(program.stderr);
  const browser = await chromium.connectOverCDP(address, { noDefaults: true });
  const [context] = browser.contexts();
  const page = context?.pages()[0];
  if (context === undefined || page === undefined || program.pid === undefined) throw new Error('no page was opened');
  const { pid } = program;
  const quit = async (): Promise<void> => {
    const session = await browser.newBrowserCDPSession();
    await session.send('Browser.close');
    while (signal(pid, 0)) await wait(20);
  };
  return { browser, context, page, kill: () => killGroup(pid), quit } satisfies OpenChromium;
}

function debuggingAddress(stderr: NodeJS.ReadableStream): Promise<string> {
  return new Promise((found, fail) => {
    let said = '';
    stderr.on('data', (part) => {
      said += String(part);
      const address = /DevTools listening on (ws:\/\/\S+)/.exec(said)?.[1];
      if (address !== undefined) found(address);
    });
    stderr.once('close', () => fail(new Error(`Chromium did not start:\n${said}`)));
  });
}

async function killGroup(pid: number): Promise<void> {
  for (let isThere = signal(pid, 'SIGKILL'); isThere; isThere = signal(pid, 0)) await wait(10);
}

function signal(pid: number, what: 'SIGKILL' | 0): boolean {
  try {
    return process.kill(-pid, what);
  } catch {
    return false;
  }
}
