// The callout band: one phrase, to be read from two metres. Safety words invert it and stay.

/** @import { State } from '../view.d.ts' */

import { attr, h, show, text } from '../dom.js';
import { ago } from '../pure/format.js';
import { current, hint } from '../pure/mode.js';
import { inTurn } from '../pure/store.js';
import { t } from '../pure/text.js';
import { readOf } from '../pure/voice.js';

/** How long words are news, ms. */
const fresh = 5000;

export class CalloutBand extends HTMLElement {
  #kind = h('p', { class: 'band-kind' });
  #words = h('p', { class: 'band-words' });
  #age = h('p', { class: 'band-age' });
  #said = h('p', { class: 'visually-hidden', role: 'status' });
  #alarm = h('p', { class: 'visually-hidden', role: 'alert' });
  /** @type {object | null} */ #announced = null;

  connectedCallback() {
    attr(this.#words, 'aria-hidden', 'true'); // the live regions say it
    this.replaceChildren(this.#kind, this.#words, this.#age, this.#said, this.#alarm);
  }

  /** @param {State} state @param {number} now ms since 1970 */
  update(state, now) {
    const safety = state.safety.at(-1) ?? null;
    const band = state.band;
    const words = safety ? readOf(safety) : band ? readOf(band.callout) : '';
    const age = band ? now - band.at : Infinity;
    // old words would pass for words of now
    const cut = state.frame !== null && inTurn(state.frame) && !current(state, now);
    const news = safety !== null || age < fresh;
    // said before this leg
    const past = state.frame?.state !== 'leg' || (band?.callout.time ?? 0) < (state.trace[0]?.time ?? -Infinity);
    const idle = words === '' || cut || (!news && past);
    text(this.#kind, t('Safety'));
    show(this.#kind, safety !== null);
    attr(this, 'data-kind', safety ? 'safety' : cut ? 'cut' : idle ? 'idle' : news ? 'news' : 'old');
    text(this.#words, idle && !safety ? hint(state, now) : words);
    text(this.#age, safety ? t('until it is over') : idle || !band ? '' : t('said {ago}', { ago: ago(age) }));
    text(this.#alarm, safety ? t('Safety: {words}', { words }) : '');
    if (band && band.callout !== this.#announced && band.callout.kind !== 'safety') {
      this.#announced = band.callout;
      text(this.#said, age < fresh ? readOf(band.callout) : '');
    }
  }
}
