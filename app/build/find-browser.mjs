// Runs before anything is installed: Node's own modules only.
import { spawnSync } from 'node:child_process';
import { accessSync, constants, existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

const VARIABLES = ['HALLPACE_CHROMIUM', 'CHROME_PATH', 'CHROMIUM'];
const PROGRAMS = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];

/** @param {string} file */
function canRun(file) {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

function onPath() {
  const folders = (process.env['PATH'] ?? '').split(delimiter).filter((folder) => folder !== '');
  return PROGRAMS.flatMap((program) => folders.map((folder) => join(folder, program))).find(canRun);
}

/**
 * A Chromium that the environment names or that is on the PATH. A variable that names no program is
 * a mistake to be told, not to be passed over.
 *
 * @returns {{ ok: true, value: string } | { ok: false, reason: string }}
 */
export function findBrowser() {
  const variable = VARIABLES.find((name) => process.env[name]);
  if (variable !== undefined) {
    const file = process.env[variable] ?? '';
    return canRun(file)
      ? { ok: true, value: file }
      : { ok: false, reason: `${variable} is set to ${file}, which is not a program that can be run.` };
  }
  const found = onPath();
  if (found !== undefined) return { ok: true, value: found };
  return {
    ok: false,
    reason: 'The browser tests need Chromium: install it, or name its program in HALLPACE_CHROMIUM.',
  };
}

function mayInstall() {
  return process.getuid?.() === 0 && existsSync('/etc/debian_version');
}

/** @param {string[]} options */
function apt(...options) {
  const { status } = spawnSync('apt-get', ['-q', '-o', 'DPkg::Lock::Timeout=600', ...options], {
    stdio: ['ignore', process.stderr, process.stderr],
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  });
  return status === 0;
}

/**
 * As findBrowser, and where none is found on a Debian-like system that this process may change, the
 * distribution's package is installed first.
 *
 * @returns {{ ok: true, value: string } | { ok: false, reason: string }}
 */
export function findOrInstallBrowser() {
  const found = findBrowser();
  const isNamed = VARIABLES.some((name) => process.env[name]);
  if (found.ok || isNamed || !mayInstall()) return found;
  process.stderr.write("No Chromium found: installing the distribution's package ...\n");
  apt('update');
  apt('install', '-y', '--no-install-recommends', 'chromium');
  return findBrowser();
}
