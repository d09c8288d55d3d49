import { house } from './live/house.ts';
import { type ClassParts, classParts } from './platform/class-parts.ts';
import type { FirstParts } from './platform/first-parts.ts';
import type { ClassRooms } from './screens/app.tsx';
import { HallRoom } from './screens/hall/hall-room.tsx';
import { nameLine } from './words/spoken-words.ts';

// This file and what it imports is one script. It is fetched along with the page's first and never later: a class loads
// nothing.

/** All that a class needs beyond the first picture, joined. */
export function classRooms(
  first: FirstParts,
  isLive: () => boolean,
): { readonly rooms: ClassRooms; readonly parts: ClassParts } {
  const parts = classParts(first, isLive);
  const { store } = first;
  const rooms = { house: house({ ...parts, nameLine, onStart: parts.persist.ask }, store, parts.lock), Room: HallRoom };
  return { rooms, parts };
}
