import type { Status } from '../../../src/class-run/class-state.ts';
import type { HallAsk } from '../../live/live-contract.ts';

/** What a key stands for. `holdFinish` lasts as long as the key is down. */
export type KeyAsk = HallAsk | 'holdFinish';

/** Clickers send Page Down and Page Up or arrows, headsets the player key, keyboards anything. */
const KEYS: ReadonlyMap<string, KeyAsk> = new Map<string, KeyAsk>([
  [' ', 'press'],
  ['Enter', 'press'],
  ['PageDown', 'press'],
  ['ArrowRight', 'press'],
  ['MediaPlayPause', 'press'],
  ['PageUp', 'goBackOne'],
  ['ArrowLeft', 'goBackOne'],
  ['ArrowUp', 'tenMore'],
  ['+', 'tenMore'],
  ['ArrowDown', 'lowerForAll'],
  ['n', 'nextMove'],
  ['d', 'dropMove'],
  ['h', 'hurt'],
  ['f', 'holdFinish'],
]);

/** The keys that a page without a running class needs for itself: to scroll, and for letters typed into it. */
const READY_ASKS: ReadonlySet<KeyAsk> = new Set<KeyAsk>(['press']);

/** As much of a key event as counts. */
export type KeyPress = Pick<KeyboardEvent, 'key' | 'repeat' | 'ctrlKey' | 'altKey' | 'metaKey'> & {
  readonly target: EventTarget | null;
};

/** Where the class is, as far as keys go. While someone is hurt no key goes on: a clicker may lie underfoot. */
export type KeyPlace = { readonly status: Status; readonly isHurt: boolean };

/** What a key asks for; null leaves it to the browser. */
export function askOfKey(press: KeyPress, place: KeyPlace): KeyAsk | null {
  if (press.repeat || press.ctrlKey || press.altKey || press.metaKey) return null;
  if (place.isHurt || place.status === 'finished' || place.status === 'abandoned') return null;
  const key = press.key.length === 1 ? press.key.toLowerCase() : press.key;
  const ask = KEYS.get(key) ?? null;
  if (ask === null || isTypedInto(press.target)) return null;
  // Whoever walks the buttons by keyboard presses the one in focus; pointers give the focus back (see giveFocusBack).
  if ((key === ' ' || key === 'Enter') && isPressable(press.target)) return null;
  return place.status === 'ready' && !READY_ASKS.has(ask) ? null : ask;
}

function isTypedInto(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest('input, textarea, select, [contenteditable]') !== null;
}

function isPressable(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest('button, a, summary') !== null;
}

/** Called with every click: a button pressed by pointer does not keep the focus, so that a clicker's Space is a press. */
function giveFocusBack(event: Pick<MouseEvent, 'detail' | 'target'>): void {
  const button = event.target instanceof Element ? event.target.closest('button') : null;
  if (event.detail > 0 && button instanceof HTMLElement) button.blur();
}

/** What keys lead to. */
export type KeyHears = {
  readonly ask: (what: HallAsk) => void;
  readonly holdFinish: { readonly press: () => void; readonly release: () => void };
};

/** Listens for remote keys on `page` until the returned function is called. */
export function listenForKeys(
  page: Pick<Document, 'addEventListener' | 'removeEventListener'>,
  place: () => KeyPlace,
  hear: KeyHears,
): () => void {
  const onDown = (event: KeyboardEvent): void => {
    const what = askOfKey(event, place());
    // A held arrow would scroll with its repeats although its first press was taken.
    if (what === null) return;
    event.preventDefault();
    if (what === 'holdFinish') hear.holdFinish.press();
    else hear.ask(what);
  };
  const onUp = (event: KeyboardEvent): void => {
    if (event.key.toLowerCase() === 'f') hear.holdFinish.release();
  };
  page.addEventListener('keydown', onDown);
  page.addEventListener('keyup', onUp);
  page.addEventListener('click', giveFocusBack);
  return () => {
    page.removeEventListener('keydown', onDown);
    page.removeEventListener('keyup', onUp);
    page.removeEventListener('click', giveFocusBack);
  };
}
