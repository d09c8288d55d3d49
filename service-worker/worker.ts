import {
  addRoute,
  cleanupOutdatedCaches,
  createHandlerBoundToURL,
  getCacheKeyForURL,
  matchPrecache,
  precache,
} from 'workbox-precaching';
import { createPartialResponse } from 'workbox-range-requests';
import { NavigationRoute, registerRoute } from 'workbox-routing';

declare const self: ServiceWorkerGlobalScope & {
  readonly __WB_MANIFEST: { url: string; revision: string | null }[];
};

/** A path whose last part has an extension is a file, and a missing file is not the app. */
const FILE_PATH = /^[^?]*\/[^/?]*\.[^/?]*(\?|$)/;

precache(self.__WB_MANIFEST);

// Before the precache route, which would answer a request for a part with the whole: media elements
// then cannot seek, and WebKit refuses to play (GoogleChrome/workbox#1663).
registerRoute(
  ({ url, request }) => request.headers.has('range') && getCacheKeyForURL(url.href) !== undefined,
  async ({ url, request }) => {
    const whole = await matchPrecache(url.href);
    return whole === undefined ? fetch(request) : createPartialResponse(request, whole);
  },
);

addRoute({});

const page = createHandlerBoundToURL('index.html');
const scope = new URL(self.registration.scope);

// The page's own addresses are relative to its folder, so it is answered at that address only; any
// other path inside the scope is sent there.
registerRoute(
  new NavigationRoute(
    async (context) => (context.url.pathname === scope.pathname ? page(context) : Response.redirect(scope.href)),
    { denylist: [FILE_PATH] },
  ),
);

cleanupOutdatedCaches();

// Only when the page asks: taking over deletes the files of the version that an open page still runs
// (GoogleChrome/workbox#3126). For the same reason open pages are never claimed.
self.addEventListener('message', (event) => {
  const data: unknown = event.data;
  if (typeof data === 'object' && data !== null && 'type' in data && data.type === 'SKIP_WAITING') {
    void self.skipWaiting();
  }
});
