import { describe, expect, test } from 'vitest';
import type { Remote, RemoteAsk } from '../../src/ports/remote.ts';

export type RemoteWorld = {
  readonly remote: Remote;
  /** A key of the headset or of the system's player. */
  readonly key: (ask: RemoteAsk) => void;
  readonly title: () => string | null;
};

/** What every remote promises. */
export function remoteContract(name: string, makeWorld: () => RemoteWorld): void {
  describe(`a remote (${name})`, () => {
    test('hears keys only between take and let go', () => {
      const { remote, key } = makeWorld();
      const asked: RemoteAsk[] = [];
      remote.listen((ask) => asked.push(ask));
      key('press');
      remote.take('Morning class');
      key('press');
      key('next');
      key('back');
      remote.letGo();
      key('press');
      expect(asked).toEqual(['press', 'next', 'back']);
    });

    test('asks once a key, however often the keys are taken', () => {
      const { remote, key } = makeWorld();
      const asked: RemoteAsk[] = [];
      remote.listen((ask) => asked.push(ask));
      remote.take('Morning class');
      remote.take('Morning class');
      key('next');
      expect(asked).toEqual(['next']);
    });

    test('shows the class, and nothing after', () => {
      const { remote, title } = makeWorld();
      remote.take('Morning class');
      expect(title()).toBe('Morning class');
      remote.letGo();
      expect(title()).toBeNull();
    });

    test('tells whoever listens and only as long', () => {
      const { remote, key } = makeWorld();
      const asked: RemoteAsk[] = [];
      const stop = remote.listen((ask) => asked.push(ask));
      remote.take('Morning class');
      stop();
      key('press');
      expect(asked).toEqual([]);
    });
  });
}
