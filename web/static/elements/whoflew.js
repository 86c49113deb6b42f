// Who flew a session: one of the names there are, nobody named, or a new name.

import { attr, h, show } from '../dom.js';
import { t } from '../pure/text.js';

const longest = 60; // characters of a name
const unknown = '\n'; // no name holds a line's end: the choice that asks for a new one

export class WhoFlew extends HTMLElement {
  #choice = h('select', { id: 'student' });
  #form = h('form', { class: 'new-name', hidden: '' });
  #field = h('input', { type: 'text', maxlength: longest, autocomplete: 'off', spellcheck: 'false' });
  #student = '';

  connectedCallback() {
    if (this.firstChild) return;
    attr(this.#field, 'aria-label', t('New name'));
    this.#form.append(this.#field, h('button', { type: 'submit' }, t('Take it')));
    this.append(h('label', { class: 'field', for: 'student' }, h('span', { class: 'soft' }, t('Student')), this.#choice), this.#form);
    this.#choice.addEventListener('change', () => {
      const name = this.#choice.value;
      show(this.#form, name === unknown);
      if (name === unknown) this.#field.focus();
      else this.#tell(name);
    });
    this.#form.addEventListener('submit', (e) => {
      e.preventDefault();
      const name = this.#field.value.trim();
      this.#done();
      if (name !== '') this.#tell(name);
    });
    this.#field.addEventListener('keydown', (e) => {
      if (e.key !== 'Escape') return;
      this.#done();
      this.#choice.focus();
    });
  }

  #done() {
    this.#field.value = '';
    this.#choice.value = this.#student;
    show(this.#form, false);
  }

  /** @param {string} student */
  #tell(student) {
    this.dispatchEvent(new CustomEvent('student', { detail: { student } }));
  }

  /** @param {string} student who flew, '' when nobody said @param {readonly string[]} students */
  update(student, students) {
    this.#student = student;
    const names = [...new Set([...(student === '' ? [] : [student]), ...students])].sort((a, b) => a.localeCompare(b));
    this.#choice.replaceChildren(h('option', { value: '' }, t('not named')), ...names.map((name) => h('option', { value: name }, name)), h('option', { value: unknown }, t('a new name …')));
    this.#choice.value = student;
  }
}
