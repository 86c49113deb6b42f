// A name that is not in the list yet: a field that is shown on demand, and accepted or canceled.

import { attr, h, show, text } from '../dom.js';
import { kept, longestInput } from '../pure/names.js';
import { t } from '../pure/text.js';

export class NewName {
  #field = h('input', { type: 'text', maxlength: longestInput, autocomplete: 'off', spellcheck: 'false' });
  #take = h('button', { type: 'submit' });
  form = h('form', { class: 'new-name', hidden: '' }, this.#field, this.#take);

  /**
   * @param {(name: string) => void} taken called with what was written, '' for nothing
   * @param {() => void} left called when it was given up
   */
  constructor(taken, left) {
    this.form.addEventListener('submit', (e) => {
      e.preventDefault();
      const name = kept(this.#field.value);
      this.close();
      taken(name);
    });
    this.#field.addEventListener('keydown', (e) => {
      if (e.key !== 'Escape') return;
      this.close();
      left();
    });
    this.words();
  }

  /** Writes its words again, in the language of now. */
  words() {
    text(this.#take, t('Use this name'));
    attr(this.#field, 'aria-label', t('New name'));
  }

  open() {
    show(this.form, true);
    this.#field.focus();
  }

  close() {
    this.#field.value = '';
    show(this.form, false);
  }
}
