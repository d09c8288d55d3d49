/**
 * JSON text in which keys stand in code unit order and nothing else varies: equal values give equal text. For values as
 * they come from a parse, i.e. plain and finite; a key without a value is left out, as JSON does.
 */
export function canonicalJson(value: unknown): string {
  return JSON.stringify(value, sortKeys);
}

function sortKeys(_key: string, value: unknown): unknown {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)));
}
