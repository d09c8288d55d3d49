import type { CueStyle } from '../plan/plan.ts';
import type { SoundKind } from './cue.ts';

/** A sound that should be heard when the page's monotonic clock shows `dueMonoMs`. */
export type DueSound = {
  readonly key: string;
  readonly kind: SoundKind;
  readonly style: Exclude<CueStyle, 'silent'>;
  readonly dueMonoMs: number;
};

/** A sound that was handed to the audio clock: starts by itself at `whenSeconds` there, or has begun. */
export type QueuedSound = { readonly key: string; readonly dueMonoMs: number; readonly whenSeconds: number };

/** A sound to hand to the audio clock. `whenSeconds` is never before the present audio time. */
export type StartSound = DueSound & { readonly whenSeconds: number };

/** What to do, cancels first: a key in both is moved. */
export type QueueChange = { readonly cancel: readonly string[]; readonly start: readonly StartSound[] };

/** A queued sound is moved when its instant on the audio clock has moved by more than this. */
const MOVED_SECONDS = 0.002;
/** What starts this soon, or has begun, stays as it is: moving it could lose or double it. */
const SOON_SECONDS = 0.1;
/** A sound this late says something untrue; up to here it is played at once. */
const LATE_MS = 150;

/**
 * What makes the queue fit the wanted sounds. `toAudioSeconds` maps the page's monotonic ms to audio seconds as known
 * now. A queued sound that is no longer wanted is called off unless its instant has come: then it rings out, because a
 * caller that looks ahead from now no longer lists it. Of two wanted sounds with one key the first counts.
 */
export function diff(
  wanted: readonly DueSound[],
  queued: readonly QueuedSound[],
  toAudioSeconds: (monoMs: number) => number,
  nowMonoMs: number,
): QueueChange {
  const nowSeconds = toAudioSeconds(nowMonoMs);
  const byKey = new Map(queued.map((sound) => [sound.key, sound]));
  const seen = new Set<string>();
  const cancel: string[] = [];
  const start: StartSound[] = [];
  for (const sound of wanted) {
    if (seen.has(sound.key)) continue;
    seen.add(sound.key);
    const whenSeconds = toAudioSeconds(sound.dueMonoMs);
    const had = byKey.get(sound.key);
    if (had !== undefined && mayStay(had, sound, whenSeconds, nowSeconds)) continue;
    if (had !== undefined && had.whenSeconds > nowSeconds) cancel.push(sound.key);
    const lateMs = nowMonoMs - sound.dueMonoMs;
    if (lateMs <= LATE_MS) start.push({ ...sound, whenSeconds: Math.max(whenSeconds, nowSeconds, 0) });
  }
  const gone = queued.filter((had) => !seen.has(had.key) && had.dueMonoMs > nowMonoMs);
  return { cancel: [...cancel, ...gone.map((had) => had.key)], start };
}

function mayStay(had: QueuedSound, sound: DueSound, whenSeconds: number, nowSeconds: number): boolean {
  // Begun: it is only heard again where its instant was put off, as by going back to where the class stopped.
  if (had.whenSeconds <= nowSeconds) return sound.dueMonoMs - had.dueMonoMs <= LATE_MS;
  const moved = Math.abs(whenSeconds - had.whenSeconds);
  if (moved <= MOVED_SECONDS) return true;
  return had.whenSeconds < nowSeconds + SOON_SECONDS && moved <= LATE_MS / 1000;
}
