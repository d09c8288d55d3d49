import type { Log } from '../../src/ports/log.ts';

/** One short text kept on this phone. Storage that is refused reads as nothing, and writing to it is only noted. */
export type LocalText = { readonly read: () => string | null; readonly write: (text: string) => void };

/** `storage` throws where the browser forbids it, so it is asked for at each use. */
export function localText(storage: () => Storage, key: string, log: Log): LocalText {
  return {
    read: () => {
      try {
        return storage().getItem(key);
      } catch (error) {
        log.note('local text: not read', error);
        return null;
      }
    },
    write: (text) => {
      try {
        storage().setItem(key, text);
      } catch (error) {
        log.note('local text: not written', error);
      }
    },
  };
}
