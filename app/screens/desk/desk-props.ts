import type { ClassStore } from '../../../src/ports/class-store.ts';
import type { PlanShelf } from '../../live/plan-shelf.ts';
import type { Route } from '../router.ts';

/** What the screens of plans and records stand on. */
export type DeskProps = {
  readonly route: Route;
  readonly shelf: PlanShelf;
  readonly store: Pick<ClassStore, 'listRecords' | 'readClass'>;
};
