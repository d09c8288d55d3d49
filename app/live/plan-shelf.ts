import { type ReadonlySignal, signal } from '@preact/signals';
import { readPlanFile } from '../../src/exchange/plan-file.ts';
import type { Move, MoveLibrary } from '../../src/moves/move.ts';
import type { Plan } from '../../src/plan/plan.ts';
import type { StoreReason } from '../../src/ports/class-store.ts';
import type { Clocks } from '../../src/ports/clocks.ts';
import type { KeptPlan, PlanStore } from '../../src/ports/plan-store.ts';

/** A plan with every move it names. */
export type ShelvedPlan = { readonly plan: Plan; readonly library: MoveLibrary };

/** What became of a file's text: a plan on the shelf, or why not; then nothing has changed. */
export type Shelved =
  | { readonly ok: true; readonly plan: Plan }
  | { readonly ok: false; readonly refused: Exclude<ReturnType<typeof readPlanFile>, { ok: true }> }
  | { readonly ok: false; readonly notKept: StoreReason };

/** What comes with the app. */
export type Starter = { readonly library: MoveLibrary; readonly plans: readonly Plan[] };

/** The plans of this phone: the starter's and those that were opened. */
export type PlanShelf = {
  readonly plans: ReadonlySignal<readonly ShelvedPlan[]>;
  readonly unreadable: ReadonlySignal<number>;
  /** True once the store has answered; before that only the starter's plans are there. */
  readonly isRead: ReadonlySignal<boolean>;
  /** Puts the starter's plans on the shelf. */
  readonly stock: (starter: Starter) => void;
  readonly read: () => Promise<void>;
  readonly find: (planId: string) => ShelvedPlan | null;
  readonly openFile: (text: string) => Promise<Shelved>;
};

/** The starter's plans stand behind what was opened. A kept plan whose moves are gone from the library counts as unreadable. */
export function planShelf(store: PlanStore, clocks: Clocks): PlanShelf {
  let library: MoveLibrary = new Map();
  let starterPlans: readonly ShelvedPlan[] = [];
  const plans = signal<readonly ShelvedPlan[]>([]);
  const unreadable = signal(0);
  const isRead = signal(false);

  const read = async (): Promise<void> => {
    const kept = await store.list();
    isRead.value = true;
    if (!kept.ok) return;
    const shelved = latest(kept.value.plans).flatMap((one) => withMoves(one, library) ?? []);
    unreadable.value = kept.value.unreadable + latest(kept.value.plans).length - shelved.length;
    plans.value = [...shelved, ...starterPlans.filter(({ plan }) => !shelved.some((one) => one.plan.id === plan.id))];
  };

  const openFile = async (text: string): Promise<Shelved> => {
    const opened = readPlanFile(text, library);
    if (!opened.ok) return { ok: false, refused: opened };
    const { plan, ownMoves } = opened;
    const put = await store.put({ plan, ownMoves, savedWallMs: clocks.wallMs() });
    if (!put.ok) return { ok: false, notKept: put.reason };
    await read();
    return { ok: true, plan };
  };

  const stock = (starter: Starter): void => {
    library = starter.library;
    starterPlans = starter.plans.filter((plan) => hasMoves(plan, library)).map((plan) => ({ plan, library }));
    plans.value = starterPlans;
  };

  return {
    plans,
    unreadable,
    isRead,
    stock,
    read,
    openFile,
    find: (planId) => plans.value.find(({ plan }) => plan.id === planId) ?? null,
  };
}

/** The text saved last of each plan; the store lists newest first. */
function latest(plans: readonly KeptPlan[]): readonly KeptPlan[] {
  return plans.filter(({ plan }, index) => plans.findIndex((one) => one.plan.id === plan.id) === index);
}

function withMoves({ plan, ownMoves }: KeptPlan, library: MoveLibrary): ShelvedPlan | null {
  const all = new Map<string, Move>([...library, ...ownMoves.map((move): [string, Move] => [move.id, move])]);
  return hasMoves(plan, all) ? { plan, library: all } : null;
}

function hasMoves(plan: Plan, library: MoveLibrary): boolean {
  return plan.blocks.every((block) => block.entries.every((one) => one.kind !== 'move' || library.has(one.moveId)));
}
