import type { FakeClocks } from './fake-clocks.ts';

/** A sound that came out of the loudspeaker. */
export type HeardSound = {
  /** What was in the decoded bytes, or `made` for a buffer that the page filled itself. */
  readonly label: string;
  /** Instant of the page's monotonic clock at which it began. */
  readonly atMonoMs: number;
  /** Ms of it that sounded so far. */
  readonly lastedMs: number;
};

export type FakeAudioOptions = {
  readonly sampleRate?: number;
  /** The audio clock is shown in steps of so many frames: 2048 at 48 kHz are 42.7 ms. */
  readonly stepFrames?: number;
  /** How much faster the sound card's crystal runs than the page's clock. */
  readonly skewPpm?: number;
  /** Whether a context may only run after a touch, as in every browser. */
  readonly needsTouch?: boolean;
  /** Ms from `resume` to a running clock. */
  readonly startMs?: number;
};

/** What a stuck audio clock needs to run again. */
export type Cure = 'time' | 'resume' | 'suspendAndResume' | 'newContext';

type Stretch = { readonly monoMs: number; readonly seconds: number; readonly rate: number };

/** One phone's sound, driven by the fake clocks and spoilt by hand. */
export type FakeAudio = {
  /** As `new AudioContext()`. */
  readonly makeContext: () => AudioContext;
  readonly contexts: readonly FakeContext[];
  /** Runs `press` as inside a touch: only there may a context begin to run. */
  readonly touch: (press: () => void) => void;
  /** The system takes the sound, as for a call. While it lasts every resume rejects. */
  readonly interrupt: () => void;
  readonly endInterruption: () => void;
  /** The clock of the present context stands while it says `running`, until it gets its cure. */
  readonly stall: (cure: Cure) => void;
  /** Ends a stall whose cure is time. */
  readonly unstall: () => void;
  /** The page is frozen: no audio clock moves, all say `running` still. */
  readonly freeze: () => void;
  readonly thaw: () => void;
  /** The device is gone: contexts are suspended, and a resume brings a clock that stands. */
  readonly loseDevice: () => void;
  readonly answerResume: (how: 'settles' | 'rejects' | 'never') => void;
  /** From now on `new AudioContext()` throws. */
  readonly refuseContexts: (refuse: boolean) => void;
  /** What was heard so far through any context, by instant; beds (oscillators) left out. */
  readonly heard: () => readonly HeardSound[];
  readonly resumeCalls: () => number;
  /** Sources handed to the audio clock so far. */
  readonly starts: () => number;
};

type Graph = { readonly outputs: Set<FakeNode> };

export class FakeNode implements Graph {
  readonly outputs = new Set<FakeNode>();
  readonly gain = { value: 1 };
  readonly frequency = { value: 440 };
  curve: Float32Array | null = null;
  connect(to: FakeNode): FakeNode {
    this.outputs.add(to);
    return to;
  }
  disconnect(): void {
    this.outputs.clear();
  }
  start(): void {}
  reaches(end: FakeNode): boolean {
    return this === end || [...this.outputs].some((next) => next.reaches(end));
  }
}

type FakeBuffer = { readonly label: string; readonly duration: number; readonly copyToChannel: () => void };

class FakeSource extends FakeNode {
  buffer: FakeBuffer | null = null;
  onended: (() => void) | null = null;
  beginSeconds: number | null = null;
  endSeconds: number | null = null;
  /** Whether it led to the loudspeaker when it was handed over. */
  isWired = false;
  private readonly context: FakeContext;
  constructor(context: FakeContext) {
    super();
    this.context = context;
  }
  override start(whenSeconds = 0): void {
    if (this.beginSeconds !== null) throw new Error('InvalidStateError: started twice');
    this.beginSeconds = Math.max(whenSeconds, this.context.seconds());
    this.endSeconds = this.beginSeconds + (this.buffer?.duration ?? 0);
    this.isWired = this.reaches(this.context.destination);
    this.context.started.push(this);
    this.awaitEnd();
  }
  stop(): void {
    if (this.beginSeconds === null) throw new Error('InvalidStateError: not started');
    this.endSeconds = Math.min(this.endSeconds ?? 0, this.context.seconds());
  }
  /** Ended, disconnected or muted on the way: heard only as far as it got. */
  override disconnect(): void {
    if (this.endSeconds !== null) this.endSeconds = Math.min(this.endSeconds, this.context.seconds());
    super.disconnect();
  }
  private awaitEnd(): void {
    const leftMs = ((this.endSeconds ?? 0) - this.context.seconds()) * 1000;
    this.context.clocks.timers.after(Math.max(50, leftMs + 1), () => {
      if (this.context.seconds() < (this.endSeconds ?? 0)) this.awaitEnd();
      else this.onended?.();
    });
  }
}

