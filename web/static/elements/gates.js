// The set-up: what is wanted before a leg, and what is.

/** @import { Gate } from '../types.d.ts' */
/** @import { State } from '../view.d.ts' */

import { attr, h, show, text } from '../dom.js';
import { gateValue } from '../pure/format.js';
import { said, t } from '../pure/text.js';
import { mark } from './mark.js';

/** @typedef {{ row: HTMLElement, mark: HTMLElement, label: HTMLElement, value: HTMLElement, want: HTMLElement, state: string }} Row */

export class Gates extends HTMLElement {
  #head = h('h2');
  #ready = h('p', { class: 'ready strong' });
  #list = h('ul', { class: 'rows' });
  /** @type {Map<string, Row>} */ #rows = new Map();

  connectedCallback() {
    this.replaceChildren(h('div', { class: 'head-row' }, this.#head, this.#ready), this.#list);
  }

  /** @param {State} state */
  update(state) {
    const gates = state.frame?.gates ?? [];
    text(this.#head, t('Set-up'));
    text(this.#ready, gates.length === 0 ? '' : state.frame?.ready ? t('Ready') : t('Not ready'));
    const brief = state.last !== null; // after a leg there is room for what is amiss only
    for (const [id, row] of this.#rows) {
      if (!gates.some((g) => g.id === id)) {
        row.row.remove();
        this.#rows.delete(id);
      }
    }
    for (const gate of gates) this.#draw(gate, brief);
    show(this.#list, !brief || gates.some((g) => !g.ok));
    show(this, gates.length > 0);
  }

  /** @param {Gate} gate @param {boolean} brief */
  #draw(gate, brief) {
    const row = this.#rows.get(gate.id) ?? this.#add(gate.id);
    const state = gate.ok ? (gate.value === null && gate.unit !== '' ? 'not-measured' : 'met') : 'missed';
    if (row.state !== state) {
      row.state = state;
      row.mark.replaceChildren(mark(/** @type {import('../types.d.ts').Verdict} */ (state)));
      attr(row.row, 'data-ok', String(gate.ok));
    }
    text(row.label, said(gate.label));
    text(row.value, gateValue(gate));
    text(row.want, said(gate.want));
    show(row.row, !brief || !gate.ok);
  }

  /** @param {string} id @returns {Row} */
  #add(id) {
    const row = {
      row: h('li'), mark: h('span', { class: 'row-mark' }), label: h('span', { class: 'row-label' }),
      value: h('span', { class: 'row-value' }), want: h('span', { class: 'row-want soft' }), state: '',
    };
    row.row.append(row.mark, row.label, row.value, row.want);
    this.#list.append(row.row);
    this.#rows.set(id, row);
    return row;
  }
}
