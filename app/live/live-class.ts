import { type ReadonlySignal, signal } from '@preact/signals';
import type { ClassState } from '../../src/class-run/class-state.ts';
import { OFFER_MS } from '../../src/class-run/clock-rule.ts';
import type { Cue } from '../../src/class-run/cue.ts';
import type { FigureView, HallView } from '../../src/class-run/hall-view.ts';
import { type HallPapers, hallViewOf } from '../../src/class-run/hall-view.ts';
import type { Asked, Mark, Refusal } from '../../src/class-run/marks.ts';
import { positionAt } from '../../src/class-run/position.ts';
import { step } from '../../src/class-run/step.ts';
import type { Clocks, Timers } from '../../src/ports/clocks.ts';
import type { CueLine } from '../../src/ports/cue-line.ts';
import type { PageEvent, PageLife } from '../../src/ports/page-life.ts';
import type { Remote } from '../../src/ports/remote.ts';
import type { Voice } from '../../src/ports/voice.ts';
import type { WakeLock } from '../../src/ports/wake-lock.ts';
import { askedFor } from './asks.ts';
import { classClock } from './class-clock.ts';
import type { HallAsk, Keeper, LiveClass, LiveFacts } from './live-contract.ts';
import { tellPresses } from './press.ts';
import { spokenNames } from './spoken-names.ts';
import { cuesAhead, HORIZON_MS, runs, soundsOf } from './wanted-sounds.ts';

/** The phone, as far as a class needs it. */
export type LivePorts = {
  readonly clocks: Clocks;
  readonly timers: Timers;
  readonly pageLife: PageLife;
  readonly cueLine: CueLine;
  readonly voice: Voice;
  readonly wakeLock: WakeLock;
  readonly remote: Remote;
};

/** A class to run: its papers, where it is, and who keeps it. `stopped` is the last that is known of a class taken up again. */
export type LiveSetup = {
  readonly papers: HallPapers;
  readonly state: ClassState;
  readonly keeper: Keeper;
  readonly rate: number;
  readonly isRehearsal: boolean;
  /** What is spoken for a coming move; empty says nothing. */
  readonly nameLine: (figure: FigureView) => string;
};

const TEND_MS = 250;
const BEAT_MS = 2000;
/** The queue is filled up again when less than this is left of it. */
const REFILL_MS = HORIZON_MS - 60_000;
const SOUND_CHECK_GAP_MS = 900;

/** Everything of a live class that changes. */
type Running = {
  state: ClassState;
  cues: readonly Cue[];
  cuedAtMs: number;
  cuedFor: ClassState | null;
  lastLookMs: number;
  lastBeatMonoMs: number;
  gapMs: number | null;
  stoppedAtMs: number | null;
};

/**
 * Runs one class on one page: intents in, marks to the keeper, and sound, voice and screen brought to what state and
 * time want by one reconciling path after every ask, look and wake-up. It holds no DOM and waits for nothing.
 */
