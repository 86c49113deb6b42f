// A short text to the student: typed, or a touch on one of one’s own.

import { attr, h, show, text } from '../dom.js';
import { clean, fits, keep, longest, own, tidy } from '../phrases.js';
import { language, t } from '../pure/text.js';

export class Say extends HTMLElement {
  #label = h('label', { for: 'say-words', class: 'say-label' });
  #rule = h('span', { class: 'soft small', id: 'say-rule' });
  #words = h('input', {
    id: 'say-words', type: 'text', maxlength: longest, autocomplete: 'off', 'aria-describedby': 'say-rule',
  });
  #say = h('button', { type: 'submit', class: 'main-button' });
  #keep = h('button', { type: 'button' });
  #list = h('ul', { class: 'phrases' });
  #change = h('button', { type: 'button', 'aria-pressed': 'false' });
  #all = h('button', { type: 'button', 'aria-expanded': 'false' });
  #own = h('div', { class: 'say-own' },
    h('div', { class: 'say-row' }, this.#keep, this.#list, this.#change), this.#all);
  #said = h('p', { class: 'small', role: 'status' });
  #error = h('p', { class: 'control-error', role: 'alert' });
  /** @type {string[]} */ #phrases = [];
  /** Whether the list is one's own: the usual one follows the language. */ #mine = false;
  #changing = false;
  #built = '';
  /** @type {(words: string) => Promise<string>} says it; returns why not, '' when it was said */
  onsay = async () => '';

  connectedCallback() {
    if (this.firstChild) return;
    const form = h('form', { class: 'say-form' }, this.#words, this.#say);
    this.append(
      h('div', { class: 'say-head' }, this.#label, this.#rule), form,
      this.#own, this.#said, this.#error,
    );
    new ResizeObserver(() => this.#fit()).observe(this.#own);
    form.addEventListener('submit', (e) => {
      e.preventDefault();
      void this.#tell(this.#words.value);
    });
    this.#words.addEventListener('input', () => this.#check());
    this.#keep.addEventListener('click', () => {
      this.#hold(clean([this.#words.value, ...this.#phrases]));
      this.#check();
    });
    this.#all.addEventListener('click', () => this.#open(this.#all.getAttribute('aria-expanded') !== 'true'));
    this.#change.addEventListener('click', () => {
      this.#changing = !this.#changing;
      if (this.#changing) this.#open(true);
      this.#draw();
    });
  }

  /** @param {string} name who is spoken to @param {boolean} able whether anybody can hear it */
  update(name, able) {
    const key = JSON.stringify([language(), name, able]);
    if (key === this.#built) return;
    this.#built = key;
    text(this.#label, t('Say to {name}', { name }));
    text(this.#rule, t('at most eight words, read aloud'));
    text(this.#say, t('Say'));
    this.#say.disabled = !able;
    if (!this.#mine) this.#phrases = own(t);
    this.#draw();
    this.#check();
  }

  /** Another station was opened: what was typed was for the one before. */
  clear() {
    this.#words.value = '';
    text(this.#said, '');
    text(this.#error, '');
    this.#check();
  }

  /** Shows one row of what is ready to be said, or all. @param {boolean} all */
  #open(all) {
    attr(this.#all, 'aria-expanded', String(all));
    text(this.#all, all ? t('Fewer') : t('All'));
    this.#fit();
  }

  /** Leaves out what has no room in the first row, unless all are wanted. */
  #fit() {
    const all = this.#all.getAttribute('aria-expanded') === 'true';
    const rest = [...this.#list.children, ...(this.#phrases.length > 0 ? [this.#change] : [])];
    for (const one of [...rest, this.#all]) show(one, true); // it takes of the row
    const top = (/** @type {Element} */ item) => item.getBoundingClientRect().top;
    const first = rest[0] ? top(this.#keep.hasAttribute('hidden') ? rest[0] : this.#keep) : 0;
    const below = rest.filter((one) => top(one) > first + 4);
    if (!all) for (const one of below) show(one, false);
    show(this.#all, all || below.length > 0);
  }

  #check() {
    const words = tidy(this.#words.value);
    text(this.#error, words !== '' && !fits(words) ? t('Too long to be heard in flight: at most eight words.') : '');
    text(this.#keep, t('Keep these words'));
    show(this.#keep, fits(words) && !this.#phrases.includes(words));
    text(this.#change, t('Change the list'));
    show(this.#change, this.#phrases.length > 0);
    this.#fit();
  }

  /** @param {string[]} phrases */
  #hold(phrases) {
    this.#phrases = phrases;
    this.#mine = true;
    keep(phrases);
    this.#draw();
  }

  #draw() {
    if (this.#phrases.length === 0) this.#changing = false;
    attr(this.#change, 'aria-pressed', String(this.#changing));
    attr(this.#list, 'aria-label', t('Words of one’s own'));
    this.#list.replaceChildren(...this.#phrases.map((words) => {
      const one = h('button', { type: 'button', class: 'phrase' },
        this.#changing ? t('Remove: {words}', { words }) : words);
      one.addEventListener('click', () => {
        if (this.#changing) this.#hold(this.#phrases.filter((w) => w !== words));
        else void this.#tell(words);
        this.#check();
      });
      one.disabled = this.#say.disabled && !this.#changing;
      return h('li', {}, one);
    }));
    show(this.#list, this.#phrases.length > 0);
    this.#open(this.#all.getAttribute('aria-expanded') === 'true');
  }

  /** @param {string} typed */
  async #tell(typed) {
    const words = tidy(typed);
    if (!fits(words)) return void this.#words.focus();
    const why = await this.onsay(words);
    text(this.#error, why);
    text(this.#said, why === '' ? t('Said: {words}', { words }) : '');
    if (why === '' && words === tidy(this.#words.value)) {
      this.#words.value = '';
      this.#check();
    }
  }
}

customElements.define('ht-say', Say);
