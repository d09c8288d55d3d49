import type { Drawing } from './draw.ts';

/** The part of a drawing that a box shows, in drawn units: floor at the bottom edge, the drawing in the middle. */
export type Frame = { readonly x: number; readonly y: number; readonly width: number; readonly height: number };

/** A low pose is shown with this much height, so that someone crouching is not drawn a giant beside someone standing. */
const LEAST_HEIGHT = 69;

/** Parts at least this far apart still read as parts where a figure is small; in drawn units. */
const WIDEST_CASING = 4.2;
const NARROWEST_CASING = 3.4;
/** The 10 px that the hall asks for, and a little for rounded edges. */
const HALL_CASING_PX = 10.5;

/** The frame to draw a figure in; kit is drawn at its own size, with `leastHeight` 0. */
export function frameOf({ box }: Drawing, leastHeight = LEAST_HEIGHT): Frame {
  const height = Math.max(-box.minY, leastHeight);
  return { x: box.minX, y: -height, width: box.maxX - box.minX, height };
}

/** CSS px to a drawn unit when the frame fills a box of so many px as far as it goes, all of it in sight. */
export function scaleIn(frame: Frame, widthPx: number, heightPx: number): number {
  return Math.min(widthPx / frame.width, heightPx / frame.height);
}

/**
 * Width of the rim of field round a part, in drawn units: at least 10 px from 2.5 px a unit on (a standing figure of
 * 250 px); below that as much as leaves the parts their shape.
 */
export function casingAt(scale: number): number {
  return Math.min(Math.max(HALL_CASING_PX / scale, NARROWEST_CASING), WIDEST_CASING);
}
