import { wakeLockContract } from '../contracts/wake-lock.ts';
import { fakePageLife } from './fake-page-life.ts';
import { fakeWakeLock } from './fake-wake-lock.ts';

wakeLockContract('without a phone', () => {
  const pageLife = fakePageLife();
  const lock = fakeWakeLock(pageLife);
  return { lock, pageLife, answer: lock.answer, takeBack: lock.takeBack, pass: async () => {} };
});
