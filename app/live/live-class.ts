import { signal } from '@preact/signals';
import type { ClassState } from '../../src/class-run/class-state.ts';
import type { GapVerdict } from '../../src/class-run/clock-rule.ts';
import type { FigureView } from '../../src/class-run/hall-values.ts';
import { type HallPapers, hallViewOf } from '../../src/class-run/hall-view.ts';
import type { Refusal } from '../../src/class-run/marks.ts';
import { positionAt } from '../../src/class-run/position.ts';
import type { CueLine } from '../../src/ports/cue-line.ts';
import type { PageEvent, PageLife } from '../../src/ports/page-life.ts';
import type { Remote, RemoteAsk } from '../../src/ports/remote.ts';
import type { Voice } from '../../src/ports/voice.ts';
import type { WakeLock } from '../../src/ports/wake-lock.ts';
import { askedFor, type PlainAsk } from './asks.ts';
import { classClock } from './class-clock.ts';
import { classDesk } from './class-desk.ts';
import { gapWatch } from './gap-watch.ts';
import type { HallAsk, Keeper, LiveClass, LiveFacts } from './live-contract.ts';
import { type LookLoopPorts, lookLoop } from './look-loop.ts';
import { tellPresses } from './press.ts';
import { seenSpans } from './seen-span.ts';
import { playSoundCheck, soundDesk } from './sound-desk.ts';

/** The phone, as far as a class needs it. */
export type LivePorts = LookLoopPorts & {
  readonly pageLife: PageLife;
  readonly cueLine: CueLine;
  readonly voice: Voice;
  readonly wakeLock: WakeLock;
  readonly remote: Remote;
};

/** A class to run: its papers, where it is, and who keeps it. */
export type LiveSetup = {
  readonly papers: HallPapers;
  readonly state: ClassState;
  readonly keeper: Keeper;
  readonly rate: number;
  readonly isRehearsal: boolean;
  /** What is spoken for a coming move; empty says nothing. */
  readonly nameLine: (figure: FigureView) => string;
  /** Called inside the press that starts the class. */
  readonly onStart: () => void;
};

/** A live class that can be put where it was before a reload: once, right after it is made. */
export type ResumableClass = LiveClass & { readonly takeUp: (stoppedAtMs: number, judged: GapVerdict) => void };

const BEAT_MS = 2000;
/** A class that is taken up is drawn first: sound, voice and wake lock would hold the picture back. */
const PICTURE_FIRST_MS = 200;
const REMOTE_ASKS: Readonly<Record<RemoteAsk, HallAsk>> = { press: 'press', next: 'nextMove', back: 'goBackOne' };

/**
 * Runs one class on one page: asks in, marks to the keeper, and sound, voice and screen brought to what state and time
 * want by one reconciling path after every ask, look and wake-up. It holds no DOM and waits for nothing.
 */
