import type { Ids } from '../../src/ports/ids.ts';

const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_';
const LENGTH = 22;

/** Ids of 22 letters with 6 random bits each, 132 in all. `fill` is the browser's `crypto.getRandomValues`. */
export function randomIds(fill: (bytes: Uint8Array<ArrayBuffer>) => unknown): Ids {
  return {
    newId: () => {
      const bytes = new Uint8Array(LENGTH);
      fill(bytes);
      return Array.from(bytes, (byte) => LETTERS.charAt(byte % LETTERS.length)).join('');
    },
  };
}
