// What was remarked on in a session that is replayed on the panel.

/** @import { Remark } from './sessions.d.ts' */
/** @import { State } from './view.d.ts' */

import { call } from './api.js';
import { reached } from './pure/moments.js';
import { place } from './pure/replay.js';

export class Remarked {
  #session = '';
  /** @type {readonly Remark[]} */ #all = [];

  /** The moments of the recording that are remarked on, s. @returns {number[]} */
  get places() {
    return this.#all.flatMap((r) => (r.time === null ? [] : [r.time]));
  }

  /**
   * The state with the moments that a replay has come to; any other as it is.
   * @param {State} state @param {number} now ms since 1970
   */
  follow(state, now) {
    const { replay } = state.info ?? {};
    if (replay === undefined || replay === null) return state;
    if (replay.session !== this.#session) void this.#fetch(replay.session);
    if (state.frame === null || state.trace.length === 0 || this.#all.length === 0) return state;
    const at = { time: state.frame.time, place: place(replay, (now - state.infoAt) / 1000) };
    const moments = reached(this.#all, state.trace, at);
    return moments.length === state.moments.length ? state : { ...state, moments }; // else it would move about
  }

  /** @param {string} session */
  async #fetch(session) {
    this.#session = session;
    this.#all = [];
    /** @type {Awaited<ReturnType<typeof call<{ said: Remark[] }>>>} */
    const { value } = await call(`api/sessions/${encodeURIComponent(session)}`);
    if (value !== null && this.#session === session) this.#all = value.said;
  }
}
