import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { findBrowser, findOrInstallBrowser } from '../../../app/build/find-browser.mjs';

let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'hallpace-find-'));
  for (const name of ['HALLPACE_CHROMIUM', 'CHROME_PATH', 'CHROMIUM']) vi.stubEnv(name, undefined);
  vi.stubEnv('PATH', folder);
});

afterEach(() => rmSync(folder, { recursive: true, force: true }));

function program(name: string): string {
  const file = join(folder, name);
  writeFileSync(file, '#!/bin/sh\n');
  chmodSync(file, 0o755);
  return file;
}

test('takes the program that the environment names before one on the path', () => {
  program('chromium');
  const named = program('another');
  vi.stubEnv('HALLPACE_CHROMIUM', named);

  expect(findBrowser()).toEqual({ ok: true, value: named });
});

test('finds a Chromium on the path', () => {
  const found = program('google-chrome');

  expect(findBrowser()).toEqual({ ok: true, value: found });
});

test('says which variable names no program, and looks no further', () => {
  program('chromium');
  vi.stubEnv('CHROME_PATH', join(folder, 'gone'));

  const found = findOrInstallBrowser();

  expect(found).toMatchObject({ ok: false, reason: expect.stringContaining('CHROME_PATH') });
});

test('says in one sentence what to do where there is none', () => {
  expect(findBrowser()).toEqual({
    ok: false,
    reason: 'The browser tests need Chromium: install it, or name its program in HALLPACE_CHROMIUM.',
  });
});
