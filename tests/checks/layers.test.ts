import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { cruise, type ICruiseResult } from 'dependency-cruiser';
import { afterEach, beforeEach, expect, test } from 'vitest';
import rules from './layers.cjs';

let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'hallpace-layers-'));
  write('package.json', JSON.stringify({ type: 'module', dependencies, devDependencies: { vitest: '1.0.0' } }));
  for (const library of [...Object.keys(dependencies), 'vitest']) {
    write(
      `node_modules/${library}/package.json`,
      JSON.stringify({ name: library, version: '1.0.0', main: 'index.js' }),
    );
    write(`node_modules/${library}/index.js`, 'export const it = 1;\n');
  }
});

afterEach(() => rmSync(folder, { recursive: true, force: true }));

const libraries = ['valibot', 'idb', 'howler', 'workbox-window', 'workbox-routing', 'preact', '@preact/signals'];
const dependencies = Object.fromEntries(libraries.map((library) => [library, '1.0.0']));

function write(file: string, text: string): void {
  mkdirSync(dirname(join(folder, file)), { recursive: true });
  writeFileSync(join(folder, file), text);
}

/** Writes a small tree in which each file holds the imports given for it, and cruises it. */
async function broken(tree: Record<string, readonly string[]>): Promise<string[]> {
  for (const [file, imports] of Object.entries(tree)) {
    const lines = imports.map((line, at) => (line.startsWith('import') ? line : `import * as it${at} from '${line}';`));
    write(file, `${lines.join('\n')}\nexport const value = ${lines.map((_, at) => `it${at}`).join(' + ') || 1};\n`);
  }
  const tops = [...new Set(Object.keys(tree).map((file) => file.split('/')[0] ?? ''))];
  const { output } = await cruise(tops, { ...rules.options, baseDir: folder, validate: true, ruleSet: rules });
  if (typeof output === 'string') throw new Error('asked for no text');
  return namesIn(output);
}

const namesIn = (result: ICruiseResult): string[] => [
  ...new Set(result.summary.violations.map((violation) => violation.rule.name)),
];

const leaf: readonly string[] = [];

/** For each rule, trees that break it. */
const breaches: Record<string, readonly Record<string, readonly string[]>[]> = {
  'no-cycles': [{ 'src/moves/a.ts': ['./b.ts'], 'src/moves/b.ts': ['./a.ts'] }],
  found: [{ 'src/moves/a.ts': ['./gone.ts'] }],
  'src-stands-alone': [
    { 'src/moves/a.ts': ['preact'] },
    { 'src/review/a.ts': ['../../app/live/b.ts'], 'app/live/b.ts': leaf },
    { 'src/ports/a.ts': ['node:fs'] },
  ],
  'valibot-outside-the-domain': [{ 'src/plan/a.ts': ['valibot'] }, { 'app/screens/a.ts': ['valibot'] }],
  'domain-order-moves': [{ 'src/moves/a.ts': ['../plan/b.ts'], 'src/plan/b.ts': leaf }],
  'domain-order-plan': [
    { 'src/plan/a.ts': ['../running-order/b.ts'], 'src/running-order/b.ts': leaf },
    { 'src/plan/a.ts': ['../records/b.ts'], 'src/records/b.ts': leaf },
  ],
  'domain-order-running-order': [{ 'src/running-order/a.ts': ['../class-run/b.ts'], 'src/class-run/b.ts': leaf }],
  'domain-order-class-run': [
    { 'src/class-run/a.ts': ['../review/b.ts'], 'src/review/b.ts': leaf },
    { 'src/class-run/a.ts': ['../figures/b.ts'], 'src/figures/b.ts': leaf },
  ],
  'domain-order-review': [{ 'src/review/a.ts': ['../course/b.ts'], 'src/course/b.ts': leaf }],
  'domain-order-course': [{ 'src/course/a.ts': ['../ports/b.ts'], 'src/ports/b.ts': leaf }],
  'domain-knows-no-ports': [
    { 'src/class-run/a.ts': ["import type { value as it0 } from '../ports/b.ts';"], 'src/ports/b.ts': leaf },
    { 'src/records/a.ts': ['../ports/b.ts'], 'src/ports/b.ts': leaf },
  ],
  'live-sees-src-only': [
    { 'app/live/a.ts': ['../platform/b.ts'], 'app/platform/b.ts': leaf },
    { 'app/live/a.ts': ['../words/b.ts'], 'app/words/b.ts': leaf },
    { 'app/live/a.ts': ['preact'] },
  ],
  'screens-see': [
    { 'app/screens/hall/a.tsx': ['../../platform/b.ts'], 'app/platform/b.ts': leaf },
    { 'app/screens/a.tsx': ["import type { value as it0 } from '../platform/b.ts';"], 'app/platform/b.ts': leaf },
  ],
  'parts-see': [{ 'app/parts/a.tsx': ['../live/b.ts'], 'app/live/b.ts': leaf }],
  'words-see': [{ 'app/words/a.ts': ['../live/b.ts'], 'app/live/b.ts': leaf }],
  'ports-as-types': [{ 'app/screens/a.tsx': ['../../src/ports/b.ts'], 'src/ports/b.ts': leaf }],
  'platform-stands-under': [{ 'app/platform/a.ts': ['../live/b.ts'], 'app/live/b.ts': leaf }],
  'only-main-joins': [{ 'app/other.ts': ['./platform/b.ts'], 'app/platform/b.ts': leaf }],
  'main-is-the-top': [{ 'app/other.ts': ['./main.tsx'], 'app/main.tsx': leaf }],
  'libraries-behind-ports': [
    { 'app/screens/a.tsx': ['howler'] },
    { 'app/main.tsx': ['workbox-window'] },
    { 'src/records/a.ts': ['idb'] },
  ],
  'one-wrapper-idb': [{ 'app/platform/a.ts': ['idb'], 'app/platform/b.ts': ['idb'] }],
  'one-wrapper-howler': [{ 'app/platform/a.ts': ['howler'], 'app/platform/b.ts': ['howler'] }],
  'one-wrapper-workbox-window': [{ 'app/platform/a.ts': ['workbox-window'], 'app/platform/b.ts': ['workbox-window'] }],
  'worker-stands-apart': [
    { 'service-worker/a.ts': ['idb'] },
    { 'service-worker/a.ts': ['../src/moves/b.ts'], 'src/moves/b.ts': leaf },
  ],
  'nobody-sees-the-worker': [{ 'app/main.tsx': ['../service-worker/b.ts'], 'service-worker/b.ts': leaf }],
  'workbox-in-the-worker': [{ 'app/platform/a.ts': ['workbox-routing'] }],
  'build-stands-apart': [{ 'app/main.tsx': ['./build/b.mjs'], 'app/build/b.mjs': leaf }],
  'nothing-imports-tests': [{ 'app/live/a.ts': ['../../tests/fakes/b.ts'], 'tests/fakes/b.ts': leaf }],
  'ships-no-tool': [{ 'app/platform/a.ts': ['vitest'] }, { 'app/platform/a.ts': ['node:fs'] }],
};

