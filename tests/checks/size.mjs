// The size budget: what a phone has to load and read before it can show anything.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from '../../app/build/build.mjs';

/** Bytes of page script, gzip, and where the hall screen's modules lie. */
export const LIMITS = { firstPaintBytes: 40_000, withHallBytes: 75_000 };
/** A class needs its screen, what runs it and what it needs of the phone. */
const HALL = /^app\/(screens\/hall|live|platform|words\/spoken-words)/;

/**
 * @typedef {{ file: string, isEntry: boolean, imports: string[], modules: string[], gzipBytes: number }} Script
 */

/**
 * The scripts that are loaded with `starts`: themselves and all that they import at once.
 *
 * @param {readonly Script[]} scripts
 * @param {readonly Script[]} starts
 */
function loadedWith(scripts, starts) {
  const loaded = new Set(starts);
  for (const script of loaded) {
    for (const other of scripts) if (script.imports.includes(other.file)) loaded.add(other);
  }
  return loaded;
}

/** @param {Iterable<Script>} scripts */
const bytesOf = (scripts) => [...scripts].reduce((sum, script) => sum + script.gzipBytes, 0);

/**
 * What the page loads before its first paint, and what it has loaded once the hall is open; each in
 * bytes after gzip. `withHallBytes` is null where no script holds the hall screen.
 *
 * @param {readonly Script[]} scripts
 */
export function sizesOf(scripts) {
  const entries = scripts.filter((script) => script.isEntry);
  const halls = scripts.filter((script) => script.modules.some((module) => HALL.test(module)));
  return {
    firstPaintBytes: bytesOf(loadedWith(scripts, entries)),
    withHallBytes: halls.length === 0 ? null : bytesOf(loadedWith(scripts, [...entries, ...halls])),
  };
}

/**
 * The complaints about a build's sizes; an empty list keeps the budget.
 *
 * @param {readonly Script[]} scripts
 */
export function sizeComplaints(scripts) {
  const sizes = sizesOf(scripts);
  const found = [];
  if (sizes.firstPaintBytes === 0) found.push('no script was found that the page loads first');
  if (sizes.firstPaintBytes > LIMITS.firstPaintBytes)
    found.push(`before first paint: ${sizes.firstPaintBytes} bytes, limit ${LIMITS.firstPaintBytes}`);
  if (sizes.withHallBytes === null) found.push('no script was found that holds the hall screen');
  else if (sizes.withHallBytes > LIMITS.withHallBytes)
    found.push(`with the hall: ${sizes.withHallBytes} bytes, limit ${LIMITS.withHallBytes}`);
  return found;
}

/** Builds into a folder of its own, and weighs. */
export async function checkSize() {
  const outDir = mkdtempSync(join(tmpdir(), 'hallpace-size-'));
  try {
    const { scripts } = await build({ outDir });
    const { firstPaintBytes, withHallBytes } = sizesOf(scripts);
    return {
      complaints: sizeComplaints(scripts),
      note: `${firstPaintBytes} bytes before first paint, ${withHallBytes ?? 'no'} with the hall (gzip)`,
    };
  } finally {
    rmSync(outDir, { recursive: true, force: true });
  }
}
