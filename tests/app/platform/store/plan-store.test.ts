import { idbPlanStore } from '../../../../app/platform/store/idb-plan-store.ts';
import { storeTransactions } from '../../../../app/platform/store/store-transactions.ts';
import { planStoreContract } from '../../../contracts/plan-store.ts';
import { fakeClocks } from '../../../fakes/fake-clocks.ts';
import { fakeDatabase } from '../../../fakes/fake-database.ts';
import { memoryLog } from '../../../fakes/memory-log.ts';
import { memoryPlanStore } from '../../../fakes/memory-plan-store.ts';

planStoreContract('the browser database', async () => {
  const database = fakeDatabase();
  const open = () => idbPlanStore(storeTransactions({ timers: fakeClocks().timers, log: memoryLog() }));
  return {
    store: open(),
    again: open,
    spoil: (planId, rev, change) => database.spoil('plans', [planId, rev], change),
  };
});

planStoreContract('the double in memory', async () => {
  const store = memoryPlanStore();
  return {
    store,
    again: () => memoryPlanStore(store.disk),
    spoil: async (planId, rev, change) => {
      const key = `${planId} ${rev}`;
      store.disk.plans.set(key, change(store.disk.plans.get(key) as object));
    },
  };
});
