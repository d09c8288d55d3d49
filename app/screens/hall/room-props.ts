import type { ReadonlySignal } from '@preact/signals';
import type { Clocks, Timers } from '../../../src/ports/clocks.ts';
import type { HallCard } from '../../../src/records/stored-shapes.ts';
import type { House } from '../../live/house.ts';
import type { PlanShelf } from '../../live/plan-shelf.ts';
import type { Route } from '../router.ts';
import type { HallChoices } from './hall-choices.ts';
import type { HallClock } from './instructor-strip.tsx';

/** What the hall stands on. */
export type RoomProps = {
  readonly house: House;
  readonly route: ReadonlySignal<Route>;
  readonly shelf: PlanShelf;
  readonly hallCard: ReadonlySignal<HallCard | null>;
  readonly onHallCard: (card: HallCard) => void;
  readonly clock: HallClock;
  readonly monoClock: Pick<Clocks, 'monoMs'>;
  readonly timers: Timers;
  readonly choices: ReadonlySignal<HallChoices>;
  readonly onChoices: (choices: HallChoices) => void;
};
