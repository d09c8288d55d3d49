/** Names contents by what they say. */
export type Digest = {
  /** SHA-256 of the text as UTF-8, 64 lower-case hex digits; null where the browser has none (plain http). Never rejects. */
  readonly sha256Hex: (text: string) => Promise<string | null>;
};
