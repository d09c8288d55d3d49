import type { SoundKind } from '../../src/class-run/cue.ts';
import type { CueLine, SoundFact, WantedSound } from '../../src/ports/cue-line.ts';
import type { FakeClocks } from './fake-clocks.ts';

/** A cue that was heard, with the instant it began at. `key` is empty for one played at once. */
export type HeardCue = {
  readonly key: string;
  readonly kind: SoundKind;
  readonly style: WantedSound['style'];
  readonly atMonoMs: number;
  /** Cut short by `hush`. */
  readonly isCut: boolean;
};

export type MemoryCueLine = CueLine & {
  /** Everything heard so far, in order. */
  readonly heard: () => readonly HeardCue[];
  /** What was wanted last. */
  readonly wanted: () => readonly WantedSound[];
  /** Sound goes wrong, or right again: nothing is heard while it is not `ok`. */
  readonly become: (fact: SoundFact) => void;
  /** Whether `unlock` brings sound, as a press does in most browsers; true at first. */
  readonly allowUnlock: (allow: boolean) => void;
  readonly counts: () => { readonly unlocks: number; readonly tends: number; readonly rests: number };
};

const LATE_MS = 150;
/** Every cue lasts this long here. */
const LASTS_MS = 300;

/** A cue line that plays into memory, exactly on time, by the fake clocks. Needs a tap at first, like a real one. */
export function memoryCueLine({ clocks, timers }: Pick<FakeClocks, 'clocks' | 'timers'>): MemoryCueLine {
  const heard: HeardCue[] = [];
  const hearers = new Set<{ readonly hear: (fact: SoundFact) => void }>();
  const begun = new Map<string, number>();
  const counts = { unlocks: 0, tends: 0, rests: 0 };
  let fact: SoundFact = 'needsTap';
  let mayUnlock = true;
  let wanted: readonly WantedSound[] = [];
  let callOff: (() => void)[] = [];

  const begin = (sound: Omit<WantedSound, 'dueMonoMs'>) => {
    if (fact !== 'ok') return;
    const { key, kind, style } = sound;
    heard.push({ key, kind, style, atMonoMs: clocks.monoMs(), isCut: false });
  };

  const queue = (sound: WantedSound) => {
    const had = begun.get(sound.key);
    const inMs = sound.dueMonoMs - clocks.monoMs();
    if (inMs < -LATE_MS || (had !== undefined && sound.dueMonoMs - had <= LATE_MS)) return;
    const play = () => {
      if (fact === 'ok') begun.set(sound.key, sound.dueMonoMs);
      begin(sound);
    };
    if (inMs <= 0) play();
    else callOff.push(timers.after(inMs, play));
  };

  const requeue = () => {
    for (const each of callOff) each();
    callOff = [];
    if (fact === 'ok') for (const sound of wanted) queue(sound);
  };

  const become = (now: SoundFact) => {
    if (now === fact) return;
    fact = now;
    requeue();
    for (const one of [...hearers]) one.hear(now);
  };

  const cutWhatSounds = () => {
    for (const [at, cue] of heard.entries()) {
      if (clocks.monoMs() - cue.atMonoMs < LASTS_MS) heard[at] = { ...cue, isCut: true };
    }
  };

  return {
    unlock: () => {
      counts.unlocks += 1;
      if (mayUnlock && fact === 'needsTap') become('ok');
    },
    want: (sounds) => {
      const keys = new Set<string>();
      wanted = sounds.filter((sound) => !keys.has(sound.key) && keys.add(sound.key));
      requeue();
    },
    tend: () => {
      counts.tends += 1;
    },
    playNow: (kind, style) => begin({ key: '', kind, style }),
    hush: () => {
      wanted = [];
      requeue();
      cutWhatSounds();
    },
    rest: () => {
      counts.rests += 1;
      wanted = [];
      requeue();
    },
    fact: () => fact,
    listen: (hear) => {
      const one = { hear };
      hearers.add(one);
      return () => {
        hearers.delete(one);
      };
    },
    heard: () => [...heard],
    wanted: () => wanted,
    become,
    allowUnlock: (allow) => {
      mayUnlock = allow;
    },
    counts: () => ({ ...counts }),
  };
}
