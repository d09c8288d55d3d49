import type { SoundKind } from '../class-run/cue.ts';
import type { CueStyle } from '../plan/plan.ts';

/** A sound wanted at an instant of the page's monotonic clock. `key` names it for good. */
export type WantedSound = {
  readonly key: string;
  readonly kind: SoundKind;
  readonly style: Exclude<CueStyle, 'silent'>;
  readonly dueMonoMs: number;
};

/**
 * How sound is. `ok` plays on time; `needsTap` waits for a touch; `interrupted` the system took it (a call);
 * `stalled` the audio clock stands still and is being revived; `absent` there is none.
 */
export type SoundFact = 'ok' | 'starting' | 'needsTap' | 'interrupted' | 'stalled' | 'absent';

/** Plays cues exactly on time. Nothing here is ever waited for. */
export type CueLine = {
  /** Call inside a press: asks the browser for sound. Returns at once; the fact tells the rest. */
  readonly unlock: () => void;
  /**
   * Makes exactly these sounds queued: new ones are queued, those gone are called off, late ones (over 150 ms) dropped.
   * A sound whose instant has come rings out whether it is still listed or not, and is not heard again.
   */
  readonly want: (sounds: readonly WantedSound[]) => void;
  /** Ends at once what is sounding and calls off all that is queued, as when someone is hurt. A later `want` queues again. */
  readonly hush: () => void;
  /** Nothing more will be wanted: what sounds rings out, then the sound device rests until the next `unlock` or `want`. */
  readonly rest: () => void;
  /** Compares the audio clock with the page's and requeues what moved; call a few times a second. */
  readonly tend: () => void;
  /** Plays one cue now, for the sound check. */
  readonly playNow: (kind: SoundKind, style: Exclude<CueStyle, 'silent'>) => void;
  readonly fact: () => SoundFact;
  /** Calls `hear` when the fact changes until the returned function is called. */
  readonly listen: (hear: (fact: SoundFact) => void) => () => void;
};
