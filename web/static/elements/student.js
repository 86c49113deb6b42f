// Who is flying: one touch on a name, or a new name.

import { attr, h, text } from '../dom.js';
import { language, t } from '../pure/text.js';
import { NewName } from './newname.js';

const shown = 8; // names at most
const short = 8; // characters: a name up to there is never cut

export class WhoFlies extends HTMLElement {
  #names = h('span', { class: 'chips', role: 'group' });
  #title = h('span', { class: 'soft' });
  #new = h('button', { type: 'button', class: 'chip' });
  #name = new NewName((name) => {
    if (name !== '') this.#tell(name);
  }, () => this.#new.focus());
  #drawn = '';

  connectedCallback() {
    if (this.firstChild) return;
    this.append(this.#title, this.#names, this.#name.form);
    this.#new.addEventListener('click', () => this.#name.open());
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
    this.#name.words();
    const names = [...new Set([...(student === '' ? [] : [student]), ...students])]
      .slice(0, shown)
      .sort((a, b) => a.localeCompare(b));
    this.#names.replaceChildren(
      ...names.map((name) => {
        const chip = h(
          'button',
          {
            type: 'button',
            class: name.length > short ? 'chip long' : 'chip',
            title: name,
            'aria-pressed': String(name === student),
          },
          name,
        );
        chip.addEventListener('click', () => this.#tell(name === student ? '' : name));
        return chip;
      }),
      this.#new,
    );
  }
}
