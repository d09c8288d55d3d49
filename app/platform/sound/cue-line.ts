import {
  type AudioClock,
  addReading,
  audioTimeFor,
  isSettled,
  restarted,
  unknownAudioClock,
  wantsReadings,
} from '../../../src/class-run/audio-clock.ts';
import { diff } from '../../../src/class-run/cue-queue.ts';
import type { Clocks, Timers } from '../../../src/ports/clocks.ts';
import type { CueLine, SoundFact, WantedSound } from '../../../src/ports/cue-line.ts';
import type { Log } from '../../../src/ports/log.ts';
import type { PageLife } from '../../../src/ports/page-life.ts';
import { toldFact } from '../hearers.ts';
import { isBack } from '../page-life.ts';
import type { Clips } from './clips.ts';
import { contextKeeper } from './context-keeper.ts';
import type { SoundContext } from './howler-context.ts';
import { type SoundSeat, takeSeat } from './sound-seat.ts';

export type CueLineNeeds = {
  readonly sound: SoundContext;
  readonly clips: Clips;
  readonly clocks: Clocks;
  readonly timers: Timers;
  readonly pageLife: PageLife;
  readonly log: Log;
};

/** As in the queue's rule: what starts sooner is left alone. */
const SOON_SECONDS = 0.1;
const REMEMBER_MS = 3000;
/** Readings this close together find the edges of the clock's steps. */
const DENSE_MS = 13;
/** Else one more reading after each look, never at the same distance: a steady beat can miss the edge of every step. */
const EXTRA_MS = [31, 7, 53, 17, 41, 11, 61, 23, 47, 3, 37];
const AT_ONCE_MS = 1500;
const RING_OUT_MS = 2500;

const busses = new WeakMap<CueLine, () => AudioNode | null>();

/** The node that all cues of this line, and nothing else, go through now; for measuring. Another after a new context. */
export function busOf(line: CueLine): AudioNode | null {
  return busses.get(line)?.() ?? null;
}

/**
 * Plays cues by the audio clock: each is handed over long before, with its start time, so that a blocked or hidden page
 * does not delay it. Nothing is waited for: each look goes by what the context and its clock show.
 */
