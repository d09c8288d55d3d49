/** Every place that an address can name. `nowhere` is an address that this app does not have. */
export type Route =
  | { readonly at: 'start' | 'plans' | 'moves' | 'courses' | 'review' | 'backups' | 'nowhere' }
  | { readonly at: 'plan' | 'hall'; readonly planId: string }
  | { readonly at: 'record'; readonly recordId: string };

const PLACES = ['plans', 'moves', 'courses', 'review', 'backups'] as const;

/** Reads the part of an address from its `#` on. Never throws: what it does not know is `nowhere`. */
export function readRoute(hash: string): Route {
  const [place = '', id = '', ...rest] = hash.replace(/^#?\/?/, '').split('/');
  if (rest.length > 0) return { at: 'nowhere' };
  if (id === '') return placeNamed(place);
  const name = decode(id);
  if (name === null) return { at: 'nowhere' };
  if (place === 'plans') return { at: 'plan', planId: name };
  if (place === 'hall') return { at: 'hall', planId: name };
  if (place === 'review') return { at: 'record', recordId: name };
  return { at: 'nowhere' };
}

/** The address of a route, from its `#` on; `nowhere` leads to the start. */
export function hashOf(route: Route): string {
  switch (route.at) {
    case 'start':
    case 'nowhere':
      return '#/';
    case 'plan':
      return `#/plans/${encodeURIComponent(route.planId)}`;
    case 'hall':
      return `#/hall/${encodeURIComponent(route.planId)}`;
    case 'record':
      return `#/review/${encodeURIComponent(route.recordId)}`;
    default:
      return `#/${route.at}`;
  }
}

function placeNamed(place: string): Route {
  if (place === '') return { at: 'start' };
  const known = PLACES.find((one) => one === place);
  return { at: known ?? 'nowhere' };
}

function decode(text: string): string | null {
  try {
    return decodeURIComponent(text);
  } catch {
    return null;
  }
}
