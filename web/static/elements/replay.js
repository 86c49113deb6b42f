// The controls of a replay: its position, its pace, and the way back to the debrief.

/** @import { Replaying } from '../types.d.ts' */
/** @import { State } from '../view.d.ts' */

import { post } from '../api.js';
import { attr, h, show, text } from '../dom.js';
import { place } from '../pure/replay.js';
import { minutes, number } from '../pure/format.js';
import { language, t } from '../pure/text.js';

const paces = [0.25, 0.5, 1, 1.5, 2, 4, 8];

export class ReplayBar extends HTMLElement {
  #session = '';
  #paused = false;
  #pause = h('button', { type: 'button', id: 'replay-pause' });
  #place = h('input', { type: 'range', id: 'replay-place', min: 0, max: 1, step: 0.1, list: 'replay-moments' });
  #moments = h('datalist', { id: 'replay-moments' });
  #when = h('output', { class: 'replay-when', for: 'replay-place' });
  #pace = h('select', { id: 'replay-pace' }, ...paces.map((p) => h('option', { value: p }, `${p}×`)));
  #back = h('a', { id: 'replay-back', href: './' });
  #error = h('p', { class: 'control-error', role: 'alert' });
  #paceName = h('span', { class: 'soft' });
  /** @type {string} */ #built = '';
  /** The slider is being moved. */ #held = false;
  /** @type {AbortController | null} */ #listening = null;

  connectedCallback() {
    this.replaceChildren(this.#pause, this.#place, this.#moments, this.#when,
      h('label', { class: 'field', for: 'replay-pace' }, this.#paceName, this.#pace), this.#back, this.#error);
    attr(this, 'role', 'group');
    show(this, false);
    this.#listening = new AbortController();
    const { signal } = this.#listening;
    this.#pause.addEventListener('click', () => void this.#tell({ paused: !this.#paused }), { signal });
    this.#pace.addEventListener('change', () => void this.#tell({ pace: Number(this.#pace.value) }), { signal });
    this.#place.addEventListener('input', () => {
      this.#held = true;
      text(this.#when, t('to {place}', { place: minutes(this.#place.valueAsNumber) }));
    }, { signal });
    this.#place.addEventListener('change', () => {
      this.#held = false;
      void this.#tell({ position: this.#place.valueAsNumber });
    }, { signal });
  }

  disconnectedCallback() {
    this.#listening?.abort();
  }

  /** @param {object} change */
  async #tell(change) {
    const { error } = await post(`api/replays/${encodeURIComponent(this.#session)}`, change);
    text(this.#error, error);
  }

  /** The words that stay, in the language of now. */
  #name() {
    this.#built = language();
    attr(this, 'aria-label', t('Replay'));
    attr(this.#place, 'aria-label', t('Place in the recording'));
    text(this.#back, t('Back to the debrief'));
    text(this.#paceName, t('Pace'));
    [...this.#pace.options].forEach((o) =>
      text(o, `${number(Number(o.value), Number(o.value) % 1 === 0 ? 0 : Number(o.value) % 0.5 === 0 ? 1 : 2)}×`),
    );
  }

  /** @param {State} state @param {number} now @param {readonly number[]} moments that are remarked on, s */
  update(state, now, moments) {
    const replay = state.info?.replay ?? null;
    show(this, replay !== null);
    if (!replay) return;
    if (this.#built !== language()) this.#name();
    this.#session = replay.session;
    this.#paused = replay.paused;
    text(this.#pause, replay.over ? t('Again') : replay.paused ? t('Go on') : t('Pause'));
    if (document.activeElement !== this.#pace) this.#pace.value = String(replay.pace);
    attr(this.#back, 'href', `sessions/${encodeURIComponent(replay.session)}`);
    attr(this.#place, 'max', Math.ceil(replay.duration));
    if (this.#moments.childElementCount !== moments.length) {
      this.#moments.replaceChildren(...moments.map((at) => h('option', { value: at.toFixed(1) })));
    }
    if (this.#held) return;
    this.#draw(replay, place(replay, (now - state.infoAt) / 1000));
  }

  /** @param {Replaying} replay @param {number} at */
  #draw(replay, at) {
    const rounded = at.toFixed(1);
    if (this.#place.value !== rounded) this.#place.value = rounded;
    const words = t('{place} of {length}', { place: minutes(at), length: minutes(replay.duration) });
    text(this.#when, words);
    attr(this.#place, 'aria-valuetext', words);
  }
}
