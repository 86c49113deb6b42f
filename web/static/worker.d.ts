/** What a service worker has of its surroundings, as far as sw.js needs it. */
export interface Scope {
  readonly clients: { claim(): Promise<void> };
  skipWaiting(): Promise<void>;
  addEventListener(type: 'install' | 'activate', listener: (event: Lasting) => void): void;
  addEventListener(type: 'fetch', listener: (event: Asked) => void): void;
}

/** An event that may last longer than its listener. */
interface Lasting {
  waitUntil(done: Promise<unknown>): void;
}

interface Asked {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
