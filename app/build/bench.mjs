// `npm run bench`: measures, and prints each figure with its limit. Arguments choose figures by the
// names of the files in tests/bench/figures: `npm run bench -- size start`.
import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureInstalled } from './ensure-installed.mjs';
import { findOrInstallBrowser } from './find-browser.mjs';

const top = fileURLToPath(new URL('../../', import.meta.url));
const names = readdirSync(join(top, 'tests/bench/figures')).map((file) => file.replace(/\.figure\.ts$/, ''));

/** A machine with more to do than it has cores measures its neighbours. */
const BUSY = 0.5;

/** @param {string} chromium */
function tellMachine(chromium) {
  const browser = spawnSync(chromium, ['--version'], { encoding: 'utf8' }).stdout.trim();
  const cores = cpus();
  const load = loadavg()[0] ?? 0;
  console.log(`${browser}, Node ${process.version}, ${cores.length} cores (${cores[0]?.model.trim() ?? 'unknown'})`);
  if (load > BUSY) console.log(`The machine is busy (load ${load.toFixed(1)} over the last minute): expect noise.`);
}

/** @param {string[]} wanted */
async function runBench(wanted) {
  const { startVitest } = await import('vitest/node');
  const { figureReporter } = await import('../../tests/bench/reporter.mjs');
  const reporter = figureReporter();
  const files = wanted.map((name) => `tests/bench/figures/${name}.figure.ts`);
  const vitest = await startVitest('test', files, {
    config: join(top, 'tests/bench/vitest.config.ts'),
    root: top,
    run: true,
    watch: false,
    reporters: [reporter],
  });
  await vitest.close();
  return reporter.sum();
}

/** @param {string[]} wanted */
async function main(wanted) {
  const unknown = wanted.filter((name) => !names.includes(name));
  if (unknown.length > 0) throw new Error(`There is no figure ${unknown.join(', ')}. There are: ${names.join(', ')}.`);
  ensureInstalled();
  const browser = findOrInstallBrowser();
  if (!browser.ok) throw new Error(browser.reason);
  process.env['HALLPACE_CHROMIUM'] = browser.value;
  tellMachine(browser.value);
  const { figures, over, broken } = await runBench(wanted);
  console.log(`${figures} figures, ${over} over their limit, ${broken} not measured.`);
  process.exitCode = over + broken > 0 || figures === 0 ? 1 : 0;
}

// Through `exit`, where what was begun is cleared away.
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.once(signal, () => process.exit(1));

try {
  await main(process.argv.slice(2));
} catch (error) {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  process.exitCode = 1;
}