test.for(
  Object.entries(breaches).flatMap(([rule, trees]) => trees.map((tree) => [rule, Object.keys(tree)[0], tree] as const)),
)('the rule %s refuses what %s imports', async ([rule, , tree]) => {
  const names = await broken(tree);

  expect(names).toContain(rule);
});

test('every rule is proved to fire', () => {
  const named = rules.forbidden.map((rule) => rule.name);

  expect(Object.keys(breaches).sort()).toEqual(named.sort());
});

test('a tree built as designed breaks no rule', async () => {
  const names = await broken({
    'src/moves/move.ts': leaf,
    'src/plan/plan.ts': ['../moves/move.ts'],
    'src/running-order/compile.ts': ['../moves/move.ts', '../plan/plan.ts'],
    'src/class-run/step.ts': ['../running-order/compile.ts', '../plan/plan.ts'],
    'src/records/plan.ts': ['valibot', '../plan/plan.ts'],
    'src/review/pace.ts': ['../class-run/step.ts', '../records/plan.ts'],
    'src/ports/clocks.ts': ['../class-run/step.ts'],
    'app/live/live-class.ts': ['@preact/signals', '../../src/class-run/step.ts', '../../src/ports/clocks.ts'],
    'app/parts/figure.tsx': ['preact', '../../src/moves/move.ts', '../words/say.ts'],
    'app/words/say.ts': ['../../src/moves/move.ts'],
    'app/screens/hall.tsx': [
      'preact',
      '../parts/figure.tsx',
      '../live/live-class.ts',
      "import type { value as it3 } from '../../src/ports/clocks.ts';",
    ],
    'app/platform/store.ts': ['idb', '../../src/ports/clocks.ts', '../../src/records/plan.ts'],
    'app/platform/sound.ts': ['howler'],
    'app/main.tsx': [
      'preact',
      './platform/store.ts',
      './platform/sound.ts',
      './live/live-class.ts',
      './screens/hall.tsx',
    ],
    'service-worker/worker.ts': ['workbox-routing'],
    'tests/step.test.ts': ['vitest', '../src/class-run/step.ts', '../app/live/live-class.ts'],
  });

  expect(names).toEqual([]);
});