export function liveClass(ports: LivePorts, setup: LiveSetup): ResumableClass {
  const { clocks, timers, pageLife, cueLine, voice, wakeLock, remote } = ports;
  const { papers, keeper, rate } = setup;
  const clock = classClock(clocks, pageLife.isVisible, rate);
  const desk = classDesk(setup.state, clock, clocks, keeper);
  const sound = soundDesk(ports, papers.library, clock, setup.nameLine);

  const view = signal(hallViewOf(setup.state, papers, setup.state.lastMs));
  const facts = signal(firstFacts(ports, keeper));
  const keptSeq = signal(keeper.keptSeq());
  const refused = signal<Refusal | null>(null);
  const isLive = signal(desk.isLive());
  const setFacts = (change: Partial<LiveFacts>): void => {
    facts.value = { ...facts.value, ...change };
  };
  const spans = seenSpans(clocks);
  const gaps = gapWatch(desk, clock, rate, setFacts);
  let beatMonoMs = 0;

  let hasLeft = false;

  /** False once another window has the class, or this page has left it: then nothing here asks, sounds or shows. */
  const isMine = (): boolean => !hasLeft && keeper.fact() !== 'fenced';

  /** One look at the class: clocks, end, screen, sound. Every way in ends here. */
  const look = (): void => {
    if (hasLeft) return;
    catchUp();
    reconcile(false);
  };

  const catchUp = (): void => {
    gaps.read();
    desk.intend({ kind: 'look' }, desk.nowMs());
  };

  const show = (atMs: number, byAsk: boolean): void => {
    desk.noteLook(atMs);
    view.value = hallViewOf(desk.state(), papers, atMs);
    spans.show(view.value.spanId, byAsk);
    gaps.withdraw(atMs);
  };

  const reconcile = (byAsk: boolean): void => {
    const atMs = desk.nowMs();
    show(atMs, byAsk);
    sound.reconcile(desk.state(), atMs, isMine());
    wakeLock.want(desk.isLive() && isMine());
    if (isLive.value && !desk.isLive()) {
      remote.letGo();
      cueLine.rest();
    }
    isLive.value = desk.isLive();
    const { changesAtMs } = view.value;
    loop.planLook(desk.isLive() ? Math.max(changesAtMs ?? atMs + 1000, atMs + 1) : null);
  };

  /** A few times a second: the audio clock, the voice, the beat. Nothing here moves the class. */
  const tend = (): void => {
    cueLine.tend();
    if (!desk.isLive() || !isMine()) return;
    sound.speak(desk.state(), desk.nowMs());
    if (clocks.monoMs() - beatMonoMs >= BEAT_MS) beat();
  };

  const beat = (): void => {
    if (!desk.isLive()) return;
    beatMonoMs = clocks.monoMs();
    keeper.beat(desk.nowMs(), clocks.wallMs());
  };

  const loop = lookLoop(ports, clock, { look, tend });

  const onPage = (event: PageEvent): void => {
    if (event === 'hidden' || event === 'frozen' || event === 'leaving') {
      clock.noteUnseen();
      loop.setHidden(true);
      beat();
      return;
    }
    if (pageLife.isVisible()) loop.setHidden(false);
    sound.forget();
    keeper.hasten();
    look();
    cueLine.tend();
  };

  const askPlain = (what: PlainAsk, atMs: number): void => {
    const { span } = positionAt(desk.state(), desk.nowMs());
    const asked = askedFor(what, { state: desk.state(), library: papers.library, span });
    const seen = spans.seenBy(what);
    const aimed = asked !== null && 'span' in asked && seen !== null ? { ...asked, span: seen } : asked;
    refused.value = aimed === null ? 'notFound' : desk.intend(aimed, atMs);
    if (what === 'hurt') sound.hush();
    if (what !== 'start') return;
    remote.take(papers.plan.name);
    setup.onStart();
  };

  const pressedOnce = (monoMs: number): void => {
    const { status } = view.value;
    if (status === 'ready') askPlain('start', 0);
    else if (status === 'running') askPlain('pause', clock.classAt(monoMs));
    else if (desk.isLive()) askPlain('carryOn', desk.nowMs());
    reconcile(true);
  };

  const pressedTwice = (): void => {
    askPlain('nextMove', desk.nowMs());
    reconcile(true);
  };

  const presses = tellPresses(clocks, timers, pressedOnce, pressedTwice);

  const ask = (what: HallAsk): void => {
    if (!isMine()) return;
    cueLine.unlock();
    gaps.read();
    if (what === 'press') presses.press();
    else {
      presses.forget();
      if (what === 'ranOn') refused.value = gaps.ranOn();
      else if (what === 'goBackToStop') refused.value = gaps.goBackToStop();
      else askPlain(what, desk.nowMs());
    }
    reconcile(true);
  };

  const ears = [
    pageLife.listen(onPage),
    cueLine.listen((fact) => setFacts({ sound: fact })),
    voice.listen((fact) => setFacts({ voice: fact })),
    remote.listen((asked) => {
      // While someone is hurt a key in a pocket must not start the class again.
      if (view.value.standing?.cause !== 'hurt') ask(REMOTE_ASKS[asked]);
    }),
    wakeLock.listen((wake) => {
      if (wake === 'lost') clock.noteUnseen();
      setFacts({ wake });
    }),
    keeper.listen(() => {
      setFacts({ keeping: keeper.fact() });
      keptSeq.value = keeper.keptSeq();
      if (!isMine()) sound.forget();
    }),
  ];

  return {
    view,
    facts,
    keptSeq,
    refused,
    isLive,
    isRehearsal: setup.isRehearsal,
    rate,
    ask,
    touch: () => {
      if (desk.isLive() && isMine() && cueLine.fact() !== 'ok') cueLine.unlock();
    },
    soundCheck: () => playSoundCheck(cueLine, timers),
    takeUp: (stoppedAtMs, judged) => {
      gaps.takeUp(stoppedAtMs, judged);
      catchUp();
      show(desk.nowMs(), false);
      isLive.value = desk.isLive();
      loop.planLook(desk.nowMs() + PICTURE_FIRST_MS);
    },
    leave: () => {
      // What is queued would still sound, here and where the class runs now.
      if (desk.isLive()) sound.hush();
      hasLeft = true;
      for (const stop of ears) stop();
      loop.stop();
      presses.forget();
      cueLine.rest();
      voice.hush();
      wakeLock.want(false);
      remote.letGo();
    },
  };
}

function firstFacts({ cueLine, wakeLock, voice }: LivePorts, keeper: Keeper): LiveFacts {
  return {
    sound: cueLine.fact(),
    wake: wakeLock.fact(),
    voice: voice.fact(),
    keeping: keeper.fact(),
    wallMoved: false,
    away: null,
    gapMs: null,
  };
}
