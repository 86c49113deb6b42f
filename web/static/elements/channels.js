// The channels of a stream as a row of marks: one is ticked as it arrives, and what is missing is said by its cost.

/** @import { Station } from '../types.d.ts' */
/** @import { Probe } from '../setup.d.ts' */

import { attr, h, text } from '../dom.js';
import { number } from '../pure/format.js';
import { cost, ticks } from '../pure/first.js';
import { language, t } from '../pure/text.js';
import { mark } from './mark.js';

export class Channels extends HTMLElement {
  #count = h('strong');
  #of = h('span');
  #rate = h('span', { class: 'soft' });
  #list = h('ul', { class: 'ticks' });
  #head = h('strong');
  #rest = h('span', { class: 'soft' });
  #drawn = '';

  connectedCallback() {
    if (this.firstChild) return;
    this.append(
      h('p', { class: 'ticks-count' }, h('span', {}, this.#count, ' ', this.#of), this.#rate),
      this.#list,
      h('p', { class: 'ticks-cost', role: 'status' }, this.#head, ' ', this.#rest),
    );
  }

  /** @param {Station | null} info @param {Probe | null} probe */
  update(info, probe) {
    const list = ticks(info);
    text(this.#count, t('{n} of {of}', { n: list.filter((c) => c.there).length, of: list.length }));
    text(this.#of, t('channels'));
    text(this.#rate, info && info.rate > 0 ? t('{rate} a second', { rate: number(info.rate, 0) }) : '');
    const words = cost(list, probe);
    text(this.#head, words.head);
    text(this.#rest, words.rest);
    const key = language() + list.map((c) => c.title + c.there).join();
    if (this.#drawn === key) return;
    this.#drawn = key;
    this.#list.replaceChildren(...list.map((c) => {
      const shape = mark(c.there ? 'met' : 'not-measured');
      attr(shape, 'aria-hidden', 'true');
      return h('li', { 'data-there': String(c.there) }, shape, h('span', {}, c.title),
        h('span', { class: 'visually-hidden' }, c.there ? t('arrives') : t('does not arrive')));
    }));
  }
}

if (!customElements.get('ht-channels')) customElements.define('ht-channels', Channels);