export function webAudioCueLine({ sound, clips, clocks, timers, pageLife, log }: CueLineNeeds): CueLine {
  const { fact, become, listen } = toldFact<SoundFact>('starting');
  const keeper = contextKeeper(sound, clocks, log);
  let wanted: readonly WantedSound[] = [];
  let atOnce: { readonly bufferIn: (context: AudioContext) => AudioBuffer; readonly monoMs: number } | null = null;
  let seat: SoundSeat | null = null;
  let clock: AudioClock = unknownAudioClock;
  let edition = clips.edition();
  let isAbsent = false;
  let isResting = false;
  /** Was on time in this context and has run since: a dropped buffer is no news for people. */
  let isTrusted = false;
  let isReadingSoon = false;
  let extra = 0;

  /** Takes the context that is there now: Howler or the keeper may have put another in its place. */
  const sit = (): SoundSeat | null => {
    const found = isAbsent || isResting ? sound.now() : sound.make();
    isAbsent = found === null && !isResting;
    if (seat?.context === found?.context) return seat;
    seat?.queue.silence();
    clock = unknownAudioClock;
    isTrusted = false;
    const taken = found === null ? null : takeSeat(found, clips, () => seat === taken && look());
    taken?.queue.remember(seat?.queue.queued() ?? []);
    seat = taken;
    if (taken !== null && !isResting) keeper.begin(taken.context);
    return seat;
  };

  const read = ({ context }: SoundSeat) => {
    if (context.state !== 'running') return;
    const audioSeconds = context.currentTime;
    clock = addReading(clock, { audioSeconds, monoMs: clocks.monoMs() });
    if (clock.offsets.length > 1 && !clock.isStalled) keeper.sawItRun();
    isTrusted = !clock.isStalled && (isTrusted || isSettled(clock));
  };

  /** Nothing may wait in a clock that stands: it would all be heard when it runs again. */
  const fallSilent = ({ queue }: SoundSeat) => {
    queue.silence();
    clock = restarted(clock);
  };

  const reconcile = ({ context, queue }: SoundSeat) => {
    const nowMonoMs = clocks.monoMs();
    const nowSeconds = audioTimeFor(clock, nowMonoMs);
    if (nowSeconds === null) return;
    // Recordings have come in place of stand-ins: all is handed over anew.
    if (edition !== clips.edition()) queue.cancelAfter(nowSeconds + SOON_SECONDS);
    edition = clips.edition();
    const change = diff(wanted, queue.queued(), (monoMs) => audioTimeFor(clock, monoMs) ?? nowSeconds, nowMonoMs);
    for (const key of change.cancel) queue.cancel(key);
    for (const each of change.start) queue.start(each, clips.bufferOf(context, each.kind, each.style));
    queue.forgetDueBefore(nowMonoMs - REMEMBER_MS);
  };

  const playAtOnce = ({ context, queue }: SoundSeat) => {
    if (atOnce !== null && clocks.monoMs() - atOnce.monoMs <= AT_ONCE_MS) queue.playNow(atOnce.bufferIn(context));
    atOnce = null;
  };

  const factNow = (): SoundFact => {
    if (seat === null) return isResting ? 'needsTap' : 'absent';
    if (seat.context.state === 'interrupted') return 'interrupted';
    if (keeper.isReviving() || clock.isStalled) return 'stalled';
    if (seat.context.state !== 'running') return 'needsTap';
    return isTrusted ? 'ok' : 'starting';
  };

  const bringAbout = (present: SoundSeat) => {
    clips.prepare(present.context);
    read(present);
    if (present.context.state === 'running' && !clock.isStalled) {
      playAtOnce(present);
      reconcile(present);
      return;
    }
    isTrusted = false;
    if (clock.isStalled) present.queue.silence();
    else fallSilent(present);
    if (!isResting) keeper.urge(present.context);
    sit();
  };

  /** Brings about what is wanted as far as the context lets us, and says how it is. */
  const look = () => {
    const present = sit();
    if (present !== null) bringAbout(present);
    become(factNow());
    readSoon();
  };

  const readSoon = () => {
    if (isReadingSoon || seat?.context.state !== 'running' || clock.isStalled) return;
    const isSure = !wantsReadings(clock);
    extra = (extra + 1) % EXTRA_MS.length;
    isReadingSoon = true;
    timers.after(isSure ? (EXTRA_MS[extra] ?? DENSE_MS) : DENSE_MS, () => {
      isReadingSoon = false;
      if (seat === null) return;
      read(seat);
      // Each reading may move what is queued, and asks for the next.
      if (!isSure || wantsReadings(clock)) look();
    });
  };

  pageLife.listen((event) => {
    if (seat === null) return;
    // A frozen page's audio clock stands (Chromium): what is queued would be heard late by as long as that.
    if (event === 'frozen') fallSilent(seat);
    if (!isBack(event)) return;
    if (!isResting) keeper.askAgain(seat.context);
    look();
  });

  const line: CueLine = {
    unlock: () => {
      isAbsent = false;
      isResting = false;
      const present = sit();
      if (present !== null) keeper.press(present.context);
      look();
    },
    want: (sounds) => {
      wanted = sounds;
      if (sounds.length > 0) isResting = false;
      if (sounds.length > 0 || seat !== null) look();
    },
    tend: look,
    playNow: (kind, style) => {
      atOnce = { bufferIn: (context) => clips.bufferOf(context, kind, style), monoMs: clocks.monoMs() };
      look();
    },
    hush: () => {
      wanted = [];
      atOnce = null;
      seat?.queue.silence();
    },
    rest: () => {
      wanted = [];
      isResting = true;
      timers.after(RING_OUT_MS, () => {
        if (isResting) seat?.context.suspend().catch((error) => log.note('sound: rest refused', error));
      });
    },
    fact,
    listen,
  };
  busses.set(line, () => seat?.bus ?? null);
  return line;
}
