// The checkpoints of the maneuver, before the first leg.

/** @import { Plan } from '../types.d.ts' */
/** @import { State } from '../view.d.ts' */

import { attr, h, show, text } from '../dom.js';
import { briefOf } from '../pure/path.js';
import { told } from '../pure/phrase.js';
import { cardText, language, t } from '../pure/text.js';
import { units } from '../pure/units.js';

export class Brief extends HTMLElement {
  /** @type {Plan | null} */ #plan = null;
  #built = '';
  #head = h('h2');
  #more = h('a', { class: 'to-brief', href: 'brief' });
  #list = h('ol', { class: 'rows posts' });
  #scroller = h('div', { class: 'scroller', tabindex: 0, role: 'region' }, this.#list);

  connectedCallback() {
    this.replaceChildren(this.#head, this.#scroller, this.#more);
  }

  /** @param {State} state */
  update(state) {
    const { plan } = state;
    show(this, !state.info?.auto); // which turn it will be is not known
    attr(this.#more, 'href', `brief?${briefOf(state)}`);
    const built = language() + units();
    if (plan === this.#plan && built === this.#built) return;
    this.#plan = plan;
    this.#built = built;
    text(this.#head, t('The turn'));
    text(this.#more, t('All the numbers, and what to expect'));
    attr(this.#scroller, 'aria-label', t('Checkpoints'));
    this.#list.replaceChildren(...(plan?.checkpoints ?? []).map((c) => h('li', {},
      h('span', { class: 'post-label' }, t(c.label)),
      h('span', { class: 'row-label' }, cardText(c.words)),
      h('span', { class: 'row-want soft' }, told(c.want)))));
  }
}
