import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import preact from '@preact/preset-vite';
import { build as buildPages } from 'vite';
import type { TestProject } from 'vitest/node';
import { build } from '../../app/build/build.mjs';
import type {} from '../browser/one-build.ts';
import { sizesOf } from '../checks/size.mjs';

declare module 'vitest' {
  export interface ProvidedContext {
    /** The folder with the bench's own pages. */
    benchPages: string;
    /** A script for Node that times the engine. */
    engineScript: string;
    /** The weight of the built app's scripts, bytes after gzip. */
    sizes: { readonly firstPaintBytes: number; readonly withHallBytes: number | null };
  }
}

const pages = fileURLToPath(new URL('./page', import.meta.url));

/** Builds the app as it ships and, from the same sources, the pages that measure parts of it. */
export const setup = async (project: TestProject): Promise<() => void> => {
  const chromium = process.env['HALLPACE_CHROMIUM'];
  if (chromium === undefined) throw new Error('the bench is started by app/build/bench.mjs');
  const folder = mkdtempSync(join(tmpdir(), 'hallpace-bench-'));
  const forget = () => rmSync(folder, { recursive: true, force: true });
  process.once('exit', forget);
  const builtApp = join(folder, 'app');
  const benchPages = join(folder, 'pages');
  const { scripts } = await build({ outDir: builtApp });
  await buildBenchPages(benchPages);
  await buildEngineScript(folder);
  project.provide('chromium', chromium);
  project.provide('builtApp', builtApp);
  project.provide('benchPages', benchPages);
  project.provide('engineScript', join(folder, 'engine.mjs'));
  project.provide('sizes', sizesOf(scripts));
  return forget;
};

/** With the options that bear on how the app's code is built. */
async function buildBenchPages(outDir: string): Promise<void> {
  await buildPages({
    configFile: false,
    root: pages,
    base: './',
    publicDir: false,
    logLevel: 'error',
    plugins: [preact({ devToolsEnabled: false, prefreshEnabled: false })],
    resolve: { dedupe: ['preact', '@preact/signals'] },
    worker: { format: 'es' },
    build: {
      outDir,
      emptyOutDir: true,
      target: 'es2022',
      assetsInlineLimit: 0,
      reportCompressedSize: false,
      rolldownOptions: { input: ['sound', 'naive', 'engine'].map((name) => join(pages, `${name}.html`)) },
    },
  });
}

async function buildEngineScript(outDir: string): Promise<void> {
  await buildPages({
    configFile: false,
    root: pages,
    publicDir: false,
    logLevel: 'error',
    build: {
      outDir,
      emptyOutDir: false,
      target: 'es2022',
      minify: false,
      lib: { entry: join(pages, '../engine/engine-node.ts'), formats: ['es'], fileName: () => 'engine.mjs' },
    },
  });
}
