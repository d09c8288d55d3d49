import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const top = fileURLToPath(new URL('../..', import.meta.url));

/** One figure after the other: two at a time would measure each other. */
export default defineConfig({
  root: top,
  resolve: { dedupe: ['preact', '@preact/signals'] },
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  test: {
    include: ['tests/bench/figures/*.figure.ts'],
    environment: 'node',
    globalSetup: ['tests/bench/bench-build.ts'],
    setupFiles: ['tests/bench/leave-nothing.ts'],
    pool: 'forks',
    fileParallelism: false,
    maxWorkers: 1,
    testTimeout: 180_000,
    hookTimeout: 60_000,
  },
});
