import { describe, expect, test } from 'vitest';
import type { PageEvent, PageLife } from '../../src/ports/page-life.ts';

export type PageLifeWorld = {
  readonly page: PageLife;
  readonly hide: () => void;
  readonly show: () => void;
  readonly freeze: () => void;
  readonly thaw: () => void;
  readonly focus: () => void;
  readonly leave: () => void;
};

/** What every page's life promises. */
export function pageLifeContract(name: string, makeWorld: () => PageLifeWorld): void {
  describe(`a page's life (${name})`, () => {
    test('is told in order: hidden, frozen, woken, seen, used, left', () => {
      const world = makeWorld();
      const told: PageEvent[] = [];
      world.page.listen((event) => told.push(event));
      expect(world.page.isVisible()).toBe(true);
      world.freeze();
      expect(world.page.isVisible()).toBe(false);
      world.thaw();
      expect(world.page.isVisible()).toBe(true);
      world.focus();
      world.hide();
      world.leave();
      expect(told).toEqual(['hidden', 'frozen', 'woke', 'visible', 'focused', 'hidden', 'leaving']);
    });

    test('is told to all who listen, and to none who stopped', () => {
      const world = makeWorld();
      const told: string[] = [];
      const stop = world.page.listen(() => {
        told.push('one');
        stop();
      });
      world.page.listen(() => told.push('two'));
      world.hide();
      world.show();
      expect(told).toEqual(['one', 'two', 'two']);
    });
  });
}
