// The checkpoints of the maneuver, before the first leg.

/** @import { Plan } from '../types.d.ts' */
/** @import { State } from '../view.d.ts' */

import { h } from '../dom.js';

export class Brief extends HTMLElement {
  /** @type {Plan | null} */ #plan = null;
  #list = h('ol', { class: 'rows posts' });

  connectedCallback() {
    this.replaceChildren(h('h2', {}, 'The turn'),
      h('div', { class: 'scroller', tabindex: 0, role: 'region', 'aria-label': 'Checkpoints' }, this.#list));
  }

  /** @param {State} state */
  update(state) {
    const { plan } = state;
    if (plan === this.#plan) return;
    this.#plan = plan;
    this.#list.replaceChildren(...(plan?.checkpoints ?? []).map((c) => h('li', {},
      h('span', { class: 'post-label' }, c.label),
      h('span', { class: 'row-label' }, c.words),
      h('span', { class: 'row-want soft' }, c.want))));
  }
}
