/** The middle value; NaN of none. */
export function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((one, other) => one - other);
  const middle = sorted.length / 2;
  return ((sorted[Math.floor(middle)] ?? Number.NaN) + (sorted[Math.ceil(middle) - 1] ?? Number.NaN)) / 2;
}

/** The largest value; NaN of none, so that nothing measured is never good. */
export function worstOf(values: readonly number[]): number {
  return values.length === 0 ? Number.NaN : Math.max(...values);
}

export function rounded(value: number, digits = 1): string {
  return value.toFixed(digits);
}

/** "34.0 ms median, 51.2 ms worst of 7" */
export function medianAndWorst(values: readonly number[], unit: string, digits = 1): string {
  const [median, worst] = [medianOf(values), worstOf(values)].map((value) => rounded(value, digits));
  return `${median} ${unit} median, ${worst} ${unit} worst of ${values.length}`;
}
