// `npm run check`: types, lint, layers, dead code, size. Every step runs, and each fails when it has
// read fewer files than there are: a checker that finds nothing to read otherwise reports success.
import { spawn } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureInstalled } from './ensure-installed.mjs';

const top = fileURLToPath(new URL('../../', import.meta.url));
const FOLDERS = ['src', 'app', 'service-worker', 'tests'];
const CODE = /\.(ts|tsx|mjs|cjs)$/;

/**
 * What a step came to; no complaints is good.
 *
 * @typedef {{ complaints: string[], note: string }} Outcome
 */

/** Every file of the four folders, and those at the top, by path from the top. */
function allFiles() {
  const below = FOLDERS.flatMap((folder) =>
    readdirSync(join(top, folder), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => relative(top, join(entry.parentPath, entry.name)).replaceAll('\\', '/')),
  );
  const atTop = readdirSync(top, { withFileTypes: true }).filter((entry) => entry.isFile());
  return [...below, ...atTop.map((entry) => entry.name)];
}

/**
 * @param {string} script path from the top
 * @param {string[]} options
 * @returns {Promise<{ status: number, output: string }>}
 */
function run(script, options) {
  return new Promise((done, fail) => {
    const child = spawn(process.execPath, [join(top, script), ...options], {
      cwd: top,
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let output = '';
    const keep = (/** @type {Buffer} */ bytes) => {
      output += bytes;
    };
    child.stdout.on('data', keep);
    child.stderr.on('data', keep);
    child.on('error', fail);
    child.on('close', (status) => done({ status: status ?? 1, output }));
  });
}

/**
 * @param {string[]} wanted
 * @param {Set<string>} read
 */
const unread = (wanted, read) => wanted.filter((file) => !read.has(file)).map((file) => `${file} was not read`);

/**
 * One project of tsc. The scripts of app/build run on Node, so they are typed with the tests.
 *
 * @param {string} folder
 * @param {string[]} files
 */
async function checkProject(folder, files) {
  const isItsOwn = (/** @type {string} */ file) =>
    file.startsWith('app/build/') ? folder === 'tests' : file.startsWith(`${folder}/`);
  const wanted = files.filter((file) => isItsOwn(file) && /\.(ts|tsx|mjs)$/.test(file));
  const options = ['-p', `${folder}/tsconfig.json`, '--noEmit', '--pretty', 'false', '--listFiles'];
  const { status, output } = await run('node_modules/typescript/bin/tsc', options);
  const lines = output.split('\n').filter((line) => line !== '');
  const isListed = (/** @type {string} */ line) => /^([A-Za-z]:)?\//.test(line) && !/: error TS/.test(line);
  const read = new Set(lines.filter(isListed).map((line) => relative(top, resolve(top, line)).replaceAll('\\', '/')));
  const complaints = [...lines.filter((line) => !isListed(line)), ...unread(wanted, read)];
  if (status !== 0 && complaints.length === 0) complaints.push(`tsc ended with ${status} on ${folder}`);
  return { complaints, count: wanted.length };
}

/**
 * @param {string[]} files
 * @returns {Promise<Outcome>}
 */
async function checkTypes(files) {
  const projects = await Promise.all(FOLDERS.map((folder) => checkProject(folder, files)));
  return {
    complaints: projects.flatMap((project) => project.complaints),
    note: `${projects.reduce((sum, project) => sum + project.count, 0)} files in ${projects.length} projects`,
  };
}

/**
 * @param {string[]} files
 * @returns {Promise<Outcome>}
 */
async function checkLint(files) {
  const wanted = files.filter(
    (file) =>
      /\.(ts|tsx|mjs|cjs|css|html|json|jsonc)$/.test(file) &&
      !/^(package-lock\.json|tests\/fixtures\/.*\.json)$/.test(file),
  );
  const { status, output } = await run('node_modules/@biomejs/biome/bin/biome', [
    'check',
    '--config-path=tests/checks/lint.jsonc',
    '--error-on-warnings',
    '--colors=off',
    ...wanted,
  ]);
  const count = Number(/Checked (\d+) files?/.exec(output)?.[1] ?? 0);
  const complaints = status === 0 ? [] : [output.trim()];
  if (count < wanted.length) complaints.push(`biome read ${count} files of ${wanted.length}`);
  return { complaints, note: `${count} files` };
}

/**
 * @param {string[]} files
 * @returns {Promise<Outcome>}
 */
async function checkLayers(files) {
  const { cruise } = await import('dependency-cruiser');
  const { default: rules } = await import('../../tests/checks/layers.cjs');
  const { output } = await cruise(FOLDERS, { ...rules.options, baseDir: top, validate: true, ruleSet: rules });
  if (typeof output === 'string') throw new Error('dependency-cruiser answered with text');
  const read = new Set(output.modules.map((module) => module.source));
  const arrows = output.modules.reduce((sum, module) => sum + module.dependencies.length, 0);
  const complaints = output.summary.violations.map(({ rule, from, to }) => `${rule.name}: ${from} -> ${to}`);
  complaints.push(
    ...unread(
      files.filter((file) => CODE.test(file)),
      read,
    ),
  );
  if (arrows === 0) complaints.push('dependency-cruiser saw no import at all');
  return { complaints, note: `${output.modules.length} modules, ${arrows} imports` };
}

/**
 * @param {string[]} files
 * @returns {Promise<Outcome>}
 */
async function checkDeadCode(files) {
  const options = ['--config=tests/checks/knip.json', '--no-progress', '--no-config-hints'];
  const reporters = ['--reporter=symbols', '--reporter=./tests/checks/knip-count.mjs'];
  const { status, output } = await run('node_modules/knip/bin/knip.js', [...options, ...reporters]);
  const wanted = files.filter((file) => CODE.test(file)).length;
  const count = Number(/files read: (\d+)/.exec(output)?.[1] ?? 0);
  const complaints = status === 0 ? [] : [output.replace(/files read: .*\n?/, '').trim()];
  if (count < wanted) complaints.push(`knip read ${count} files of ${wanted}`);
  return { complaints, note: `${count} files` };
}

/** @returns {Promise<Outcome>} */
async function checkSizes() {
  const { checkSize } = await import('../../tests/checks/size.mjs');
  return checkSize();
}

/** @type {[string, (files: string[]) => Promise<Outcome>][]} */
const STEPS = [
  ['types', checkTypes],
  ['lint', checkLint],
  ['layers', checkLayers],
  ['dead code', checkDeadCode],
  ['size', checkSizes],
];

/**
 * @param {string} name
 * @param {(files: string[]) => Promise<Outcome>} step
 * @param {string[]} files
 */
async function tell(name, step, files) {
  const { complaints, note } = await step(files).catch((/** @type {unknown} */ error) => ({
    complaints: [error instanceof Error ? (error.stack ?? error.message) : String(error)],
    note: 'could not be run',
  }));
  console.log(`${complaints.length === 0 ? 'good' : 'BAD '}  ${name}: ${note}`);
  for (const complaint of complaints) console.log(complaint.replace(/^/gm, '      '));
  return complaints.length === 0;
}

ensureInstalled();
const files = allFiles();
let isGood = true;
for (const [name, step] of STEPS) isGood = (await tell(name, step, files)) && isGood;
process.exitCode = isGood ? 0 : 1;
