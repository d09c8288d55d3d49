import type { Log } from '../../../src/ports/log.ts';
import { toldFact } from '../hearers.ts';

/**
 * Whether the browser promised to keep what is stored when the disk runs low. `asking` may last for ever: some browsers
 * show a question that nobody answers.
 */
export type PersistFact = 'notAsked' | 'asking' | 'granted' | 'refused' | 'absent';

export type Persist = {
  /** Call inside a tap: some browsers only ask then. Returns at once; the fact tells the rest. Harmless when repeated. */
  readonly ask: () => void;
  readonly fact: () => PersistFact;
  readonly listen: (hear: (fact: PersistFact) => void) => () => void;
};

export type PersistNeeds = {
  /** The browser's `navigator.storage`; undefined where there is none. */
  readonly storage: Partial<Pick<StorageManager, 'persist' | 'persisted'>> | undefined;
  readonly log: Log;
};

export function browserPersist({ storage, log }: PersistNeeds): Persist {
  const { fact, become, listen } = toldFact<PersistFact>(storage?.persist === undefined ? 'absent' : 'notAsked');

  /** What was promised in an earlier run, without asking anyone. */
  const look = async (): Promise<void> => {
    if ((await storage?.persisted?.()) === true) become('granted');
  };

  const ask = async (): Promise<void> => {
    if (storage?.persist === undefined || fact() === 'granted' || fact() === 'asking') return;
    become('asking');
    become((await storage.persist()) ? 'granted' : 'refused');
  };

  look().catch((fault: unknown) => log.note('persist: cannot look', fault));

  return {
    ask: () => {
      ask().catch((fault: unknown) => {
        log.note('persist: failed', fault);
        become('refused');
      });
    },
    fact,
    listen,
  };
}
