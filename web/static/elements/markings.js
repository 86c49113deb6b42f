// Marks the moment; what it was can be written now or later.

import { h, text } from '../dom.js';
import { clock } from '../pure/format.js';
import { language, t } from '../pure/text.js';

/** @typedef {{ id: string, at: number, words: string, session: string }} Moment at is ms since 1970 */

/** The moments shown, the latest. */
const shown = 3;

export class Markings extends HTMLElement {
  #mark = h('button', { type: 'button', class: 'wide-button', id: 'mark-moment' });
  #list = h('ol', { class: 'markings' });
  #error = h('p', { class: 'control-error', role: 'alert' });
  /** @type {Moment[]} */ #moments = [];
  #built = '';
  /** @type {() => Promise<Moment | string>} marks it; a string is why not */
  onmark = async () => '';
  /** @type {(moment: Moment, words: string) => Promise<string>} writes what it was; returns why not, or '' */
  onwrite = async () => '';

  connectedCallback() {
    if (this.firstChild) return;
    this.append(h('div', { class: 'markings-row' }, this.#mark, this.#list), this.#error);
    this.#mark.addEventListener('click', async () => {
      const got = await this.onmark();
      text(this.#error, typeof got === 'string' ? got : '');
      if (typeof got === 'string') return;
      this.#moments = [got, ...this.#moments].slice(0, shown);
      this.#draw();
    });
  }

  /** @param {boolean} able whether there is anything to mark */
  update(able) {
    this.#mark.disabled = !able;
    if (this.#built === language()) return;
    this.#built = language();
    text(this.#mark, t('Mark the moment'));
    this.#draw();
  }

  /** Another station was opened. */
  clear() {
    this.#moments = [];
    text(this.#error, '');
    this.#draw();
  }

  #draw() {
    this.#list.replaceChildren(...this.#moments.map((m) => {
      const time = h('span', { class: 'marking-time' }, clock(m.at));
      if (m.words !== '') return h('li', {}, time, ' ', m.words);
      const words = h('input', {
        type: 'text', maxlength: 200, autocomplete: 'off', placeholder: t('what it was'),
        'aria-label': t('What it was at {time}', { time: clock(m.at) }),
      });
      const form = h('form', { class: 'marking-form' }, time, words, h('button', { type: 'submit' }, t('Write')));
      form.addEventListener('submit', (e) => {
        e.preventDefault();
        void this.#write(m, words.value.trim());
      });
      return h('li', {}, form);
    }));
  }

  /** @param {Moment} moment @param {string} words */
  async #write(moment, words) {
    if (words === '') return;
    const why = await this.onwrite(moment, words);
    text(this.#error, why);
    if (why !== '') return;
    this.#moments = this.#moments.map((m) => (m === moment ? { ...m, words } : m));
    this.#draw();
  }
}

customElements.define('ht-markings', Markings);
