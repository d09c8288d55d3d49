// Everything that a class needs beyond the first picture, as one script: main loads it right after the first picture
// and never later.
export { house } from './live/house.ts';
export { classParts } from './platform/class-parts.ts';
export { HallRoom } from './screens/hall/hall-room.tsx';
export { nameLine } from './words/spoken-words.ts';
