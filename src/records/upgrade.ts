import { type Parsed, refuse } from './parsed.ts';

/** `tooNew`: written by a later version, left as it is. `unreadable`: set aside, never deleted. */
export type StoredReason = 'tooNew' | 'unreadable';

/** A stored row as it lies there: an object with a version, nothing else known. */
export type RawRow = Readonly<Record<string, unknown>>;

/** Makes a row of one version one of the next, `v` included. Pure; once released never edited. */
export type Upgrade = (row: RawRow) => RawRow;

/**
 * Brings a stored row to the version of today, then checks it as today's. `upgrades[n - 1]` takes version n to n + 1,
 * so today's version is one more than there are. The row in the store stays as it is; what is wrong inside makes it
 * `unreadable`, and where it is wrong is kept for whoever looks for the cause.
 */
export function parseRow<T>(
  raw: unknown,
  upgrades: readonly Upgrade[],
  checkRow: (row: RawRow) => Parsed<T>,
): Parsed<T, StoredReason> {
  if (!isRow(raw)) return refuse('unreadable', []);
  const version = raw['v'];
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) return refuse('unreadable', ['v']);
  if (version > upgrades.length + 1) return refuse('tooNew', ['v']);
  const checked = checkRow(upgrades.slice(version - 1).reduce((row, upgrade) => upgrade(row), raw));
  return checked.ok ? checked : refuse('unreadable', checked.field);
}

function isRow(raw: unknown): raw is RawRow {
  return typeof raw === 'object' && raw !== null && !Array.isArray(raw);
}
