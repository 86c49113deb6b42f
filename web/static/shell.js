// Has the browser keep the pages, so that they open when the server is away. Browsers do so over HTTPS or on the
// machine itself only.

export async function keepShell() {
  if (!('serviceWorker' in navigator)) return;
  try {
    await navigator.serviceWorker.register(new URL('sw.js', import.meta.url));
  } catch {
    // storage is off, or the browser forbids it: the pages need the server
  }
}
