import { pageLifeContract } from '../contracts/page-life.ts';
import { fakePageLife } from './fake-page-life.ts';

pageLifeContract('moved by hand', () => {
  const page = fakePageLife();
  return { page, ...page };
});
