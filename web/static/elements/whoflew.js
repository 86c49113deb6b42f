// Who flew a session: one of the names there are, nobody named, or a new name.

import { h } from '../dom.js';
import { t } from '../pure/text.js';
import { NewName } from './newname.js';

const unknown = '\n'; // no name holds a line's end: the choice that asks for a new one

export class WhoFlew extends HTMLElement {
  #choice = h('select', { id: 'student' });
  #name = new NewName((name) => {
    this.#choice.value = this.#student;
    if (name !== '') this.#tell(name);
  }, () => {
    this.#choice.value = this.#student;
    this.#choice.focus();
  });
  #student = '';

  connectedCallback() {
    if (this.firstChild) return;
    this.append(
      h('label', { class: 'field', for: 'student' }, h('span', { class: 'soft' }, t('Student')), this.#choice),
      this.#name.form,
    );
    this.#choice.addEventListener('change', () => {
      const name = this.#choice.value;
      if (name === unknown) return this.#name.open();
      this.#name.close();
      this.#tell(name);
    });
  }

  /** @param {string} student */
  #tell(student) {
    this.dispatchEvent(new CustomEvent('student', { detail: { student } }));
  }

  /** @param {string} student who flew, '' when nobody said @param {readonly string[]} students */
  update(student, students) {
    this.#student = student;
    const names = [...new Set([...(student === '' ? [] : [student]), ...students])].sort((a, b) =>
      a.localeCompare(b),
    );
    this.#choice.replaceChildren(
      h('option', { value: '' }, t('not named')),
      ...names.map((name) => h('option', { value: name }, name)),
      h('option', { value: unknown }, t('a new name …')),
    );
    this.#choice.value = student;
  }
}
