import { type Signal, signal } from '@preact/signals';
import { render } from '@testing-library/preact';
import type { HallAsk, LiveClass, LiveFacts } from '../../../../app/live/live-contract.ts';
import { Hall, type HallProps } from '../../../../app/screens/hall/hall.tsx';
import { FIRST_CHOICES } from '../../../../app/screens/hall/hall-choices.ts';
import type { FigureView } from '../../../../src/class-run/hall-values.ts';
import type { HallView } from '../../../../src/class-run/hall-view.ts';
import type { Refusal } from '../../../../src/class-run/marks.ts';
import type { Move, MoveLibrary } from '../../../../src/moves/move.ts';
import type { Plan } from '../../../../src/plan/plan.ts';
import { type FakeClocks, fakeClocks } from '../../../fakes/fake-clocks.ts';

/** A squat in its first third, round 2 of 3. */
export const squat: FigureView = {
  moveId: 'squat',
  entryId: 'e1',
  name: 'Squat',
  hallName: 'Squat',
  figure: 'squat',
  position: 'standing',
  side: 'both',
  half: null,
  kit: [],
};

export const halfSquat: FigureView = { ...squat, name: 'Half squat', hallName: 'Half squat', figure: 'halfSquat' };

export const pressUp: FigureView = {
  ...squat,
  moveId: 'press-up',
  name: 'Press-up',
  hallName: 'Press-up',
  figure: 'pressUpLow',
  position: 'lyingFront',
  kit: [{ kit: 'mat', count: 1 }],
};

export const bandRow: FigureView = {
  ...squat,
  moveId: 'band-row',
  name: 'Row with a band',
  hallName: 'Band row',
  figure: 'bandRow',
  kit: [
    { kit: 'band', count: 1 },
    { kit: 'handWeight', count: 2 },
  ],
};

export const running: HallView = {
  atMs: 600_000,
  status: 'running',
  standing: null,
  kind: 'work',
  spanId: 7,
  moveIds: ['squat'],
  side: 'both',
  leftSeconds: 24,
  digits: '24',
  hollow: false,
  field: 'light',
  floor: { leftMs: 23_600, wholeMs: 30_000, runs: true },
  main: squat,
  lower: halfSquat,
  level: 0,
  next: null,
  words: null,
  gate: false,
  forSome: null,
  round: 2,
  rounds: 3,
  line: 'Knees point the same way as your toes.',
  milestone: null,
  finishAtMs: 1_680_000,
  lateMs: 0,
  changesAtMs: 600_600,
};

const still = { leftMs: 17_600, wholeMs: 30_000, runs: false };

export const paused: HallView = {
  ...running,
  status: 'paused',
  standing: { sinceMs: 590_000, cause: 'asked' },
  hollow: true,
  digits: '18',
  leftSeconds: 18,
  floor: still,
};

export const hurt: HallView = { ...paused, standing: { sinceMs: 478_000, cause: 'hurt' } };

export const asking: HallView = { ...paused, status: 'asking', standing: { sinceMs: 590_000, cause: 'gap' } };

export const atTheGate: HallView = {
  ...running,
  status: 'waiting',
  kind: 'wait',
  gate: true,
  digits: '',
  leftSeconds: null,
  floor: { leftMs: 20_000, wholeMs: 20_000, runs: false },
  main: bandRow,
  lower: null,
  words: { kind: 'wait', text: 'Hook the bands' },
  line: '',
};

/** Before the start; 28 minutes of plan. */
export const ready: HallView = {
  ...running,
  atMs: 0,
  status: 'ready',
  kind: null,
  spanId: null,
  moveIds: [],
  side: null,
  leftSeconds: null,
  digits: '',
  main: null,
  lower: null,
  round: 0,
  rounds: 0,
  line: '',
  changesAtMs: null,
};

export const over: HallView = { ...ready, status: 'finished', atMs: 1_820_000, finishAtMs: 1_820_000, lateMs: 140_000 };

const allWell: LiveFacts = {
  sound: 'ok',
  wake: 'asked',
  voice: 'ok',
  keeping: 'keeping',
  wallMoved: false,
  away: null,
  gapMs: null,
};

/** A class whose values a test sets, and that writes down what it was asked. */
export type LiveDouble = LiveClass & {
  readonly view: Signal<HallView>;
  readonly facts: Signal<LiveFacts>;
  readonly keptSeq: Signal<number | null>;
  readonly refused: Signal<Refusal | null>;
  readonly asked: HallAsk[];
  readonly soundChecks: () => number;
};

export function liveDouble(view: HallView, facts: Partial<LiveFacts> = {}): LiveDouble {
  const asked: HallAsk[] = [];
  let soundChecks = 0;
  return {
    view: signal(view),
    facts: signal({ ...allWell, ...facts }),
    keptSeq: signal<number | null>(null),
    refused: signal<Refusal | null>(null),
    isLive: signal(true),
    isRehearsal: false,
    rate: 1,
    asked,
    ask: (what) => asked.push(what),
    soundCheck: () => {
      soundChecks += 1;
    },
    soundChecks: () => soundChecks,
    touch: () => undefined,
    leave: () => undefined,
  };
}

const squatMove: Move = {
  id: 'squat',
  name: 'Squat',
  hallName: 'Squat',
  part: 'circuit',
  pattern: 'squat',
  regions: ['legs'],
  position: 'standing',
  impact: 'none',
  effort: 'moderate',
  sides: 'both',
  kit: { mat: 1, handWeight: 2 },
  options: [],
  formPoints: [],
  takeCareIf: [],
  figure: 'squat',
};

const library: MoveLibrary = new Map([['squat', squatMove]]);

const plan: Plan = {
  id: 'p1',
  rev: 'r1',
  parentRev: null,
  name: 'Thursday class',
  about: '',
  countInSeconds: 10,
  blocks: [
    {
      id: 'b1',
      part: 'circuit',
      name: '',
      format: { kind: 'allTogether' },
      rounds: 3,
      cueStyle: 'sharp',
      leadInSeconds: 0,
      breatherSeconds: 0,
      closingRestSeconds: 0,
      entries: [
        {
          kind: 'move',
          id: 'e1',
          moveId: 'squat',
          dose: { kind: 'seconds', seconds: 30 },
          byRound: [],
          forSome: null,
          sides: null,
          swapSeconds: 0,
          changeoverSeconds: 5,
          locked: false,
          dropIfLate: null,
        },
      ],
    },
  ],
};

const timeOfDay = (wallMs: number): string => new Date(wallMs).toISOString().slice(11, 16);

/** The hall on screen, with clocks that stand at 18:00. */
export function renderHall(
  view: HallView,
  more: Partial<HallProps> & { readonly facts?: Partial<LiveFacts> } = {},
): { readonly live: LiveDouble; readonly time: FakeClocks; readonly hall: () => HTMLElement } {
  const { facts, ...props } = more;
  const live = liveDouble(view, facts);
  const time = fakeClocks();
  const { container } = render(
    <Hall
      live={live}
      plan={plan}
      library={library}
      clock={{ wallMs: time.clocks.wallMs, timeOfDay }}
      monoClock={time.clocks}
      timers={time.timers}
      card={null}
      onCard={() => undefined}
      choices={FIRST_CHOICES}
      onChoices={() => undefined}
      onRehearse={() => undefined}
      onReadyAgain={() => undefined}
      recordId="rec1"
      onRunHere={null}
      {...props}
    />,
  );
  return { live, time, hall: () => container.querySelector('[data-hall]') as HTMLElement };
}
