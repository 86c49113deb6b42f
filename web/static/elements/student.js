// Who is flying: one touch on a name, or a new name.

import { attr, h, show, text } from '../dom.js';
import { language, t } from '../pure/text.js';

const shown = 8; // names at most
const short = 8; // characters: a name up to there is never cut
const longest = 60; // characters of a name

export class WhoFlies extends HTMLElement {
  #names = h('span', { class: 'chips', role: 'group' });
  #title = h('span', { class: 'soft' });
  #form = h('form', { class: 'new-name', hidden: '' });
  #field = h('input', { type: 'text', maxlength: longest, autocomplete: 'off', spellcheck: 'false' });
  #take = h('button', { type: 'submit' });
  #new = h('button', { type: 'button', class: 'chip' });
  #drawn = '';

  connectedCallback() {
    if (this.firstChild) return;
    this.#form.append(this.#field, this.#take);
    this.append(this.#title, this.#names, this.#form);
    this.#new.addEventListener('click', () => {
      show(this.#form, true);
      this.#field.focus();
    });
    this.#form.addEventListener('submit', (e) => {
      e.preventDefault();
      const name = this.#field.value.trim();
      if (name !== '') this.#tell(name);
      this.#field.value = '';
      show(this.#form, false);
    });
    this.#field.addEventListener('keydown', (e) => {
      if (e.key !== 'Escape') return;
      show(this.#form, false);
      this.#new.focus();
    });
  }

  /** @param {string} student */
  #tell(student) {
    this.dispatchEvent(new CustomEvent('student', { detail: { student } }));
  }

  /** @param {string} student who is flying, '' when nobody said @param {readonly string[]} students the latest first */
  update(student, students) {
    const key = JSON.stringify([language(), student, students]);
    if (this.#drawn === key) return;
    this.#drawn = key;
    text(this.#title, t('Who flies'));
    attr(this.#names, 'aria-label', t('Who flies'));
    text(this.#new, t('new name'));
    text(this.#take, t('Take it'));
    attr(this.#field, 'aria-label', t('New name'));
    const names = [...new Set([...(student === '' ? [] : [student]), ...students])].slice(0, shown).sort((a, b) => a.localeCompare(b));
    this.#names.replaceChildren(...names.map((name) => {
      const chip = h('button', { type: 'button', class: name.length > short ? 'chip long' : 'chip', title: name, 'aria-pressed': String(name === student) }, name);
      chip.addEventListener('click', () => this.#tell(name === student ? '' : name));
      return chip;
    }), this.#new);
  }
}
