import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const top = fileURLToPath(new URL('../../', import.meta.url));
const text = readFileSync(`${top}DEVELOPERS.md`, 'utf8');

/** Paths between backquotes that lie in the repository; what a build makes is not among them. */
const paths = [...text.matchAll(/`((?:src|app|service-worker|assets|tests|\.ci)\/[\w./-]+|[\w-]+\.json)`/g)].map(
  (match) => match[1] ?? '',
);

test('DEVELOPERS.md shows both ways through the house, six files each', () => {
  const ways = text.split('## From press to sample')[1]?.split('\n## ')[0] ?? '';
  const files = [...ways.matchAll(/`[\w./-]+\.tsx?`/g)];

  expect(files).toHaveLength(12);
});

test.for(paths)('%s, named in DEVELOPERS.md, is there', (path) => {
  expect(existsSync(top + path)).toBe(true);
});

test('every folder on the map is there', () => {
  const map = text.split('```')[1] ?? '';
  const folders: string[] = [];
  let above = '';
  for (const line of map.split('\n')) {
    const names = /^\s*((?:[\w-]+\/\s?)+)/.exec(line)?.[1]?.trim().split(/\s+/) ?? [];
    if (names.length > 0 && !line.startsWith(' ')) above = names[0] ?? '';
    for (const name of names) folders.push(line.startsWith(' ') ? above + name : name);
  }

  expect(folders.length).toBeGreaterThan(15);
  expect(folders.filter((folder) => !existsSync(top + folder))).toEqual([]);
});

test('README.md names commands that package.json has', () => {
  const { scripts } = JSON.parse(readFileSync(`${top}package.json`, 'utf8')) as { scripts: Record<string, string> };
  const pages = text + readFileSync(`${top}README.md`, 'utf8');
  const named = [...pages.matchAll(/npm (?:run )?(start|test|check|bench|build|\w+)\b/g)].map(
    (match) => match[1] ?? '',
  );
  const known = named.filter((name) => name in scripts);

  expect(known.length).toBeGreaterThan(4);
  expect(Object.keys(scripts).filter((name) => !named.includes(name))).toEqual([]);
});
