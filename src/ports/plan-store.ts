import type { Move } from '../moves/move.ts';
import type { Plan } from '../plan/plan.ts';
import type { Kept } from './class-store.ts';

/** A plan as it is kept: with the moves it brings that the library does not have. */
export type KeptPlan = { readonly plan: Plan; readonly ownMoves: readonly Move[]; readonly savedWallMs: number };

/** Keeps plans that were opened or written. Every promise settles; none rejects. */
export type PlanStore = {
  /** All kept plans, newest saved first; unreadable ones are left out and counted. */
  readonly list: () => Promise<Kept<{ readonly plans: readonly KeptPlan[]; readonly unreadable: number }>>;
  readonly get: (planId: string) => Promise<Kept<KeptPlan | null>>;
  /** A plan with the same id and rev changes nothing; another rev of the same id is kept beside, and `get` gives the one saved last. */
  readonly put: (kept: KeptPlan) => Promise<Kept<null>>;
};
