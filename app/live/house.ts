import { type ReadonlySignal, signal } from '@preact/signals';
import type { ClassStore, Kept, OpenClass } from '../../src/ports/class-store.ts';
import type { WindowLock } from '../../src/ports/window-lock.ts';
import { canRun } from '../../src/running-order/compile.ts';
import { enterHall, type HallNeeds, type HallVisit, rehearseHall, resumeHall } from './hall-visit.ts';
import type { ShelvedPlan } from './plan-shelf.ts';

/** Whether this window may run classes. `other`: another window of this phone has a class or its hall open. */
export type Seat = 'none' | 'held' | 'other';

/** Who runs what in this window: at most one class, and only while it has the phone's one seat. */
export type House = {
  readonly visit: ReadonlySignal<HallVisit | null>;
  readonly seat: ReadonlySignal<Seat>;
  /** A class was found that cannot be read back; it stays kept, and this says so. */
  readonly isBent: ReadonlySignal<boolean>;
  /** Takes up a class that was found not to have ended, unless another window has it. Settles when that is known. */
  readonly takeUp: (found: OpenClass) => Promise<void>;
  readonly enter: (shelved: ShelvedPlan) => void;
  /** From ready: the same class, faster and not kept. */
  readonly rehearse: () => void;
  /** From the end of a rehearsal, or out of one: ready again. */
  readonly readyAgain: () => void;
  /** Away from the hall. Does nothing while a class is live. */
  readonly leave: () => void;
  /** The person wants the class here, not in the other window. */
  readonly takeFromOther: () => void;
};

export function house(needs: HallNeeds, store: ClassStore, lock: WindowLock): House {
  const visit = signal<HallVisit | null>(null);
  const seat = signal<Seat>('none');
  const isBent = signal(false);
  let letGo: () => void = () => undefined;
  let wanted: ShelvedPlan | null = null;

  const put = (next: HallVisit | null): void => {
    visit.value?.live.leave();
    visit.value = next;
  };

  const giveUpSeat = (): void => {
    letGo();
    letGo = () => undefined;
    seat.value = 'none';
  };

  /**
   * Taken over before it is read: the window that had it can then store no mark that this one does not know of. A class
   * that was `found` just now need not be looked for first.
   */
  const readOpen = async (
    found: OpenClass | null,
  ): Promise<{ readonly open: OpenClass; readonly life: number | null } | null> => {
    const first: Kept<OpenClass | null> = found === null ? await store.openClass() : { ok: true, value: found };
    if (!first.ok || first.value === null) return null;
    const life = await store.takeOver();
    const open = life.ok ? await store.openClass() : first;
    return open.ok && open.value !== null ? { open: open.value, life: life.ok ? life.value : null } : null;
  };

  const resume = async (found: OpenClass | null): Promise<boolean> => {
    const read = visit.value === null ? await readOpen(found) : null;
    if (read === null || visit.value !== null) return visit.value !== null;
    const resumed = resumeHall(needs, read.open, read.life);
    isBent.value = resumed === null;
    if (resumed !== null) put(resumed);
    return resumed !== null;
  };

  /** With the seat: the open class if there is one, else what was wanted, else the seat is free again. */
  const sitDown = async (found: OpenClass | null): Promise<void> => {
    seat.value = 'held';
    if (await resume(found)) return;
    if (wanted !== null && canRun(wanted.plan)) put(enterHall(needs, wanted.plan, wanted.library));
    else giveUpSeat();
  };

  const hold = (found: OpenClass | null): Promise<void> =>
    new Promise((settle) => {
      let known = found;
      letGo = lock.hold(
        () => void sitDown(known).then(settle, settle),
        () => {
          // By the time the seat is free the class will have gone on.
          known = null;
          seat.value = 'other';
          settle();
        },
      );
    });

  lock.onLost(() => {
    put(null);
    seat.value = 'other';
  });

  return {
    visit,
    seat,
    isBent,
    takeUp: hold,
    enter: (shelved) => {
      if (visit.value?.live.isLive.value === true || wanted?.plan === shelved.plan) return;
      wanted = shelved;
      if (seat.value === 'held') put(enterHall(needs, shelved.plan, shelved.library));
      else void hold(null);
    },
    rehearse: () => {
      const { value } = visit;
      if (value === null || value.live.isLive.value) return;
      put(rehearseHall(needs, value.plan, value.library));
      visit.value?.live.ask('start');
    },
    readyAgain: () => {
      const { value } = visit;
      if (value === null || (value.live.isLive.value && !value.live.isRehearsal)) return;
      put(enterHall(needs, value.plan, value.library));
    },
    leave: () => {
      wanted = null;
      const { value } = visit;
      if (value?.live.isLive.value === true && !value.live.isRehearsal) return;
      put(null);
      if (seat.value !== 'none') giveUpSeat();
    },
    takeFromOther: () => {
      put(null);
      letGo();
      letGo = lock.takeFromOther(() => void sitDown(null));
    },
  };
}
