// `npm test`: every suite, and one last line with the sum. Arguments choose test files:
// `npm test -- tests/class-run`.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureInstalled } from './ensure-installed.mjs';
import { findOrInstallBrowser } from './find-browser.mjs';

const top = fileURLToPath(new URL('../../', import.meta.url));
const BROWSER_TESTS = /^(\.\/)?tests\/(browser|faults)\b/;

/**
 * What one run of vitest came to. `failed` counts a file that could not be read, and a run that
 * failed without naming a test, as one each: neither may pass unseen.
 *
 * @typedef {{ passed: number, failed: number, skipped: string[], failures: string[] }} Outcome
 */

/**
 * @param {string} reportFile
 * @param {number | null} status
 * @param {string} suites
 * @returns {Outcome}
 */
export function outcomeOf(reportFile, status, suites) {
  /** @type {{ testResults: { name: string, status: string, assertionResults: { status: string, fullName: string }[] }[] }} */
  let report;
  try {
    report = JSON.parse(readFileSync(reportFile, 'utf8'));
  } catch {
    return { passed: 0, failed: 1, skipped: [], failures: [`the suites ${suites} gave no report`] };
  }
  const tests = report.testResults.flatMap((file) => file.assertionResults);
  const named = (/** @type {string[]} */ ...statuses) =>
    tests.filter((test) => statuses.includes(test.status)).map((test) => test.fullName);
  const brokenFiles = report.testResults
    .filter((file) => file.status === 'failed' && !file.assertionResults.some((test) => test.status === 'failed'))
    .map((file) => `${file.name} could not be run`);
  const failures = [...named('failed'), ...brokenFiles];
  if (status !== 0 && failures.length === 0) failures.push(`the suites ${suites} ended with an error`);
  return {
    passed: named('passed').length,
    failed: failures.length,
    skipped: named('skipped', 'pending', 'todo', 'disabled'),
    failures,
  };
}

/**
 * @param {string[]} projects
 * @param {string[]} files
 * @param {Record<string, string>} env
 */
function runSuites(projects, files, env) {
  const folder = mkdtempSync(join(tmpdir(), 'hallpace-tests-'));
  const report = join(folder, 'report.json');
  try {
    const { status } = spawnSync(
      process.execPath,
      [
        join(top, 'node_modules/vitest/vitest.mjs'),
        'run',
        '--config=tests/vitest.config.ts',
        ...projects.map((project) => `--project=${project}`),
        '--reporter=default',
        '--reporter=json',
        `--outputFile.json=${report}`,
        '--passWithNoTests',
        ...files,
      ],
      { cwd: top, stdio: 'inherit', env: { ...process.env, ...env } },
    );
    return outcomeOf(report, status, projects.join(' and '));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** @param {string[]} files */
function runAll(files) {
  const runsUnit = files.length === 0 || files.some((file) => !BROWSER_TESTS.test(file));
  const runsBrowser = files.length === 0 || files.some((file) => BROWSER_TESTS.test(file));
  const browser = runsBrowser ? findOrInstallBrowser() : undefined;
  if (browser?.ok === false) {
    process.stderr.write(`${browser.reason}\n`);
    process.exit(1);
  }
  return [
    ...(runsUnit ? [runSuites(['unit', 'screens'], files, {})] : []),
    ...(browser === undefined ? [] : [runSuites(['browser'], files, { HALLPACE_CHROMIUM: browser.value })]),
  ];
}

/** @param {Outcome[]} outcomes */
function tell(outcomes) {
  const passed = outcomes.reduce((sum, outcome) => sum + outcome.passed, 0);
  const failed = outcomes.reduce((sum, outcome) => sum + outcome.failed, 0);
  const skipped = outcomes.flatMap((outcome) => outcome.skipped);
  for (const failure of outcomes.flatMap((outcome) => outcome.failures)) console.log(`failed: ${failure}`);
  for (const name of skipped) console.log(`skipped: ${name}`);
  if (passed + failed === 0) console.log('No test was run.');
  console.log(`${passed} passed, ${failed} failed${skipped.length > 0 ? `, ${skipped.length} skipped` : ''}`);
  process.exitCode = failed > 0 || passed === 0 ? 1 : 0;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  ensureInstalled();
  tell(runAll(process.argv.slice(2)));
}