/** As much of an AudioContext as the app uses, with a clock that goes by the fake monotonic one. */
export class FakeContext {
  state: AudioContextState;
  readonly sampleRate: number;
  readonly destination = new FakeNode();
  readonly started: FakeSource[] = [];
  readonly clocks: FakeClocks;
  private readonly stepSeconds: number;
  private readonly hearers = new Set<() => void>();
  private readonly stretches: Stretch[];
  constructor(clocks: FakeClocks, state: AudioContextState, sampleRate: number, stepFrames: number) {
    this.clocks = clocks;
    this.state = state;
    this.sampleRate = sampleRate;
    this.stepSeconds = stepFrames / sampleRate;
    this.stretches = [{ monoMs: clocks.clocks.monoMs(), seconds: 0, rate: 0 }];
  }

  /** The true position of the audio clock, which no page can read. */
  seconds(): number {
    const last = this.lastStretch();
    return last.seconds + ((this.clocks.clocks.monoMs() - last.monoMs) / 1000) * last.rate;
  }
  get currentTime(): number {
    return Math.floor(this.seconds() / this.stepSeconds + 1e-9) * this.stepSeconds;
  }
  runAt(rate: number): void {
    this.stretches.push({ monoMs: this.clocks.clocks.monoMs(), seconds: this.seconds(), rate });
  }
  isMoving(): boolean {
    return this.lastStretch().rate > 0;
  }
  /** Page instant at which the audio clock passed `seconds`, or null when it has not. */
  monoMsAt(seconds: number): number | null {
    if (seconds > this.seconds()) return null;
    const at = this.stretches.findLastIndex((stretch) => stretch.seconds <= seconds && stretch.rate > 0);
    const stretch = this.stretches[at];
    return stretch === undefined ? null : stretch.monoMs + ((seconds - stretch.seconds) / stretch.rate) * 1000;
  }
  become(state: AudioContextState): void {
    if (this.state === state) return;
    this.state = state;
    for (const hear of [...this.hearers]) hear();
  }
  private lastStretch(): Stretch {
    const last = this.stretches[this.stretches.length - 1];
    if (last === undefined) throw new Error('a context has a first stretch');
    return last;
  }

  addEventListener(type: string, hear: () => void): void {
    if (type === 'statechange') this.hearers.add(hear);
  }
  createGain(): FakeNode {
    return new FakeNode();
  }
  createWaveShaper(): FakeNode {
    return new FakeNode();
  }
  createOscillator(): FakeNode {
    return new FakeNode();
  }
  createBufferSource(): FakeSource {
    if (this.state === 'closed') throw new Error('InvalidStateError: closed');
    return new FakeSource(this);
  }
  createBuffer(_channels: number, length: number, sampleRate: number): FakeBuffer {
    return { label: 'made', duration: length / sampleRate, copyToChannel: () => {} };
  }
  async decodeAudioData(bytes: ArrayBuffer): Promise<FakeBuffer> {
    if (this.state === 'closed') throw new Error('InvalidStateError: closed');
    const label = new TextDecoder().decode(bytes);
    if (label.startsWith('bad')) throw new Error('EncodingError');
    return { label, duration: 0.3, copyToChannel: () => {} };
  }
  resume: () => Promise<void> = async () => {};
  suspend: () => Promise<void> = async () => {};
  close: () => Promise<void> = async () => {};
}

