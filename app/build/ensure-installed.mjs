// Runs before anything is installed: Node's own modules only.
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const top = fileURLToPath(new URL('../../', import.meta.url));

/**
 * @param {string} file
 * @returns {Record<string, { version?: string, optional?: boolean, devOptional?: boolean }>} by folder
 */
function packagesIn(file) {
  try {
    return JSON.parse(readFileSync(top + file, 'utf8')).packages;
  } catch {
    return {};
  }
}

/** The folders whose installed version is not the locked one. Optional packages are another machine's. */
function notAsLocked() {
  const installed = packagesIn('node_modules/.package-lock.json');
  return Object.entries(packagesIn('package-lock.json')).filter(
    ([folder, locked]) => folder !== '' && locked.optional !== true && installed[folder]?.version !== locked.version,
  );
}

/** Installs what the lock file names where it is missing; ends the process when npm cannot. */
export function ensureInstalled() {
  if (notAsLocked().length === 0) return;
  process.stderr.write('Installing what package-lock.json names ...\n');
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
  const { status } = spawnSync(npm, ['ci', '--no-audit', '--no-fund', '--loglevel=error'], {
    cwd: top,
    // npm's own messages go to the error stream, so that a caller can read the last line of the output.
    stdio: ['ignore', process.stderr, process.stderr],
    shell: process.platform === 'win32',
  });
  if (status !== 0 || notAsLocked().length > 0) {
    process.stderr.write('Could not install the packages of package-lock.json: run `npm ci` to see why.\n');
    process.exit(1);
  }
}
