import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { inject } from 'vitest';

const MARK = 'data-release-in-test';

/** A static host of its own, with the built app on it: what is put there is served at once. */
export type Host = {
  readonly root: string;
  /** Puts a later release of the same app there; its page carries the name. */
  readonly release: (name: string) => void;
  /** Takes one file away that the release wants to have: what an upload that broke off leaves. */
  readonly lose: (folder: string, extension: string) => void;
  readonly end: () => void;
};

export function newHost(): Host {
  const root = mkdtempSync(join(tmpdir(), 'hallpace-host-'));
  cpSync(inject('builtApp'), root, { recursive: true });
  const edit = (file: string, from: RegExp, to: string): void => {
    const text = readFileSync(join(root, file), 'utf8');
    const edited = text.replace(from, to);
    if (edited === text) throw new Error(`${file} has no ${from}`);
    writeFileSync(join(root, file), edited);
  };
  return {
    root,
    release: (name) => {
      edit('index.html', /<body[^>]*>/, `<body ${MARK}="${name}">`);
      edit('worker.js', /("?revision"?:)\s*"\w+"(,\s*"?url"?:\s*"index\.html")/, `$1"${name}"$2`);
    },
    lose: (folder, extension) => {
      const lost = readdirSync(join(root, folder)).find((file) => file.endsWith(extension));
      if (lost === undefined) throw new Error(`no ${extension} in ${folder}`);
      const address = `${folder}/${lost}`;
      // It has a name of its own in the new release, so that the old copy cannot stand in for it.
      edit('worker.js', new RegExp(`"${address.replaceAll('.', '\\.')}"`), `"${folder}/new-${lost}"`);
    },
    end: () => rmSync(root, { recursive: true, force: true }),
  };
}

/** The release that the page is of; empty for the first. */
export function releaseOf(page: Page): Promise<string> {
  return page.evaluate((mark) => document.body.getAttribute(mark) ?? '', MARK);
}

/** Asks for a newer release and gives what came of it: `installed` waits, `redundant` could not be fetched whole. */
export function fetchRelease(page: Page): Promise<string> {
  return page.evaluate(async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    if (registration === undefined) throw new Error('the app is not kept on this phone');
    const found = new Promise<ServiceWorker>((done) => {
      registration.addEventListener('updatefound', () => {
        if (registration.installing !== null) done(registration.installing);
      });
    });
    await registration.update();
    const worker = await found;
    return new Promise<string>((done) => {
      const look = (): void => {
        if (worker.state === 'installed' || worker.state === 'redundant') done(worker.state);
      };
      worker.addEventListener('statechange', look);
      look();
    });
  });
}
