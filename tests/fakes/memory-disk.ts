/** Rows as they lie there, unknown until parsed; shared by all windows of one phone. */
export type MemoryDisk = {
  life: number;
  hallCard: unknown;
  readonly heads: Map<string, unknown>;
  readonly papers: Map<string, unknown>;
  readonly beats: Map<string, unknown>;
  /** By record, then by seq. */
  readonly marks: Map<string, Map<number, unknown>>;
  /** By record, then by note id. */
  readonly notes: Map<string, Map<string, unknown>>;
  /** By id and rev. */
  readonly plans: Map<string, unknown>;
};

export function memoryDisk(): MemoryDisk {
  return {
    life: 0,
    hallCard: undefined,
    heads: new Map(),
    papers: new Map(),
    beats: new Map(),
    marks: new Map(),
    notes: new Map(),
    plans: new Map(),
  };
}

/** The map under `key`, made where there is none. */
export function within<K>(maps: Map<string, Map<K, unknown>>, key: string): Map<K, unknown> {
  const there = maps.get(key) ?? new Map<K, unknown>();
  maps.set(key, there);
  return there;
}
