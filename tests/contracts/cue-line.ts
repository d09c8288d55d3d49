import { beforeEach, describe, expect, test } from 'vitest';
import type { SoundKind } from '../../src/class-run/cue.ts';
import type { CueLine, SoundFact, WantedSound } from '../../src/ports/cue-line.ts';
import type { FakeClocks } from '../fakes/fake-clocks.ts';

/** One cue line with a phone around it. */
export type CueLineWorld = {
  readonly line: CueLine;
  readonly clocks: FakeClocks;
  /** Runs `press` as inside a touch. */
  readonly touch: (press: () => void) => void;
  /** What came out of the loudspeaker so far. */
  readonly heard: () => readonly {
    readonly kind: SoundKind;
    readonly style: string;
    readonly atMonoMs: number;
    readonly isCut: boolean;
  }[];
  /** The system takes the sound, and gives it back in need of a touch. */
  readonly interrupt: () => void;
  readonly endInterruption: () => void;
};

/** Least that a sound must last to count as not cut, is the world's affair; times must be this close, in ms. */
const CLOSE_MS = 3;

/** What every cue line promises, whatever it plays on. */
export function cueLineContract(name: string, makeWorld: () => Promise<CueLineWorld>): void {
  describe(`a cue line (${name})`, () => {
    let world: CueLineWorld;

    const now = () => world.clocks.clocks.monoMs();
    const wanted = (kind: SoundKind, inMs: number, key: string = kind): WantedSound => ({
      key,
      kind,
      style: 'sharp',
      dueMonoMs: now() + inMs,
    });
    /** Time passes as in a class: the line is tended four times a second. */
    const pass = async (ms: number) => {
      for (let left = ms; left > 0; left -= 250) {
        world.line.tend();
        await world.clocks.advanceSettling(Math.min(250, left));
      }
    };
    const unlock = async () => {
      world.touch(world.line.unlock);
      await pass(2000);
    };
    const kinds = () => world.heard().map(({ kind }) => kind);

    beforeEach(async () => {
      world = await makeWorld();
    });

    test('needs a tap at first, plays nothing until then, and says so', async () => {
      world.line.want([wanted('start', 400)]);
      await pass(2000);
      expect(world.line.fact()).toBe('needsTap');
      expect(world.heard()).toEqual([]);
    });

    test('is ok after a press', async () => {
      await unlock();
      expect(world.line.fact()).toBe('ok');
    });

    test('plays each wanted sound once, at its instant', async () => {
      await unlock();
      const list = [wanted('tick', 1000), wanted('start', 2000), wanted('halfway', 5000)];
      world.line.want(list);
      await pass(6000);
      expect(kinds()).toEqual(['tick', 'start', 'halfway']);
      for (const [at, each] of world.heard().entries()) {
        expect(Math.abs(each.atMonoMs - (list[at]?.dueMonoMs ?? 0))).toBeLessThan(CLOSE_MS);
        expect(each.isCut).toBe(false);
      }
    });

    test('plays in the style asked for', async () => {
      await unlock();
      world.line.want([{ ...wanted('otherSide', 500), style: 'soft' }]);
      await pass(1000);
      expect(world.heard().map(({ style }) => style)).toEqual(['soft']);
    });

    test('plays once what is wanted again and again, also with a list that looks ahead only', async () => {
      await unlock();
      const list = [wanted('tick', 700), wanted('start', 1700)];
      for (let look = 0; look < 20; look += 1) {
        world.line.want(look < 10 ? list : list.filter((each) => each.dueMonoMs > now()));
        await pass(130);
      }
      expect(kinds()).toEqual(['tick', 'start']);
      expect(world.heard().some(({ isCut }) => isCut)).toBe(false);
    });

    test('plays on time although nobody tends it', async () => {
      await unlock();
      const start = wanted('start', 20_000);
      world.line.want([start]);
      await world.clocks.advanceSettling(21_000);
      expect(Math.abs((world.heard()[0]?.atMonoMs ?? 0) - start.dueMonoMs)).toBeLessThan(CLOSE_MS);
    });

    test('calls off what is no longer wanted, as in a pause', async () => {
      await unlock();
      world.line.want([wanted('tick', 300), wanted('start', 1300)]);
      await pass(500);
      world.line.want([]);
      await pass(3000);
      expect(kinds()).toEqual(['tick']);
    });

    test('moves what is due later than it was, and plays it once', async () => {
      await unlock();
      world.line.want([wanted('start', 1000)]);
      await pass(900);
      const later = wanted('start', 4000);
      world.line.want([later]);
      await pass(5000);
      expect(world.heard()).toHaveLength(1);
      expect(Math.abs((world.heard()[0]?.atMonoMs ?? 0) - later.dueMonoMs)).toBeLessThan(CLOSE_MS);
    });

    test('plays again what has sounded when it is due anew, as after going back', async () => {
      await unlock();
      world.line.want([wanted('start', 500)]);
      await pass(1000);
      world.line.want([wanted('start', 3000)]);
      await pass(4000);
      expect(kinds()).toEqual(['start', 'start']);
    });

    test('plays at once what is a little late, and drops what is more than 150 ms late', async () => {
      await unlock();
      world.line.want([wanted('tick', -140, 'a'), wanted('start', -160, 'b')]);
      const at = now();
      await pass(1000);
      expect(kinds()).toEqual(['tick']);
      expect(Math.abs((world.heard()[0]?.atMonoMs ?? 0) - at)).toBeLessThan(CLOSE_MS);
    });

    test('is silenced at once, what sounds and what is queued', async () => {
      await unlock();
      world.line.want([wanted('finish', 500), wanted('start', 1500)]);
      await pass(550);
      world.line.hush();
      await pass(3000);
      expect(kinds()).toEqual(['finish']);
      expect(world.heard()[0]?.isCut).toBe(true);
    });

    test('plays one for the sound check now', async () => {
      await unlock();
      const at = now();
      world.line.playNow('up', 'soft');
      await pass(500);
      expect(world.heard().map(({ kind, style }) => [kind, style])).toEqual([['up', 'soft']]);
      expect(Math.abs((world.heard()[0]?.atMonoMs ?? 0) - at)).toBeLessThan(CLOSE_MS);
    });

    test('plays nothing while the system has the sound, and none of it afterwards in a burst', async () => {
      await unlock();
      world.line.want([wanted('tick', 1000), wanted('start', 2000), wanted('change', 12_000)]);
      world.interrupt();
      await pass(5000);
      expect(world.line.fact()).toBe('interrupted');
      world.endInterruption();
      await unlock();
      expect(world.line.fact()).toBe('ok');
      await pass(9000);
      expect(kinds()).toEqual(['change']);
    });

    test('tells when the fact changes, to whoever listens and only as long', async () => {
      const told: SoundFact[] = [];
      const stop = world.line.listen((fact) => told.push(fact));
      await unlock();
      world.interrupt();
      await pass(300);
      stop();
      world.endInterruption();
      await unlock();
      expect(told.filter((fact) => fact === 'ok' || fact === 'interrupted')).toEqual(['ok', 'interrupted']);
      expect(new Set(told.map((fact, at) => `${fact}${told[at - 1]}`)).size).toBe(told.length);
    });

    test('rests after a class and plays again in the next one', async () => {
      await unlock();
      world.line.want([wanted('finish', 300)]);
      await pass(400);
      world.line.rest();
      await pass(60_000);
      expect(world.heard().map(({ kind, isCut }) => [kind, isCut])).toEqual([['finish', false]]);
      await unlock();
      world.line.want([wanted('start', 500)]);
      await pass(1000);
      expect(kinds()).toEqual(['finish', 'start']);
    });
  });
}
