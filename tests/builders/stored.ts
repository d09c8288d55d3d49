import { readFileSync } from 'node:fs';

/** The text of a file of the repository, by its path from the top. */
export function readTop(path: string): string {
  return readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');
}

/** What stands in a JSON file of the repository, unchecked. */
export function readTopJson(path: string): unknown {
  return JSON.parse(readTop(path));
}

/** A row, or rows, as version 1 wrote them. Never written again: later versions must still read these. */
export function storedV1(name: string): unknown {
  return readTopJson(`tests/fixtures/stored/v1/${name}.json`);
}

/** Rows as version 1 wrote them. */
export function storedRowsV1(name: string): readonly unknown[] {
  const rows = storedV1(name);
  if (!Array.isArray(rows)) throw new Error(`${name}.json holds no list`);
  return rows;
}