export function fakeAudio(clocks: FakeClocks, options: FakeAudioOptions = {}): FakeAudio {
  const { sampleRate = 48_000, stepFrames = 2048, skewPpm = 0, needsTouch = true, startMs = 20 } = options;
  const runningRate = 1 + skewPpm * 1e-6;
  const contexts: FakeContext[] = [];
  let isTouched = false;
  let isAllowed = !needsTouch;
  let answer: 'settles' | 'rejects' | 'never' = 'settles';
  let isRefusing = false;
  let isFrozen = false;
  let cure: Cure | null = null;
  let wasSuspendedByPage = false;
  let resumeCalls = 0;

  const mayMove = () => cure === null && !isFrozen;
  const startMoving = (context: FakeContext) => {
    if (context.state === 'running' && mayMove() && !context.isMoving()) context.runAt(runningRate);
  };
  const newest = () => contexts[contexts.length - 1];
  const never = () => new Promise<void>(() => {});

  const resumed = (context: FakeContext) => {
    if (context.state === 'closed' || context.state === 'interrupted') return;
    context.become('running');
    startMoving(context);
  };

  const resume = (context: FakeContext) => async () => {
    resumeCalls += 1;
    if (answer === 'rejects' || context.state === 'interrupted' || context.state === 'closed') {
      throw new Error('InvalidStateError: cannot resume');
    }
    isAllowed ||= isTouched;
    if (answer === 'never' || !isAllowed) return never();
    if (cure === 'resume' || (cure === 'suspendAndResume' && wasSuspendedByPage)) cure = null;
    return new Promise<void>((settle) => {
      clocks.timers.after(startMs, () => {
        resumed(context);
        settle();
      });
    });
  };

  const suspend = (context: FakeContext) => async () => {
    if (context.state === 'closed') throw new Error('InvalidStateError: closed');
    wasSuspendedByPage = true;
    context.runAt(0);
    context.become('suspended');
  };

  const close = (context: FakeContext) => async () => {
    if (context.state === 'closed') throw new Error('InvalidStateError: closed already');
    context.runAt(0);
    context.become('closed');
  };

  const makeContext = (): AudioContext => {
    if (isRefusing) throw new Error('NotSupportedError: no sound here');
    if (cure === 'newContext') cure = null;
    const context = new FakeContext(clocks, isAllowed ? 'running' : 'suspended', sampleRate, stepFrames);
    context.resume = resume(context);
    context.suspend = suspend(context);
    context.close = close(context);
    contexts.push(context);
    startMoving(context);
    return context as unknown as AudioContext;
  };

  const soundsOf = (context: FakeContext): readonly HeardSound[] =>
    context.started.flatMap((source) => {
      const begin = source.beginSeconds ?? 0;
      const end = Math.min(source.endSeconds ?? 0, context.seconds());
      const atMonoMs = context.monoMsAt(begin);
      if (atMonoMs === null || end <= begin || source.buffer === null || !source.isWired) return [];
      // A sample or two of nothing, as for unlocking, is not a sound.
      if (source.buffer.duration < 0.001) return [];
      return [{ label: source.buffer.label, atMonoMs, lastedMs: (end - begin) * 1000 }];
    });

  return {
    makeContext,
    contexts,
    touch: (press) => {
      isTouched = true;
      press();
      isTouched = false;
    },
    interrupt: () => {
      newest()?.runAt(0);
      newest()?.become('interrupted');
    },
    endInterruption: () => newest()?.become('suspended'),
    stall: (by) => {
      cure = by;
      wasSuspendedByPage = false;
      newest()?.runAt(0);
    },
    unstall: () => {
      cure = null;
      for (const context of contexts) startMoving(context);
    },
    freeze: () => {
      isFrozen = true;
      for (const context of contexts) context.runAt(0);
    },
    thaw: () => {
      isFrozen = false;
      for (const context of contexts) startMoving(context);
    },
    loseDevice: () => {
      cure = 'suspendAndResume';
      wasSuspendedByPage = false;
      newest()?.runAt(0);
      newest()?.become('suspended');
    },
    answerResume: (how) => {
      answer = how;
    },
    refuseContexts: (refuse) => {
      isRefusing = refuse;
    },
    heard: () => contexts.flatMap(soundsOf).sort((a, b) => a.atMonoMs - b.atMonoMs),
    resumeCalls: () => resumeCalls,
    starts: () => contexts.reduce((sum, context) => sum + context.started.length, 0),
  };
}
