// What is flown, and how the stream stands.

/** @import { State } from '../view.d.ts' */

import { attr, h, text } from '../dom.js';
import { actedWords, watchingWords } from '../pure/company.js';
import { stationWords } from '../pure/format.js';
import { current, linkWords, subtitle, unclear } from '../pure/mode.js';
import { inTurn } from '../pure/store.js';
import { cardText, t } from '../pure/text.js';

/** A longer name leaves no room for the side beside it; then that stands in the line below. */
const longName = 14;

/** A line that breaks does not begin with the dot between two parts. @param {string} words */
function together(words) {
  return words.replaceAll(' · ', '\u00a0· ');
}

export class FlightTitle extends HTMLElement {
  #name = h('span', { class: 'title-name' }, 'Halfturn');
  #side = h('span', { class: 'title-side soft' });
  #sub = h('p', { class: 'soft subtitle' });

  connectedCallback() {
    this.replaceChildren(h('h1', {}, this.#name, ' ', this.#side), this.#sub);
  }

  /** @param {State} state */
  update(state) {
    const name = unclear(state) ? t('Whichever is flown') : cardText(state.plan?.title ?? 'Halfturn');
    text(this.#name, name);
    const { frame } = state;
    const side =
      frame && inTurn(frame) && frame.direction
        ? frame.direction === 'left'
          ? t('to the left')
          : t('to the right')
        : '';
    const below = name.length > longName;
    text(this.#side, state.plan ? (below ? '' : side) : t('three choices, then fly'));
    text(
      this.#sub,
      state.plan
        ? together([below ? side : '', subtitle(state)].filter(Boolean).join(' · '))
        : t('a live coach for maneuvers that reverse course'),
    );
  }
}

export class LinkStatus extends HTMLElement {
  #name = h('p', { class: 'station-name' });
  #words = h('p', { class: 'soft link-words' });

  connectedCallback() {
    this.replaceChildren(this.#name, this.#words);
  }

  /** @param {State} state @param {number} now */
  update(state, now) {
    const aside = state.info?.demonstration ? t('Demonstration') : state.info?.link === 'replaying' ? t('Replay') : '';
    const station = stationWords(state.info?.name ?? state.station);
    const student = state.info?.student ?? '';
    text(this.#name, aside || [student, station].filter(Boolean).join(', '));
    const others = [actedWords(state, now), watchingWords(state)];
    text(this.#words, [together(linkWords(state, now)), ...others].filter((w) => w !== '').join(' · '));
    attr(this, 'data-well', String(current(state, now)));
  }
}
