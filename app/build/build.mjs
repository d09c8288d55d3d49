// Builds the page and the worker into one folder that any static https host can serve.
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';

const top = fileURLToPath(new URL('../../', import.meta.url));

/** Files of the built folder that a phone need not keep, each with its reason. */
const NOT_KEPT = new Map([['worker.js', 'the browser keeps the worker itself']]);

const KEPT = '**/*.{html,js,css,webmanifest,json,png,svg,woff2,wav,mp3,ogg,m4a,txt}';
const LARGEST_FILE_BYTES = 8_000_000;

/**
 * A script of the page.
 *
 * @typedef {{ file: string, isEntry: boolean, imports: string[], modules: string[], gzipBytes: number }} Script
 */

/** @param {string} folder */
const filesIn = (folder) =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).replaceAll('\\', '/'));

/**
 * A logger that keeps every warning, so that one cannot scroll past unseen.
 *
 * @param {string[]} warnings
 * @returns {import('vite').Logger}
 */
function keepingLogger(warnings) {
  const keep = (/** @type {string} */ message) => void warnings.push(message);
  return {
    info: () => {},
    warn: keep,
    warnOnce: keep,
    error: keep,
    clearScreen: () => {},
    hasErrorLogged: () => false,
    hasWarned: false,
  };
}

/**
 * @param {string} outDir
 * @param {string[]} warnings
 * @returns {Promise<Script[]>}
 */
async function buildPage(outDir, warnings) {
  const vite = await import('vite');
  const built = await vite.build({
    configFile: join(top, 'app/build/vite.config.mjs'),
    logLevel: 'warn',
    customLogger: keepingLogger(warnings),
    build: { outDir },
  });
  const output = Array.isArray(built) ? built.flatMap((one) => one.output) : 'output' in built ? built.output : [];
  return output.flatMap((file) =>
    file.type === 'chunk'
      ? [
          {
            file: file.fileName,
            isEntry: file.isEntry,
            imports: file.imports,
            modules: Object.keys(file.modules).map((module) => relative(top, module).replaceAll('\\', '/')),
            gzipBytes: gzipSync(file.code, { level: 9 }).length,
          },
        ]
      : [],
  );
}

/**
 * A classic script: a module worker is not everywhere, and this one imports nothing at run time.
 *
 * @param {string} workDir
 * @param {string[]} warnings
 */
async function bundleWorker(workDir, warnings) {
  const vite = await import('vite');
  await vite.build({
    configFile: false,
    root: top,
    publicDir: false,
    logLevel: 'warn',
    customLogger: keepingLogger(warnings),
    define: { 'process.env.NODE_ENV': '"production"' },
    build: {
      outDir: workDir,
      emptyOutDir: true,
      target: 'es2022',
      reportCompressedSize: false,
      lib: {
        entry: join(top, 'service-worker/worker.ts'),
        formats: ['iife'],
        name: 'hallpaceWorker',
        fileName: () => 'worker.js',
      },
    },
  });
}

/**
 * Writes the worker with the list of every file it is to keep.
 *
 * @param {string} outDir
 * @param {string} workDir
 * @returns {Promise<{ kept: string[], warnings: string[] }>}
 */
async function injectList(outDir, workDir) {
  const { injectManifest } = await import('workbox-build');
  /** @type {string[]} */
  const kept = [];
  const { warnings } = await injectManifest({
    swSrc: join(workDir, 'worker.js'),
    swDest: join(outDir, 'worker.js'),
    globDirectory: outDir,
    globPatterns: [KEPT],
    globIgnores: [...NOT_KEPT.keys()],
    dontCacheBustURLsMatching: /assets\/[^/]*-[\w-]{8}\.\w+$/,
    maximumFileSizeToCacheInBytes: LARGEST_FILE_BYTES,
    manifestTransforms: [
      (manifest) => {
        kept.push(...manifest.map((entry) => entry.url));
        return { manifest, warnings: [] };
      },
    ],
  });
  return { kept, warnings };
}

/**
 * The complaints about a built folder; an empty list is a good build. A file that is neither kept by
 * the worker nor named above would be missing in a hall without network, and only there.
 *
 * @param {string} outDir
 * @param {string[]} kept
 * @param {string[]} warnings
 */
export function complaints(outDir, kept, warnings) {
  const files = filesIn(outDir);
  const forgotten = files.filter((file) => !kept.includes(file) && !NOT_KEPT.has(file));
  const inline = /<script(?![^>]*\ssrc=)|<style|\son\w+=|javascript:|data:/i;
  return [
    ...warnings.map((warning) => `warning: ${warning}`),
    ...forgotten.map((file) => `${file} is neither kept for use without a network nor on the list of exceptions`),
    ...files
      .filter((file) => file.endsWith('.css') && /url\(\s*["']?data:/i.test(readFileSync(join(outDir, file), 'utf8')))
      .map((file) => `${file} holds inline data`),
    ...(inline.test(readFileSync(join(outDir, 'index.html'), 'utf8')) ? ['index.html holds inline code or data'] : []),
  ];
}

/**
 * Builds into `outDir`, which is emptied first. Throws with every complaint when anything was warned
 * of or a file would be missing offline.
 *
 * @param {{ outDir?: string }} [options]
 * @returns {Promise<{ outDir: string, scripts: Script[], kept: string[] }>}
 */
export async function build(options = {}) {
  const outDir = resolve(options.outDir ?? join(top, 'dist'));
  const workDir = mkdtempSync(join(tmpdir(), 'hallpace-worker-'));
  /** @type {string[]} */
  const warnings = [];
  // A test runner sets its own, and libraries would bring their checks for developers along.
  const mode = process.env['NODE_ENV'];
  process.env['NODE_ENV'] = 'production';
  try {
    const scripts = await buildPage(outDir, warnings);
    await bundleWorker(workDir, warnings);
    const listed = await injectList(outDir, workDir);
    const found = complaints(outDir, listed.kept, [...warnings, ...listed.warnings]);
    if (found.length > 0) throw new Error(`The build is not fit for use:\n  ${found.join('\n  ')}`);
    return { outDir, scripts, kept: listed.kept };
  } finally {
    if (mode === undefined) delete process.env['NODE_ENV'];
    else process.env['NODE_ENV'] = mode;
    rmSync(workDir, { recursive: true, force: true });
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { ensureInstalled } = await import('./ensure-installed.mjs');
  ensureInstalled();
  const { outDir, kept } = await build();
  console.log(`Built ${relative(process.cwd(), outDir) || '.'}: ${kept.length} files kept for use without a network.`);
}
