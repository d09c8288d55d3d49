import type { CueStyle } from '../plan/plan.ts';

/** Every sound a class makes. `name` is spoken, all others are sounds of their own. */
export type CueKind =
  | 'tick'
  | 'start'
  | 'halfway'
  | 'otherSide'
  | 'up'
  | 'down'
  /** Work ends and something else comes, in the same position. */
  | 'change'
  /** Before a change that needs getting ready for: kit, a jump, an anchor. */
  | 'headsUp'
  | 'finish'
  | 'name';

/** The sounds only, i.e. all that the cue line plays. */
export type SoundKind = Exclude<CueKind, 'name'>;

/**
 * One cue, due on the run clock. Asked for by windows (from, to] that never overlap, so each is heard once with nothing
 * remembered. `key` is the same for the same cue of the same span however often it is asked for.
 */
export type Cue = {
  readonly key: string;
  readonly kind: CueKind;
  readonly style: Exclude<CueStyle, 'silent'>;
  /** Id of the live span the cue belongs to. */
  readonly span: number;
  readonly dueRunMs: number;
  /** Only for `name`: index in the live list of the span whose move is spoken, and when it must be done. */
  readonly says: { readonly spanIndex: number; readonly doneByRunMs: number } | null;
};
