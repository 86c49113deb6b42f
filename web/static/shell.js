// Has the browser keep the pages, so that they open when the server is away. Browsers do so over HTTPS or on the
// machine itself only.

/** What the page is made of, in addresses. */
function parts() {
  return [location.href, ...performance.getEntriesByType('resource').map((r) => r.name)];
}

export async function keepShell() {
  if (!('serviceWorker' in navigator)) return;
  try {
    await navigator.serviceWorker.register(new URL('sw.js', import.meta.url));
    const { active } = await navigator.serviceWorker.ready;
    active?.postMessage(parts());
  } catch {
    // storage is off, or the browser forbids it: the pages need the server
  }
}
