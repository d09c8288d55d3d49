import type { OfflineFact } from '../../src/ports/offline-copy.ts';

/** What the start page says about opening without a network. Only `ready` and `waiting` promise anything. */
export function offlineText(fact: OfflineFact, isSecure: boolean): string {
  if (!isSecure) {
    return 'This address is not https, so the phone cannot keep Hallpace: it opens only while this network is there, and the screen may go dark in a class.';
  }
  const texts: Readonly<Record<OfflineFact, string>> = {
    notSupported: 'This browser cannot keep Hallpace: it opens only with a network.',
    installing: 'Putting Hallpace on this phone. Stay on the network until this line says it is there.',
    ready: 'Hallpace is on this phone and opens without a network.',
    waiting: 'Hallpace is on this phone and opens without a network.',
    failed:
      'Hallpace is not on this phone yet: something could not be fetched. It tries again when you come back to it.',
  };
  return texts[fact];
}
