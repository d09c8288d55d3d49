import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import preact from '@preact/preset-vite';
import { defineConfig } from 'vite';

const path = (/** @type {string} */ fromHere) => fileURLToPath(new URL(fromHere, import.meta.url));

/**
 * Puts the manifest and the icons beside index.html under names that never change: a manifest in a
 * folder of its own would resolve `start_url` there, and phones look an installed icon up by address.
 *
 * @returns {import('vite').Plugin}
 */
function installFiles() {
  return {
    name: 'hallpace-install-files',
    generateBundle() {
      const emit = (/** @type {string} */ fileName, /** @type {string} */ from) =>
        this.emitFile({ type: 'asset', fileName, source: readFileSync(path(from)) });
      emit('manifest.webmanifest', '../manifest.webmanifest');
      const icons = readdirSync(path('../../assets/icons')).filter((name) => name.endsWith('.png'));
      for (const icon of icons) emit(`icons/${icon}`, `../../assets/icons/${icon}`);
    },
  };
}

/**
 * Has the page fetch what a class needs along with its first script: found only while that runs, part by part, it would
 * keep a class that goes on waiting.
 *
 * @returns {import('vite').Plugin}
 */
function fetchClassEarly() {
  return {
    name: 'hallpace-fetch-class-early',
    transformIndexHtml: {
      order: 'post',
      handler(_html, { bundle }) {
        const scripts = Object.values(bundle ?? {}).filter((file) => file.type === 'chunk');
        const rooms = scripts.find(({ facadeModuleId }) => facadeModuleId?.endsWith('/app/class-rooms.ts'));
        if (rooms === undefined) throw new Error('no script holds the class rooms');
        const fonts = Object.keys(bundle ?? {}).filter((fileName) => /-(500|700)-normal.*\.woff2$/.test(fileName));
        const isEntry = (/** @type {string} */ fileName) =>
          scripts.some((one) => one.isEntry && one.fileName === fileName);
        const parts = [rooms.fileName, ...rooms.imports.filter((fileName) => !isEntry(fileName))];
        return [
          ...parts.map((fileName) => ({ rel: 'modulepreload', crossorigin: true, href: `./${fileName}` })),
          ...fonts.map((fileName) => ({ rel: 'preload', as: 'font', crossorigin: true, href: `./${fileName}` })),
        ].map((attrs) => ({ tag: 'link', attrs, injectTo: /** @type {const} */ ('head') }));
      },
    },
  };
}

export default defineConfig({
  root: path('..'),
  // Relative, so that the folder works under any address: every route is behind the `#`, the page
  // itself is always index.html of that folder, and the worker's scope is the folder it lies in.
  base: './',
  publicDir: false,
  plugins: [preact({ devToolsEnabled: false, prefreshEnabled: false }), installFiles(), fetchClassEarly()],
  resolve: { dedupe: ['preact', '@preact/signals'] },
  build: {
    outDir: path('../../dist'),
    emptyOutDir: true,
    target: 'es2022',
    // The content security policy allows no data: address and no inline script.
    assetsInlineLimit: 0,
    // All styles come with the page and scripts have few parts: an import is an import and waits for no link.
    modulePreload: false,
    cssCodeSplit: false,
    reportCompressedSize: false,
  },
});
