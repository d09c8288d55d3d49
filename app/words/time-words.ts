/** Whole minutes, as people say how long a class is; anything above nothing is at least one. */
export function minutesOf(ms: number): number {
  return ms <= 0 ? 0 : Math.max(1, Math.round(ms / 60_000));
}

/** "1 minute", "28 minutes". */
export function minutesText(ms: number): string {
  const minutes = minutesOf(ms);
  return minutes === 1 ? '1 minute' : `${minutes} minutes`;
}

const two = (value: number): string => String(value).padStart(2, '0');

/** A length or an instant of a class: `4:05`, `1:02:30`; below zero with a minus. Parts of a second are dropped. */
export function clockText(ms: number): string {
  const seconds = Math.floor(Math.abs(ms) / 1000);
  const hours = Math.floor(seconds / 3600);
  const minutes = Math.floor(seconds / 60) % 60;
  const text = hours > 0 ? `${hours}:${two(minutes)}:${two(seconds % 60)}` : `${minutes}:${two(seconds % 60)}`;
  return ms < 0 && seconds > 0 ? `−${text}` : text;
}

/** The day in the zone it was lived in: "Monday 2 March 2026". */
export function dayText(wallMs: number, zone: string): string {
  const parts = { weekday: 'long', day: 'numeric', month: 'long', year: 'numeric' } as const;
  return formatIn(zone, parts, wallMs).replace(',', '');
}

/** The time of day in the zone it was lived in: "18:05". */
export function timeOfDayText(wallMs: number, zone: string): string {
  return formatIn(zone, { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }, wallMs);
}

/** The time of day where this phone is now: "18:05". Asked for every second of a class, so by the phone's own calendar. */
export function timeOfDayHereText(wallMs: number): string {
  const here = new Date(wallMs);
  return Number.isNaN(here.getTime()) ? 'at an unknown time' : `${two(here.getHours())}:${two(here.getMinutes())}`;
}

/** A zone that this phone does not know, or an instant beyond all calendars, is said instead of thrown. */
function formatIn(zone: string, parts: Intl.DateTimeFormatOptions, wallMs: number): string {
  const there = tryFormat(zone, parts, wallMs);
  if (there !== null) return there;
  const inUtc = tryFormat('UTC', parts, wallMs);
  return inUtc === null ? 'at an unknown time' : `${inUtc} UTC`;
}

function tryFormat(zone: string, parts: Intl.DateTimeFormatOptions, wallMs: number): string | null {
  try {
    return new Intl.DateTimeFormat('en-GB', { ...parts, timeZone: zone }).format(wallMs);
  } catch {
    return null;
  }
}
