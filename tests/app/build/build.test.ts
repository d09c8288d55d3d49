import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { complaints } from '../../../app/build/build.mjs';

let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'hallpace-build-'));
  mkdirSync(join(folder, 'assets'));
  write('worker.js', '');
  write('index.html', '<script type="module" src="./main.js"></script>');
});

afterEach(() => rmSync(folder, { recursive: true, force: true }));

const write = (file: string, text: string) => writeFileSync(join(folder, file), text);

test('has nothing against a folder whose files are all kept', () => {
  write('assets/tone.wav', 'x');

  expect(complaints(folder, ['index.html', 'assets/tone.wav'], [])).toEqual([]);
});

test('names a file that would be missing without a network', () => {
  write('assets/tone.flac', 'x');

  expect(complaints(folder, ['index.html'], [])).toEqual([expect.stringContaining('assets/tone.flac')]);
});

test('takes no warning lightly', () => {
  expect(complaints(folder, ['index.html'], ['too large'])).toEqual(['warning: too large']);
});

test.for([
  '<script>run()</script>',
  '<style>a{}</style>',
  '<p onclick="run()">',
  '<a href="javascript:run()">',
  '<img src="data:image/png;base64,AA">',
])('refuses a page with %s, which the policy would block', (inline) => {
  write('index.html', inline);

  expect(complaints(folder, ['index.html'], [])).toEqual(['index.html holds inline code or data']);
});

test('refuses a style sheet with data in it, which the policy would block', () => {
  write('assets/hall.css', 'a{background:url("data:image/png;base64,AA")}');

  expect(complaints(folder, ['index.html', 'assets/hall.css'], [])).toEqual(['assets/hall.css holds inline data']);
});
