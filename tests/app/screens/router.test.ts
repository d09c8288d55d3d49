import { describe, expect, it } from 'vitest';
import { hashOf, type Route, readRoute } from '../../../app/screens/router.ts';

const ADDRESSES: readonly (readonly [string, Route])[] = [
  ['#/', { at: 'start' }],
  ['#/plans', { at: 'plans' }],
  ['#/plans/evening-1', { at: 'plan', planId: 'evening-1' }],
  ['#/moves', { at: 'moves' }],
  ['#/courses', { at: 'courses' }],
  ['#/review', { at: 'review' }],
  ['#/review/aB_-9', { at: 'record', recordId: 'aB_-9' }],
  ['#/hall/evening-1', { at: 'hall', planId: 'evening-1' }],
  ['#/backups', { at: 'backups' }],
];

describe('addresses', () => {
  it.each(ADDRESSES)('reads %s and writes it the same way', (hash, route) => {
    expect(readRoute(hash)).toEqual(route);
    expect(hashOf(route)).toBe(hash);
  });

  it.each(['', '#', '#/', '/'])('takes %o for the start', (hash) => {
    expect(readRoute(hash)).toEqual({ at: 'start' });
  });

  it('carries an id through whatever signs it has', () => {
    for (const planId of ['50%', 'a/b', '#?&', 'Grüße', ' ', '../x']) {
      const route: Route = { at: 'hall', planId };
      expect(readRoute(hashOf(route))).toEqual(route);
    }
  });

  it.each(['#/nothing', '#/plans/a/b', '#/moves/squat', '#/plans/%E0%A4%A', '#/hall', '#/constructor'])(
    'knows no place named %s',
    (hash) => {
      expect(readRoute(hash)).toEqual({ at: 'nowhere' });
    },
  );

  it('leads from nowhere to the start', () => {
    expect(hashOf({ at: 'nowhere' })).toBe('#/');
  });

  it('reads a list of plans with a slash after it', () => {
    expect(readRoute('#/plans/')).toEqual({ at: 'plans' });
  });
});
