import { describe, expect, test } from 'vitest';
import { mediaKeys, type QuietElement, type Session } from '../../../../app/platform/remote/media-keys.ts';
import type { RemoteAsk } from '../../../../src/ports/remote.ts';
import { remoteContract } from '../../../contracts/remote.ts';
import { settle } from '../../../fakes/fake-clocks.ts';
import { fakePageLife } from '../../../fakes/fake-page-life.ts';
import { memoryLog } from '../../../fakes/memory-log.ts';

/** An audio element that plays when it may. */
class FakeElement extends EventTarget {
  loop = false;
  paused = true;
  mayPlay = true;
  async play(): Promise<void> {
    if (!this.mayPlay) throw new DOMException('no touch', 'NotAllowedError');
    this.paused = false;
    this.dispatchEvent(new Event('playing'));
  }
  pause(): void {
    if (this.paused) return;
    this.paused = true;
    this.dispatchEvent(new Event('pause'));
  }
}

/** The system's player keys: goes to the handlers that are set now. */
function system() {
  const handlers = new Map<string, () => void>();
  const session = {
    metadata: null as { readonly title: string } | null,
    playbackState: 'none',
    setActionHandler: (action: string, handler: (() => void) | null) => {
      if (action === 'previoustrack' && session.knowsNoBack) throw new TypeError('no such action');
      if (handler === null) handlers.delete(action);
      else handlers.set(action, handler);
    },
    knowsNoBack: false,
  };
  return { session, handlers, send: (action: string) => handlers.get(action)?.() };
}

function headset() {
  const { session, handlers, send } = system();
  const element = new FakeElement();
  const pageLife = fakePageLife();
  const log = memoryLog();
  const remote = mediaKeys({
    session: session as unknown as Session,
    makeMetadata: (title) => ({ title }) as MediaMetadata,
    makeElement: () => element as unknown as QuietElement,
    pageLife,
    log,
  });
  const asked: RemoteAsk[] = [];
  remote.listen((ask) => asked.push(ask));
  return { remote, session, handlers, send, element, pageLife, log, asked };
}

remoteContract('media keys', () => {
  const { remote, send, session } = headset();
  const actions = { press: 'pause', next: 'nexttrack', back: 'previoustrack' };
  return { remote, key: (ask) => send(actions[ask]), title: () => session.metadata?.title ?? null };
});

describe('media keys', () => {
  test('takes play and pause alike for the one key of a headset', () => {
    const { remote, send, asked } = headset();
    remote.take('Morning class');
    send('pause');
    send('play');
    expect(asked).toEqual(['press', 'press']);
  });

  test('loops the quiet sound while the keys are taken, and says that it plays', () => {
    const { remote, session, element } = headset();
    remote.take('Morning class');
    expect([element.loop, element.paused, session.playbackState]).toEqual([true, false, 'playing']);
    remote.letGo();
    expect([element.paused, session.playbackState]).toEqual([true, 'none']);
  });

  test('asks nothing when the system pauses the element by itself', () => {
    const { remote, element, asked } = headset();
    remote.take('Morning class');
    element.pause();
    expect(asked).toEqual([]);
  });

  test('plays on when the page is seen again, and takes the keys anew', async () => {
    const { remote, element, pageLife, handlers, send, asked } = headset();
    remote.take('Morning class');
    element.pause();
    handlers.clear();
    pageLife.hide();
    pageLife.show();
    await settle();
    expect(element.paused).toBe(false);
    send('nexttrack');
    expect(asked).toEqual(['next']);
  });

  test('does not play for a page that comes back after the keys were let go', async () => {
    const { remote, element, pageLife } = headset();
    remote.take('Morning class');
    remote.letGo();
    pageLife.hide();
    pageLife.show();
    await settle();
    expect(element.paused).toBe(true);
  });

  test('goes on without a sound it may not play, without a key the browser does not know', async () => {
    const { remote, element, session, send, asked, log } = headset();
    element.mayPlay = false;
    session.knowsNoBack = true;
    expect(() => remote.take('Morning class')).not.toThrow();
    await settle();
    send('nexttrack');
    expect(asked).toEqual(['next']);
    expect(log.whats()).toEqual(['remote: no such key', 'remote: quiet sound refused']);
  });

  test('does nothing and throws nothing where there is no media session', async () => {
    const element = new FakeElement();
    const remote = mediaKeys({
      session: undefined,
      makeMetadata: () => {
        throw new ReferenceError('no MediaMetadata');
      },
      makeElement: () => element as unknown as QuietElement,
      pageLife: fakePageLife(),
      log: memoryLog(),
    });
    expect(() => remote.take('Morning class')).not.toThrow();
    expect(() => remote.letGo()).not.toThrow();
    await settle();
  });
});
