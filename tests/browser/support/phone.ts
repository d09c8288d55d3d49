import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { inject } from 'vitest';
import { startServer } from '../../../app/build/serve.mjs';
import { type ChromiumOptions, type OpenChromium, openChromium } from './chromium.ts';

type Server = Awaited<ReturnType<typeof startServer>>;

/** A phone with the app's address: a profile that outlives its browser, and a server that can go away and come back. */
export type Phone = {
  /** The address of the app; the same as long as the phone lives. */
  readonly url: string;
  /** The folder of the profile, which goes when the phone ends. */
  readonly profile: string;
  /** Switches it on: a new browser over what is kept. The last one must have been killed. */
  readonly open: (options?: Omit<ChromiumOptions, 'profile'>) => Promise<OpenChromium>;
  /** Every request that reached the server, "GET /index.html". */
  readonly requests: () => readonly string[];
  readonly stopServer: () => Promise<void>;
  readonly startServer: () => Promise<void>;
  /** Kills the browser, stops the server and forgets everything. */
  readonly end: () => Promise<void>;
};

/** `root`: the built app, or a folder with more beside it. */
export async function newPhone(root: string = inject('builtApp')): Promise<Phone> {
  const profile = mkdtempSync(join(tmpdir(), 'hallpace-phone-'));
  const { url, port, ...first } = await startServer({ root, port: 0 });
  const requests: string[][] = [first.requests];
  let server: Pick<Server, 'close'> | null = first;
  let last: OpenChromium | null = null;

  const stopServer = async (): Promise<void> => {
    await server?.close();
    server = null;
  };

  return {
    url,
    profile,
    requests: () => requests.flat(),
    open: async (options = {}) => {
      last = await openChromium({ profile, ...options });
      return last;
    },
    stopServer,
    startServer: async () => {
      if (server !== null) return;
      const again = await startServer({ root, port });
      requests.push(again.requests);
      server = again;
    },
    end: async () => {
      await last?.kill();
      await stopServer();
      rmSync(profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
    },
  };
}
