// The buttons that choose the lanes of a debrief.

/** @import { Kind } from '../pure/lanes.js' */

import { attr, h, text } from '../dom.js';
import { most, pressed } from '../pure/lanes.js';
import { number } from '../pure/format.js';
import { t } from '../pure/text.js';

export class LaneButtons extends HTMLElement {
  /** In the order chosen. @type {string[]} */ #chosen = [];
  #buttons = h('div', { class: 'lane-row' });
  #count = h('span', { class: 'visually-hidden', role: 'status' });

  connectedCallback() {
    if (this.firstChild) return;
    attr(this, 'role', 'group');
    attr(this, 'aria-label', t('Lanes, at most {n} at a time', { n: number(most) }));
    this.append(h('span', { class: 'lanes-name soft', 'aria-hidden': 'true' }, t('Lanes')), this.#buttons, this.#count);
  }

  /** @param {readonly Kind[]} there @param {readonly string[]} chosen */
  update(there, chosen) {
    this.#chosen = [...chosen];
    this.#buttons.replaceChildren(...there.map((kind) => {
      const button = h('button', { type: 'button', 'data-lane': kind.id }, t(kind.title));
      button.addEventListener('click', () => {
        this.#chosen = pressed(this.#chosen, kind.id);
        this.#mark();
        text(this.#count, t('{n} lanes shown', { n: number(this.#chosen.length) }));
        this.dispatchEvent(new CustomEvent('lanes', { detail: this.#chosen }));
      });
      return button;
    }));
    this.#mark();
  }

  #mark() {
    for (const b of this.#buttons.querySelectorAll('button')) {
      attr(b, 'aria-pressed', String(this.#chosen.includes(b.dataset['lane'] ?? '')));
    }
  }
}
