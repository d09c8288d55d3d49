import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const top = fileURLToPath(new URL('..', import.meta.url));

/** Shared by every suite: tests run in a new order each time, and nothing leaks from one to the next. */
const shared = {
  root: top,
  resolve: { dedupe: ['preact', '@preact/signals'] },
  oxc: { jsx: { runtime: 'automatic' as const, importSource: 'preact' } },
};

// The limit only ends what hangs: a busy machine must not fail a sound test, and speed is the bench's.
const always = {
  restoreMocks: true,
  unstubGlobals: true,
  unstubEnvs: true,
  sequence: { shuffle: true },
  testTimeout: 60_000,
};
const screens = ['tests/app/screens/**/*.test.{ts,tsx}', 'tests/app/parts/**/*.test.{ts,tsx}'];
const inBrowser = ['tests/browser/**', 'tests/faults/**', 'tests/bench/**'];

export default defineConfig({
  root: top,
  test: {
    coverage: { provider: 'v8', include: ['src/**/*.ts', 'app/**/*.{ts,tsx}'], reportsDirectory: `${top}/coverage` },
    projects: [
      {
        ...shared,
        test: {
          ...always,
          name: 'unit',
          environment: 'node',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: [...inBrowser, ...screens],
        },
      },
      {
        ...shared,
        test: { ...always, name: 'screens', environment: 'happy-dom', include: screens },
      },
      {
        ...shared,
        test: {
          ...always,
          name: 'browser',
          environment: 'node',
          include: ['tests/browser/**/*.test.ts', 'tests/faults/**/*.test.ts'],
          globalSetup: ['tests/browser/one-build.ts'],
          // One real browser at a time: two would share the cores and disturb each other's clocks.
          fileParallelism: false,
          testTimeout: 300_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
