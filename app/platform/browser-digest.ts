import type { Digest } from '../../src/ports/digest.ts';
import type { Log } from '../../src/ports/log.ts';

/** `subtle` is undefined on plain http. */
export function browserDigest(subtle: SubtleCrypto | undefined, log: Log): Digest {
  return {
    sha256Hex: async (text) => {
      try {
        const bytes = await subtle?.digest('SHA-256', new TextEncoder().encode(text));
        return bytes === undefined ? null : hexOf(new Uint8Array(bytes));
      } catch (error) {
        log.note('digest: failed', error);
        return null;
      }
    },
  };
}

function hexOf(bytes: Uint8Array): string {
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
