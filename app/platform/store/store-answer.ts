import type { Kept, StoreReason } from '../../../src/ports/class-store.ts';

type No = { readonly ok: false; readonly reason: StoreReason };

export const NOTHING: Kept<null> = { ok: true, value: null };

export function kept<T>(value: T): Kept<T> {
  return { ok: true, value };
}

export function no(reason: StoreReason): No {
  return { ok: false, reason };
}

/** A newer app has been here (`VersionError`) or there is no room; anything else may pass on another try. */
export function reasonOf(fault: unknown): StoreReason {
  const name = nameOf(fault);
  if (name === 'QuotaExceededError') return 'full';
  return name === 'VersionError' ? 'tooNew' : 'unavailable';
}

// A connection is dead without having said so: `InvalidStateError` "the database connection is closing" and
// `UnknownError` "connection to Indexed Database server lost" on iOS after the background (localForage 887, 1113), a
// generic `AbortError` there when the page goes to the background within a transaction (idb 338), after which its next
// request is a `TransactionInactiveError`.
const OF_A_LOST_CONNECTION = new Set(['InvalidStateError', 'UnknownError', 'AbortError', 'TransactionInactiveError']);

/** True where a fresh connection is worth one more try at once. */
export function speaksOfLostConnection(fault: unknown): boolean {
  return OF_A_LOST_CONNECTION.has(nameOf(fault));
}

function nameOf(fault: unknown): string {
  return typeof fault === 'object' && fault !== null && 'name' in fault ? String(fault.name) : '';
}
