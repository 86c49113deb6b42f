// The point on the ground to fly about, chosen by a touch: where it is below the airplane, or off a wing. The last two
// stand, since an eight has two pylons.

/** @import { AboutChoice, Around } from '../types.d.ts' */

import { attr, h, show, text } from '../dom.js';
import { aroundWanted, foundWords } from '../pure/around.js';
import { language, t } from '../pure/text.js';

/** @type {readonly { id: string, key: string, choice: AboutChoice }[]} */
const ways = [
  { id: 'about-left', key: 'Off left wing', choice: { where: 'left' } },
  { id: 'about-here', key: 'Below', choice: { where: 'here' } },
  { id: 'about-right', key: 'Off right wing', choice: { where: 'right' } },
  { id: 'about-clear', key: 'Find it', choice: { clear: true } },
];

export class AboutPoint extends HTMLElement {
  #built = '';
  #head = h('h3');
  #words = h('p', { class: 'about-words' });
  #touch = h('div', { class: 'about-touch', role: 'group' });
  #error = h('p', { class: 'control-error', role: 'alert' });

  connectedCallback() {
    if (this.firstChild) return;
    this.append(h('div', { class: 'line-head' }, this.#head, this.#words), this.#touch, this.#error);
  }

  #build() {
    if (this.#built === language()) return;
    this.#built = language();
    attr(this.#touch, 'aria-label', t('The point to fly about'));
    this.#touch.replaceChildren(...ways.map(({ id, key, choice }) => {
      const button = h('button', { type: 'button', 'data-about': id }, t(key));
      button.addEventListener('click', () =>
        this.dispatchEvent(new CustomEvent('about', { detail: choice, bubbles: true })));
      return button;
    }));
  }

  /** @param {Around} around @param {string} error why the last touch was refused, '' when it was not */
  update(around, error) {
    this.#build();
    text(this.#head, around.what === 'pylon' ? t('Pylon') : t('Point'));
    const how = around.chosen ? t('chosen') : foundWords(around) || t('found from the flight');
    text(this.#words, [how, aroundWanted({ ...around, hold: null })].filter(Boolean).join(' · '));
    const clear = this.#touch.querySelector('[data-about="about-clear"]');
    if (clear) show(clear, around.chosen === true);
    text(this.#error, error);
  }
}
