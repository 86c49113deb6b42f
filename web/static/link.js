// The live socket: it connects, reconnects by itself after a pause, and asks for the messages it missed.

/** @import { Message } from './types.d.ts' */
/** @import { Link } from './view.d.ts' */

import { backoff } from './pure/backoff.js';
import { parse } from './pure/parse.js';

/**
 * @typedef {object} LinkHooks
 * @property {() => { seq: number, run: string }} position the last event had, and its numbering
 * @property {(message: Message) => void} message
 * @property {(link: Link) => void} link
 */

/** The server is only too busy, or wants us back at once (RFC 6455 registry, 1013). */
const tryAgain = 1013;

/** Whoever watches may not any more: the login has ended (RFC 6455, 7.4.1). */
const ended = 1008;

export class LiveLink {
  /** @type {LinkHooks} */ #hooks;
  /** @type {WebSocket | null} */ #socket = null;
  /** @type {ReturnType<typeof setTimeout> | undefined} */ #timer;
  /** What is watched, as the query says it. @type {Record<string, string>} */ #of = {};
  #failures = 0;
  #lostAt = 0;

  /** @param {LinkHooks} hooks */
  constructor(hooks) {
    this.#hooks = hooks;
  }

  /** Watches a station, '' for any. @param {string} station */
  watch(station) {
    this.#of = station === '' ? {} : { station };
    this.#start();
  }

  /** Watches all stations at once. */
  wall() {
    this.#of = { wall: '1' };
    this.#start();
  }

  #start() {
    this.#failures = 0;
    this.#drop();
    this.#open();
  }

  /** Tries at once, when the link is lost or seems dead. */
  again() {
    this.#drop();
    this.#open();
  }

  /** Stops for good. */
  close() {
    this.#drop();
  }

  #drop() {
    clearTimeout(this.#timer);
    const socket = this.#socket;
    this.#socket = null; // what it still says is not heard
    socket?.close();
  }

  #open() {
    const { seq, run } = this.#hooks.position();
    const url = new URL('live', location.href);
    url.protocol = location.protocol === 'https:' ? 'wss:' : 'ws:';
    url.search = '';
    for (const [name, value] of Object.entries(this.#of)) url.searchParams.set(name, value);
    if (run !== '') {
      url.searchParams.set('since', String(seq));
      url.searchParams.set('run', run);
    }
    if (this.#lostAt === 0) this.#tell('connecting', null, '');
    const socket = socketTo(url);
    if (socket === null) return this.#tell('none', null, '');
    this.#socket = socket;
    socket.addEventListener('open', () => {
      if (socket !== this.#socket) return;
      this.#failures = 0;
      this.#lostAt = 0;
      this.#tell('open', null, '');
    });
    socket.addEventListener('message', ({ data }) => {
      if (socket !== this.#socket) return;
      const message = parse(data);
      if (message) this.#hooks.message(message);
    });
    socket.addEventListener('close', (event) => {
      if (socket === this.#socket) this.#lost(event);
    });
  }

  /** @param {CloseEvent} event */
  #lost(event) {
    this.#socket = null;
    if (event.code === ended) return location.reload(); // which leads to where one logs in
    const wait = event.code === tryAgain ? 50 : backoff(this.#failures++, Math.random());
    if (this.#lostAt === 0) this.#lostAt = Date.now();
    this.#tell('lost', Date.now() + wait, event.reason);
    this.#timer = setTimeout(() => this.#open(), wait);
  }

  /** @param {Link['state']} state @param {number | null} retryAt @param {string} reason */
  #tell(state, retryAt, reason) {
    this.#hooks.link({ state, since: this.#lostAt || Date.now(), retryAt, reason });
  }
}

/** A socket, or null where the browser has none or lets the page open none. @param {URL} url */
function socketTo(url) {
  try {
    return new WebSocket(url);
  } catch {
    return null;
  }
}
