/** Whether names can be spoken. */
export type VoiceFact = 'ok' | 'absent' | 'failing';

/** Speaks short lines. Speech is a help, never the cue: nothing waits for it. */
export type Voice = {
  /** Speaks `line` now, ending what is still being said. Dropped silently where there is no voice. */
  readonly say: (line: string) => void;
  readonly hush: () => void;
  readonly fact: () => VoiceFact;
  /** Calls `hear` when the fact changes until the returned function is called. */
  readonly listen: (hear: (fact: VoiceFact) => void) => () => void;
};
