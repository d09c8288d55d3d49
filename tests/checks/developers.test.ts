import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const top = fileURLToPath(new URL('../../', import.meta.url));
const text = readFileSync(`${top}DEVELOPERS.md`, 'utf8');

/** Paths between backquotes that lie in the repository; what a build makes is not among them. */
const paths = [...text.matchAll(/`((?:src|app|service-worker|assets|tests|\.ci)\/[\w./-]+|[\w-]+\.json)`/g)].map(
  (match) => match[1] ?? '',
);

/** A folder without a file is not in anybody's clone. */
const holdsFiles = (folder: string) =>
  existsSync(top + folder) &&
  readdirSync(top + folder, { recursive: true, withFileTypes: true }).some((entry) => entry.isFile());

/** The folders of the map: a line that is set in lies in the last one that is not. */
function foldersOf(map: string): string[] {
  let above = '';
  return map.split('\n').flatMap((line) => {
    const names = /^\s*((?:[\w-]+\/(?:\s|$))+)/.exec(line)?.[1]?.trim().split(/\s+/) ?? [];
    if (line.startsWith(' ')) return names.map((name) => above + name);
    above = names[0] ?? above;
    return names;
  });
}

test('DEVELOPERS.md shows both ways through the house, six files each', () => {
  const ways = text.split('## From press to sample')[1]?.split('\n## ')[0] ?? '';
  const files = [...ways.matchAll(/`[\w./-]+\.tsx?`/g)];

  expect(files).toHaveLength(12);
});

test.for(paths)('%s, named in DEVELOPERS.md, is there', (path) => {
  expect(existsSync(top + path)).toBe(true);
});

test('every folder on the map holds files', () => {
  const folders = foldersOf(text.split('```')[1] ?? '');

  expect(folders.length).toBeGreaterThan(15);
  expect(folders.filter((folder) => !holdsFiles(folder))).toEqual([]);
});

test('the two pages name every command, and no other', () => {
  const { scripts } = JSON.parse(readFileSync(`${top}package.json`, 'utf8')) as { scripts: Record<string, string> };
  const pages = text + readFileSync(`${top}README.md`, 'utf8');
  const named = [...pages.matchAll(/npm (?:run (\w+)|(start|test)\b)/g)].map((match) => match[1] ?? match[2] ?? '');

  expect([...new Set(named)].sort()).toEqual(Object.keys(scripts).sort());
});
