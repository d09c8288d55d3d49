import { beforeEach, describe, expect, test } from 'vitest';
import type { Voice, VoiceFact } from '../../src/ports/voice.ts';

export type VoiceWorld = {
  readonly voice: Voice;
  /** What was begun to be said, in order. */
  readonly said: () => readonly string[];
  /** What happens to lines: they end well, they fail, or there is no voice at all. */
  readonly become: (how: 'ok' | 'failing' | 'absent') => void;
  /** Time passes until what was begun has ended, one way or the other. */
  readonly pass: () => Promise<void>;
};

/** What every voice promises. */
export function voiceContract(name: string, makeWorld: () => VoiceWorld): void {
  describe(`a voice (${name})`, () => {
    let world: VoiceWorld;

    beforeEach(() => {
      world = makeWorld();
    });

    test('says what it is told', async () => {
      world.voice.say('squat');
      await world.pass();
      world.voice.say('other side');
      await world.pass();
      expect(world.said()).toEqual(['squat', 'other side']);
      expect(world.voice.fact()).toBe('ok');
    });

    test('goes on trying when it fails, and says that it does', async () => {
      world.become('failing');
      world.voice.say('squat');
      await world.pass();
      expect(world.voice.fact()).toBe('failing');
      world.become('ok');
      world.voice.say('plank');
      await world.pass();
      expect(world.said()).toContain('plank');
      expect(world.voice.fact()).toBe('ok');
    });

    test('drops lines in silence where there is none', async () => {
      world.become('absent');
      world.voice.say('squat');
      world.voice.hush();
      await world.pass();
      expect(world.said()).toEqual([]);
      expect(world.voice.fact()).toBe('absent');
    });

    test('tells changes to whoever listens and only as long', async () => {
      const told: VoiceFact[] = [];
      const stop = world.voice.listen((fact) => told.push(fact));
      world.become('failing');
      world.voice.say('squat');
      await world.pass();
      stop();
      world.become('ok');
      world.voice.say('plank');
      await world.pass();
      expect(told).toEqual(['failing']);
    });
  });
}
