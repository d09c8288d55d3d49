import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
// The declaration below adds to this module, so it has to be seen here.
import type {} from 'vitest';
import type { TestProject } from 'vitest/node';
import { build } from '../../app/build/build.mjs';
import { findBrowser } from '../../app/build/find-browser.mjs';

declare module 'vitest' {
  export interface ProvidedContext {
    /** The folder with the one build that every browser test of the run looks at. */
    builtApp: string;
    /** The path of the Chromium to launch. */
    chromium: string;
  }
}

/** Builds the app once a run, into a folder of its own, so that no test meets a half-written `dist`. */
export const setup = async (project: TestProject): Promise<() => Promise<void>> => {
  const browser = findBrowser();
  if (!browser.ok) throw new Error(browser.reason);
  const outDir = await mkdtemp(join(tmpdir(), 'hallpace-built-'));
  await build({ outDir });
  project.provide('builtApp', outDir);
  project.provide('chromium', browser.value);
  return () => rm(outDir, { recursive: true, force: true });
};
