import type { Log } from '../../../src/ports/log.ts';
import type { PageLife } from '../../../src/ports/page-life.ts';
import type { Remote, RemoteAsk } from '../../../src/ports/remote.ts';
import { hearers } from '../hearers.ts';
import { isBack } from '../page-life.ts';

/** As much of the browser's media session as is used. */
export type Session = Pick<MediaSession, 'setActionHandler' | 'metadata' | 'playbackState'>;

/** As much of an audio element as is used. */
export type QuietElement = Pick<HTMLAudioElement, 'loop' | 'paused' | 'play' | 'pause' | 'addEventListener'>;

export type MediaKeysNeeds = {
  /** Undefined where the browser has none: a clicker still comes in as a keyboard. */
  readonly session: Session | undefined;
  readonly makeMetadata: (title: string) => MediaMetadata;
  /** An element that plays assets/sounds/quiet.wav; called once, at the first `take`. */
  readonly makeElement: () => QuietElement;
  readonly pageLife: PageLife;
  readonly log: Log;
};

/** A headset has one key for both, and which of the two comes depends on what the system believes. */
const ASKS: readonly (readonly [MediaSessionAction, RemoteAsk])[] = [
  ['play', 'press'],
  ['pause', 'press'],
  ['nexttrack', 'next'],
  ['previoustrack', 'back'],
];

/**
 * Headset and player keys. Systems send them only to a page whose media element plays for more than 5 s, so a nearly
 * silent one loops. Only actions ask for something: a `pause` event of the element is the system's own doing (a call,
 * another app) and costs nothing but the keys, until the page is seen again.
 */
export function mediaKeys({ session, makeMetadata, makeElement, pageLife, log }: MediaKeysNeeds): Remote {
  const { tell, listen } = hearers<RemoteAsk>();
  let element: QuietElement | null = null;
  let title: string | null = null;

  const setHandler = (action: MediaSessionAction, handler: (() => void) | null) => {
    try {
      session?.setActionHandler(action, handler);
    } catch (error) {
      // An action this browser does not know throws.
      log.note('remote: no such key', error);
    }
  };

  const claim = () => {
    if (title === null || session === undefined) return;
    for (const [action, ask] of ASKS) setHandler(action, () => tell(ask));
    try {
      session.metadata = makeMetadata(title);
      // Also while the class stands: a paused player's keys may go to another app.
      session.playbackState = 'playing';
    } catch (error) {
      log.note('remote: no player card', error);
    }
  };

  const play = () => {
    if (title === null || element === null) return;
    try {
      element.play().catch((error: unknown) => log.note('remote: quiet sound refused', error));
    } catch (error) {
      log.note('remote: quiet sound failed', error);
    }
  };

  const makeQuiet = () => {
    const made = makeElement();
    made.loop = true;
    // Some systems forget the handlers when playing begins.
    made.addEventListener('playing', claim);
    return made;
  };

  pageLife.listen((event) => {
    if (isBack(event) && element?.paused === true) play();
  });

  return {
    take: (shown) => {
      title = shown;
      element ??= makeQuiet();
      claim();
      play();
    },
    letGo: () => {
      title = null;
      element?.pause();
      for (const [action] of ASKS) setHandler(action, null);
      if (session === undefined) return;
      session.metadata = null;
      session.playbackState = 'none';
    },
    listen,
  };
}
