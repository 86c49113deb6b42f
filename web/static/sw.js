// The service worker: it shows the pages when the server is away. What is on them comes from the server alone; nothing
// of anybody's flights is kept here.

const scope = /** @type {import('./worker.d.ts').Scope} */ (/** @type {unknown} */ (self));
const shell = 'halfturn-shell';

/** What pages are made of: not what the server says. @param {URL} url */
function isPart(url) {
  return url.origin === location.origin && !/^\/(api\/|live$|metrics$|healthz$)/.test(url.pathname);
}

/** The newest from the server; what was kept where it does not answer. @param {Request} request */
async function answer(request) {
  const cache = await caches.open(shell);
  try {
    const fresh = await fetch(request);
    if (fresh.ok && !fresh.redirected) await cache.put(request, fresh.clone());
    return fresh;
  } catch (away) {
    const kept = await cache.match(request, { ignoreSearch: true });
    if (kept !== undefined) return kept;
    throw away;
  }
}

/** Keeps all that pages are made of. */
async function keep() {
  /** @type {{ parts: string[] }} */
  const { parts } = await (await fetch('api/parts')).json();
  await Promise.all(parts.map((path) => answer(new Request(path))));
  await scope.skipWaiting();
}

scope.addEventListener('install', (event) => event.waitUntil(keep()));
scope.addEventListener('activate', (event) => event.waitUntil(scope.clients.claim()));
scope.addEventListener('fetch', (event) => {
  if (event.request.method === 'GET' && isPart(new URL(event.request.url))) event.respondWith(answer(event.request));
});
