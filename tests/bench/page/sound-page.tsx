import { signal } from '@preact/signals';
import { render } from 'preact';
import { house } from '../../../app/live/house.ts';
import { planShelf } from '../../../app/live/plan-shelf.ts';
import { classParts } from '../../../app/platform/class-parts.ts';
import { firstParts } from '../../../app/platform/first-parts.ts';
import { busOf } from '../../../app/platform/sound/cue-line.ts';
import { FIRST_CHOICES } from '../../../app/screens/hall/hall-choices.ts';
import { HallRoom } from '../../../app/screens/hall/hall-room.tsx';
import type { RoomProps } from '../../../app/screens/hall/room-props.ts';
import type { Route } from '../../../app/screens/router.ts';
import { nameLine } from '../../../app/words/spoken-words.ts';
import { timeOfDayHereText } from '../../../app/words/time-words.ts';
import { libraryOf } from '../../../src/moves/library.ts';
import type { Move } from '../../../src/moves/move.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import type { CueLine, SoundFact, WantedSound } from '../../../src/ports/cue-line.ts';
import type { HallCard } from '../../../src/records/stored-shapes.ts';
import { clipNames } from './clip-names.ts';
import type { NaivePlay } from './naive-page.ts';
import type { TapRecord } from './stamp-worker.ts';
import { logStarts } from './start-log.ts';
import { onsetOffset, openTaps } from './taps.ts';
import '../../../app/styles/tokens.css';
import '../../../app/styles/type.css';
import '../../../app/styles/base.css';

// The app's own class on the app's own hall and sound, with ears on the bus of its cues.

/** A sound handed to the audio clock of one tap. Frames of that tap's context. */
export type Started = {
  readonly tap: number;
  readonly name: string;
  readonly frame: number;
  /** From its start to its onset, by the offline render. */
  readonly onsetFrames: number;
  readonly stoppedFrame: number | null;
};

export type Heard = TapRecord & { readonly sampleRate: number };

/** Everything that was wanted, started and heard. Instants are ms of the page's monotonic clock. */
export type SoundReport = {
  /** As the class last wanted each cue. */
  readonly wanted: readonly WantedSound[];
  readonly started: readonly Started[];
  readonly taps: readonly Heard[];
  readonly naive: readonly Heard[];
  readonly naivePlays: readonly NaivePlay[];
  /** What the class's sound said of itself, and when. */
  readonly facts: readonly (readonly [monoMs: number, fact: SoundFact])[];
  /** When the page's life changed: hidden, frozen, resumed. */
  readonly life: readonly (readonly [monoMs: number, event: string])[];
  /** Ticks of a 100 ms timer of the page, to show how far it was held up. */
  readonly timerTicks: number;
  /** For how long that timer was set. */
  readonly timerSeconds: number;
};

export type SoundBench = {
  readonly enter: (plan: Plan, moves: readonly Move[]) => void;
  /** True when both classes are listened to. */
  readonly isHeard: () => boolean;
  readonly report: () => Promise<SoundReport>;
};

declare global {
  interface Window {
    bench: SoundBench;
  }
}

const startLog = logStarts();
const taps = openTaps(performance.timeOrigin);
const busses: AudioNode[] = [];
const wanted = new Map<string, WantedSound>();
const facts: [number, SoundFact][] = [];
const life: [number, string][] = [];
let timerTicks = 0;
let timerFromMs = 0;

/** The same cue line, watched: what is wanted is noted, and each new bus gets a tap. */
function watched(line: CueLine): CueLine {
  let isNaiveStarted = false;
  const lookForBus = (): void => {
    const bus = busOf(line);
    if (bus === null || busses.includes(bus)) return;
    busses.push(bus);
    taps.tap(bus);
  };
  line.listen((fact) => facts.push([performance.now(), fact]));
  return {
    ...line,
    unlock: () => {
      line.unlock();
      lookForBus();
    },
    want: (sounds) => {
      for (const sound of sounds) wanted.set(sound.key, sound);
      if (sounds.length > 0 && !isNaiveStarted) {
        isNaiveStarted = true;
        naiveWindow().naive.start(sounds);
      }
      line.want(sounds);
      lookForBus();
    },
    tend: () => {
      line.tend();
      lookForBus();
    },
  };
}

function naiveWindow(): Window {
  const frame = document.querySelector('iframe')?.contentWindow;
  if (frame == null) throw new Error('the frame of the naive class is not there');
  return frame;
}

const first = firstParts();
const parts = classParts(first, () => true);
const cueLine = watched(parts.phone.cueLine);
const shelf = planShelf(first.planStore, first.clocks);
const needs = { ...parts, phone: { ...parts.phone, cueLine }, nameLine, onStart: () => undefined };
const classHouse = house(needs, first.store, parts.lock);
const route = signal<Route>({ at: 'start' });
const room: RoomProps = {
  house: classHouse,
  route,
  shelf,
  hallCard: signal<HallCard | null>(null),
  onHallCard: () => undefined,
  clock: { wallMs: first.clocks.wallMs, timeOfDay: timeOfDayHereText },
  monoClock: first.clocks,
  timers: first.timers,
  choices: signal(FIRST_CHOICES),
  onChoices: () => undefined,
};

async function startedSounds(): Promise<readonly Started[]> {
  const cues = startLog.flatMap((each) =>
    each.into !== null && busses.includes(each.into) ? { ...each, into: each.into } : [],
  );
  const buffers = [...new Set(cues.map(({ buffer }) => buffer))];
  const names = await clipNames(buffers);
  const offsets = new Map<AudioBuffer, number>();
  for (const buffer of buffers) offsets.set(buffer, await onsetOffset(buffer));
  return cues.map(({ buffer, into, whenSeconds, stoppedSeconds }) => {
    const { sampleRate } = into.context;
    return {
      tap: busses.indexOf(into),
      name: names.get(buffer) ?? 'unknown',
      frame: Math.round(whenSeconds * sampleRate),
      onsetFrames: offsets.get(buffer) ?? 0,
      stoppedFrame: stoppedSeconds === null ? null : Math.round(stoppedSeconds * sampleRate),
    };
  });
}

function heardBy(records: readonly TapRecord[], sampleRates: readonly number[]): readonly Heard[] {
  return records.map((record, at) => ({ ...record, sampleRate: sampleRates[at] ?? 0 }));
}

window.bench = {
  enter: (plan, moves) => {
    const library = libraryOf(moves);
    shelf.stock({ library, plans: [plan] });
    route.value = { at: 'hall', planId: plan.id };
    classHouse.enter({ plan, library });
    timerFromMs = performance.now();
    setInterval(() => {
      timerTicks += 1;
    }, 100);
  },
  isHeard: () => busses.length > 0 && taps.areOpen() && naiveWindow().naive.isHeard(),
  report: async () => ({
    wanted: [...wanted.values()],
    taps: heardBy(
      await taps.report(),
      busses.map(({ context }) => context.sampleRate),
    ),
    naive: heardBy(await naiveWindow().naive.report(), [naiveWindow().naive.sampleRate()]),
    naivePlays: naiveWindow().naive.plays,
    started: await startedSounds(),
    facts,
    life,
    timerTicks,
    timerSeconds: (performance.now() - timerFromMs) / 1000,
  }),
};

for (const event of ['visibilitychange', 'freeze', 'resume']) {
  document.addEventListener(event, () => life.push([performance.now(), `${event} ${document.visibilityState}`]));
}
const host = document.getElementById('app');
if (host !== null) render(<HallRoom {...room} />, host);
