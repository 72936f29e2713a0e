// Keeps the whole page on the device, so that it runs without a network. The
// server fills in the two constants: a hash over every file, and their names.
// Loader and sketcher come from one build because they are kept under one.

const BUILD = 'unbuilt';
const FILES = [];

// Several copies of the page may lie at different paths of one host, which all
// share one store: each tidies up after itself only.
const MINE = `scrubline ${self.registration.scope} `;
const SHELF = MINE + BUILD;

self.addEventListener('install', (event) => {
  event.waitUntil((async () => {
    const shelf = await caches.open(SHELF);
    await shelf.addAll(FILES.map((name) => new Request(name, { cache: 'reload' })));
  })());
});

self.addEventListener('activate', (event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) {
      if (name !== SHELF && name.startsWith(MINE)) await caches.delete(name);
    }
    await self.clients.claim();
  })());
});

// A newer version waits until the page, its work kept, asks for it.
self.addEventListener('message', (event) => {
  if (event.data === 'use now') self.skipWaiting();
});

let opened = null; // the shelf, once for all that a page asks for at a time

/** The page is kept under one of its two addresses: hosts send the other on to it. */
function keptAs(request) {
  const own = request.mode === 'navigate' && /\/index(\.html)?$/.test(new URL(request.url).pathname);
  return own ? './' : request;
}

self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || new URL(request.url).origin !== self.location.origin) return;
  event.respondWith((async () => {
    opened ??= caches.open(SHELF).catch((err) => { opened = null; throw err; });
    const shelf = await opened;
    const found = await shelf.match(keptAs(request), { ignoreSearch: true });
    return found ?? fetch(request);
  })());
});