export function liveClass(ports: LivePorts, setup: LiveSetup): LiveClass & Resuming {
  const { clocks, timers, pageLife, cueLine, voice, wakeLock, remote } = ports;
  const { papers, keeper, rate } = setup;
  const clock = classClock(clocks, pageLife.isVisible, rate);
  const names = spokenNames(papers.library);
  const run: Running = {
    state: setup.state,
    cues: [],
    cuedAtMs: 0,
    cuedFor: null,
    lastLookMs: setup.state.lastMs,
    lastBeatMonoMs: 0,
    gapMs: null,
    stoppedAtMs: null,
  };
  const view = signal<HallView>(hallViewOf(run.state, papers, run.state.lastMs));
  const facts = signal<LiveFacts>(firstFacts(ports, keeper));
  const keptSeq = signal<number | null>(keeper.keptSeq());
  const refused = signal<Refusal | null>(null);
  const isLive = signal(false);
  let cancelLook: (() => void) | null = null;
  let cancelTend: (() => void) | null = null;
  let hasLeft = false;

  const nowMs = () => (run.state.phase.kind === 'live' ? Math.max(clock.nowMs(), run.lastLookMs) : run.state.lastMs);
  const isMine = () => keeper.fact() !== 'fenced';
  const setFacts = (change: Partial<LiveFacts>) => {
    facts.value = { ...facts.value, ...change };
  };

  const intend = (asked: Asked, atMs: number): void => {
    const seen = { monoMs: clocks.monoMs(), wallMs: clocks.wallMs(), life: keeper.life() };
    const done = step(run.state, { ...asked, atMs: Math.max(atMs, run.lastLookMs), seen });
    if (asked.kind !== 'look') refused.value = done.refused;
    if (done.marks.length === 0) return;
    run.state = done.state;
    if (asked.kind === 'start') clock.set(0);
    write(done.marks);
  };

  const write = (marks: readonly Mark[]): void => {
    if (marks.some((mark) => mark.kind === 'started')) keeper.begin({ startedWallMs: clocks.wallMs() });
    keeper.add(marks);
    const { phase } = run.state;
    if (phase.kind === 'finished' || phase.kind === 'abandoned') keeper.end(phase.kind, clocks.wallMs());
  };

  /** The clock rule, applied to whatever passed since the last reading. */
  const readClocks = (): void => {
    const verdict = clock.read();
    if (run.state.phase.kind !== 'live' || verdict.verdict === 'steady') return;
    if (verdict.verdict === 'wallMoved') {
      setFacts({ wallMoved: true });
      intend({ kind: 'noteWallMoved', byMs: verdict.byMs }, nowMs());
      return;
    }
    const isStanding = run.state.phase.standing !== null;
    if (verdict.verdict === 'slept' || isStanding) sleptFor(verdict.verdict === 'slept' ? verdict.byMs : verdict.gapMs);
    else askAbout(verdict.gapMs);
  };

  const sleptFor = (byMs: number): void => {
    const stoppedAtMs = nowMs();
    clock.gain(byMs * rate);
    noteAway(stoppedAtMs, byMs * rate);
  };

  const noteAway = (stoppedAtMs: number, byMs: number): void => {
    intend({ kind: 'noteAway', byMs }, nowMs());
    if (run.state.phase.kind !== 'live' || run.state.phase.standing !== null) return;
    run.stoppedAtMs = stoppedAtMs;
    setFacts({ away: { offeredUntilMs: nowMs() + OFFER_MS * rate, byMs } });
  };

  const askAbout = (gapMs: number): void => {
    intend({ kind: 'askAboutGap', gapMs }, nowMs());
    run.gapMs = gapMs;
    setFacts({ gapMs });
  };

  /** One look at the class: clocks, end, screen, sound. Every way in ends here. */
  const look = (): void => {
    if (hasLeft) return;
    readClocks();
    intend({ kind: 'look' }, nowMs());
    reconcile();
  };

  const reconcile = (): void => {
    const atMs = nowMs();
    run.lastLookMs = Math.max(run.lastLookMs, atMs);
    view.value = hallViewOf(run.state, papers, atMs);
    isLive.value = run.state.phase.kind === 'live';
    withdrawOffers(atMs);
    wantSound(atMs);
    wakeLock.want(isLive.value && isMine());
    if (!isLive.value) remote.letGo();
    planLook(atMs);
  };

  const withdrawOffers = (atMs: number): void => {
    const { away } = facts.value;
    const isGone = away !== null && (atMs >= away.offeredUntilMs || run.state.lastEditMs > (run.stoppedAtMs ?? 0));
    if (isGone || (away !== null && !isLive.value)) setFacts({ away: null });
    if (facts.value.gapMs !== null && view.value.status !== 'asking') setFacts({ gapMs: null });
  };

  const wantSound = (atMs: number): void => {
    const isStale = run.cuedFor !== run.state || atMs - run.cuedAtMs > HORIZON_MS - REFILL_MS;
    if (!isStale) return;
    run.cues = isMine() ? cuesAhead(run.state, papers.library, atMs) : [];
    run.cuedFor = run.state;
    run.cuedAtMs = atMs;
    cueLine.want(soundsOf(run.cues, run.state, clock));
    if (!runs(run.state, atMs)) voice.hush();
  };

  const planLook = (atMs: number): void => {
    cancelLook?.();
    cancelLook = null;
    const { changesAtMs } = view.value;
    if (changesAtMs === null && !isLive.value) return;
    const dueMs = Math.max(changesAtMs ?? atMs + 1000, atMs + 1);
    cancelLook = timers.after(Math.max(0, clock.monoAt(dueMs) - clocks.monoMs()), look);
  };

  /** A few times a second: the audio clock, the voice, the beat. Nothing here moves the class. */
  const tend = (): void => {
    if (hasLeft) return;
    cancelTend = timers.after(TEND_MS, tend);
    cueLine.tend();
    if (!isLive.value) return;
    const atMs = nowMs();
    if (runs(run.state, atMs) && isMine()) {
      for (const figure of names.due(run.state, run.cues, atMs)) say(figure);
    }
    if (clocks.monoMs() - run.lastBeatMonoMs >= BEAT_MS) beat();
  };

  const say = (figure: FigureView): void => {
    const line = setup.nameLine(figure);
    if (line !== '') voice.say(line);
  };

  const beat = (): void => {
    if (run.state.phase.kind !== 'live') return;
    run.lastBeatMonoMs = clocks.monoMs();
    keeper.beat(nowMs(), clocks.wallMs());
  };

  const onPage = (event: PageEvent): void => {
    if (event === 'hidden' || event === 'frozen' || event === 'leaving') {
      clock.noteUnseen();
      beat();
      return;
    }
    if (event === 'woke') clock.noteUnseen();
    run.cuedFor = null;
    look();
    cueLine.tend();
  };

  const seenSpan = () => positionAt(run.state, nowMs()).span;

  const askPlain = (what: Exclude<HallAsk, 'press' | 'ranOn' | 'goBackToStop'>, atMs: number): void => {
    const seen = { state: run.state, library: papers.library, span: seenSpan() };
    const asked = askedFor(what, seen);
    // What the person saw is what was drawn last, not where the clock is by now.
    const aimed = asked !== null && 'span' in asked ? { ...asked, span: view.value.spanId ?? asked.span } : asked;
    if (aimed === null) refused.value = 'notFound';
    else intend(aimed, atMs);
    if (what === 'start') remote.take(papers.plan.name);
    if (what === 'hurt') voice.hush();
  };

  const ranOn = (): void => {
    if (run.gapMs !== null && run.gapMs > 0) clock.gain(run.gapMs * rate);
    intend({ kind: 'ranOn' }, nowMs());
  };

  const goBackToStop = (): void => {
    const stoppedAtMs = facts.value.away === null ? null : run.stoppedAtMs;
    if (stoppedAtMs === null) refused.value = 'notNow';
    else intend({ kind: 'goBackToStop', stoppedAtMs }, nowMs());
  };

  const pressedOnce = (monoMs: number): void => {
    const { status } = view.value;
    if (status === 'ready') askPlain('start', 0);
    else if (status === 'running') askPlain('pause', clock.classAt(monoMs));
    else if (status !== 'finished' && status !== 'abandoned') askPlain('carryOn', nowMs());
    reconcile();
  };

  const presses = tellPresses(clocks, timers, pressedOnce, () => {
    askPlain('nextMove', nowMs());
    reconcile();
  });

  const ask = (what: HallAsk): void => {
    cueLine.unlock();
    if (!isMine()) return;
    readClocks();
    if (what === 'press') presses.press();
    else {
      presses.forget();
      if (what === 'ranOn') ranOn();
      else if (what === 'goBackToStop') goBackToStop();
      else askPlain(what, nowMs());
    }
    reconcile();
  };

  const ears = [
    pageLife.listen(onPage),
    cueLine.listen((sound) => setFacts({ sound })),
    wakeLock.listen((wake) => {
      if (wake === 'lost') clock.noteUnseen();
      setFacts({ wake });
    }),
    voice.listen((fact) => setFacts({ voice: fact })),
    remote.listen((asked) => ask(asked === 'press' ? 'press' : asked === 'next' ? 'nextMove' : 'goBackOne')),
    keeper.listen(() => {
      setFacts({ keeping: keeper.fact() });
      keptSeq.value = keeper.keptSeq();
      if (!isMine()) run.cuedFor = null;
    }),
  ];
  tend();

  return {
    view: view as ReadonlySignal<HallView>,
    facts,
    keptSeq,
    refused,
    isLive,
    isRehearsal: setup.isRehearsal,
    rate,
    ask,
    soundCheck: () => soundCheck(cueLine, timers),
    takeUp: (stoppedAtMs, verdict) => {
      const standing = run.state.phase.kind === 'live' && run.state.phase.standing !== null;
      const gapMs = Math.max(0, verdict.gapMs);
      clock.set(stoppedAtMs + (verdict.verdict === 'runOn' || standing ? gapMs : 0));
      if (verdict.verdict === 'ask' && !standing) askAbout(verdict.gapMs);
      else noteAway(stoppedAtMs, gapMs);
      look();
    },
    leave: () => {
      hasLeft = true;
      for (const stop of ears) stop();
      cancelLook?.();
      cancelTend?.();
      presses.forget();
      cueLine.want([]);
      voice.hush();
      wakeLock.want(false);
      remote.letGo();
    },
  };
}

/** Goes on with a class from where it stopped, as the clock rule judged the gap. Call once, right after making it. */
export type Resuming = {
  readonly takeUp: (
    stoppedAtMs: number,
    verdict: { readonly verdict: 'runOn' | 'ask'; readonly gapMs: number },
  ) => void;
};

function firstFacts({ cueLine, wakeLock, voice }: LivePorts, keeper: Keeper): LiveFacts {
  const [sound, wake, fact] = [cueLine.fact(), wakeLock.fact(), voice.fact()];
  return { sound, wake, voice: fact, keeping: keeper.fact(), wallMoved: false, away: null, gapMs: null };
}

const CHECKED = ['tick', 'tick', 'tick', 'start', 'halfway', 'otherSide', 'down', 'up', 'headsUp', 'finish'] as const;

function soundCheck(cueLine: CueLine, timers: Timers): void {
  cueLine.unlock();
  for (const [index, kind] of CHECKED.entries())
    timers.after(index * SOUND_CHECK_GAP_MS, () => cueLine.playNow(kind, 'sharp'));
}
