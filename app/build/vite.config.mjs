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

export default defineConfig({
  root: path('..'),
  // Relative, so that the folder works under any address: every route is behind the `#`, the page
  // itself is always index.html of that folder, and the worker's scope is the folder it lies in.
  base: './',
  publicDir: false,
  plugins: [preact({ devToolsEnabled: false, prefreshEnabled: false }), installFiles()],
  resolve: { dedupe: ['preact', '@preact/signals'] },
  build: {
    outDir: path('../../dist'),
    emptyOutDir: true,
    target: 'es2022',
    // The content security policy allows no data: address and no inline script.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
  },
});
