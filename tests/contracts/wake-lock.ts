import { beforeEach, describe, expect, test } from 'vitest';
import type { WakeFact, WakeLock } from '../../src/ports/wake-lock.ts';
import type { FakePageLife } from '../fakes/fake-page-life.ts';

export type WakeLockWorld = {
  readonly lock: WakeLock;
  readonly pageLife: FakePageLife;
  readonly answer: (how: 'gives' | 'refuses' | 'hasNone') => void;
  /** The phone takes it back while the page is seen. */
  readonly takeBack: () => void;
  /** Lets what was asked be answered; the world's clocks move on by ten seconds. */
  readonly pass: () => Promise<void>;
};

/** What every wake lock promises. */
export function wakeLockContract(name: string, makeWorld: () => WakeLockWorld): void {
  describe(`a wake lock (${name})`, () => {
    let world: WakeLockWorld;
    const want = async (wanted: boolean) => {
      world.lock.want(wanted);
      await world.pass();
    };

    beforeEach(() => {
      world = makeWorld();
    });

    test('is not wanted at first, asked for when wanted, and not wanted again', async () => {
      expect(world.lock.fact()).toBe('notWanted');
      await want(true);
      expect(world.lock.fact()).toBe('asked');
      await want(false);
      expect(world.lock.fact()).toBe('notWanted');
    });

    test('says when it is refused, and asks again when the page comes back', async () => {
      world.answer('refuses');
      await want(true);
      expect(world.lock.fact()).toBe('refused');
      world.answer('gives');
      world.pageLife.hide();
      world.pageLife.show();
      await world.pass();
      expect(world.lock.fact()).toBe('asked');
    });

    test('says when there is none', async () => {
      world.answer('hasNone');
      await want(true);
      expect(world.lock.fact()).toBe('absent');
    });

    test('is lost while the page is hidden or frozen, and back by itself afterwards', async () => {
      await want(true);
      world.pageLife.freeze();
      await world.pass();
      expect(world.lock.fact()).toBe('lost');
      world.pageLife.thaw();
      await world.pass();
      expect(world.lock.fact()).toBe('asked');
    });

    test('is asked for again when the page is used again', async () => {
      await want(true);
      world.takeBack();
      world.pageLife.focus();
      await world.pass();
      expect(world.lock.fact()).toBe('asked');
    });

    test('is lost when the phone takes it, until it is wanted once more', async () => {
      await want(true);
      world.takeBack();
      await world.pass();
      expect(world.lock.fact()).toBe('lost');
      await want(true);
      expect(world.lock.fact()).toBe('asked');
    });

    test('is not asked for by a page that comes back when nobody wants it', async () => {
      await want(true);
      await want(false);
      world.pageLife.hide();
      world.pageLife.show();
      await world.pass();
      expect(world.lock.fact()).toBe('notWanted');
    });

    test('tells each change once, to whoever listens and only as long', async () => {
      const told: WakeFact[] = [];
      const stop = world.lock.listen((fact) => told.push(fact));
      await want(true);
      await want(true);
      world.takeBack();
      await world.pass();
      stop();
      await want(false);
      expect(told).toEqual(['asked', 'lost']);
    });
  });
}
