// The callout band: one phrase, to be read from two metres. Safety words invert it and stay.

/** @import { State } from '../view.d.ts' */

import { attr, h, s, show, text } from '../dom.js';
import { ago } from '../pure/format.js';
import { current, hint } from '../pure/mode.js';
import { inTurn } from '../pure/store.js';
import { t } from '../pure/text.js';
import { untilWords, wayBack } from '../pure/trouble.js';
import { readOf } from '../pure/voice.js';

/** How long words are news, ms. */
const fresh = 5000;

/** Longer words, as people write them, are set smaller, characters. */
const oneLine = 36;
/** The same of what must not be missed, which is larger: the first has one line at a somewhat smaller size. */
const oneLargeLine = { full: 18, less: 24 };

/** An arrow to the left. */
const arrow = 'M-38 0L-6 -24V-6H38V6H-6V24Z';

/** A hatched end, seen while the words are of safety. */
const end = () => h('span', { class: 'band-end', 'aria-hidden': 'true' });

export class CalloutBand extends HTMLElement {
  #kind = h('p', { class: 'band-kind visually-hidden' });
  #way = s('svg', { viewBox: '-40 -26 80 52', class: 'band-way', 'aria-hidden': 'true' }, s('path', { d: arrow }));
  #words = h('p', { class: 'band-words' });
  #age = h('p', { class: 'band-age' });
  #said = h('p', { class: 'visually-hidden', role: 'status' });
  #alarm = h('p', { class: 'visually-hidden', role: 'alert' });
  /** @type {object | null} */ #announced = null;

  connectedCallback() {
    attr(this.#words, 'aria-hidden', 'true'); // the live regions say it
    this.replaceChildren(this.#kind, end(), this.#way, this.#words, this.#age, end(), this.#said, this.#alarm);
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
    attr(this, 'data-long', !idle && words.length > (safety ? oneLargeLine.less : oneLine) ? '' : null);
    attr(this, 'data-wide', safety && words.length > oneLargeLine.full ? '' : null);
    const way = safety ? wayBack(safety, state.frame) : '';
    attr(this, 'data-way', way);
    const said = idle || !band ? '' : t('said {ago}', { ago: ago(age) });
    text(this.#age, safety ? t('stays {until}', { until: untilWords(safety.id) }) : said);
    text(this.#alarm, safety ? t('Safety: {words}', { words }) : '');
    if (band && band.callout !== this.#announced && band.callout.kind !== 'safety') {
      this.#announced = band.callout;
      text(this.#said, age < fresh ? readOf(band.callout) : '');
    }
  }
}
