// The set-up: what is wanted before a leg, and what is.

/** @import { Gate, Phrase } from '../types.d.ts' */
/** @import { State } from '../view.d.ts' */

import { attr, h, show, text } from '../dom.js';
import { gateValue } from '../pure/format.js';
import { current, hint } from '../pure/mode.js';
import { holding, order, readyWords } from '../pure/order.js';
import { sentence, told } from '../pure/phrase.js';
import { t } from '../pure/text.js';
import { AboutPoint } from './about.js';
import { LineChoice } from './line.js';
import { mark } from './mark.js';
import { explain, term } from './term.js';

if (!customElements.get('ht-about')) customElements.define('ht-about', AboutPoint);
if (!customElements.get('ht-line')) customElements.define('ht-line', LineChoice);

/**
 * @typedef {{ row: HTMLElement, mark: HTMLElement, label: HTMLElement, value: HTMLElement, want: HTMLElement,
 *   state: string }} Row
 */

export class Gates extends HTMLElement {
  #head = h('h2');
  #ready = h('p', { class: 'ready' });
  #well = mark('met');
  #readyWords = h('span');
  #order = h('p', { class: 'order' });
  #auto = h('p', { class: 'soft small' });
  #warnings = h('div', { class: 'warnings small' });
  #warned = '';
  #list = h('ul', { class: 'rows' });
  /** @type {Map<string, Row>} */ #rows = new Map();

  #line = /** @type {LineChoice} */ (document.createElement('ht-line'));
  #about = /** @type {AboutPoint} */ (document.createElement('ht-about'));

  connectedCallback() {
    if (this.firstChild) return;
    attr(this.#well, 'aria-hidden', 'true');
    this.#ready.append(this.#well, this.#readyWords);
    this.append(h('div', { class: 'head-row' }, this.#head, this.#ready), this.#order, this.#auto, this.#warnings,
      this.#list, this.#about, this.#line);
  }

  /**
   * @param {State} state
   * @param {string} error why the last choice of a line was refused, '' when it was not
   * @param {number} now ms since 1970
   */
  update(state, error, now) {
    const gates = state.frame?.gates ?? [];
    const here = current(state, now); // of old values nobody is ready
    const ready = here && (state.frame?.ready ?? false);
    const holds = here && !ready ? holding(gates) : null;
    if (this.#head.textContent !== t('Before the leg') && !this.#head.querySelector(':popover-open')) {
      this.#head.replaceChildren(term('gate', t('Before the leg'), true));
    }
    attr(this, 'data-ready', String(ready));
    show(this.#well, ready);
    attr(this, 'data-old', String(!here));
    text(this.#readyWords, here ? readyWords(gates, ready) : hint(state, now));
    text(this.#order, holds ? order(holds) : '');
    show(this.#order, holds !== null);
    const brief = state.last !== null; // after a leg there is room for what is amiss only
    text(
      this.#auto,
      state.info?.auto && !brief
        ? t('Fly any maneuver; each leg counts for the one it fits. Cues begin when that is clear.')
        : '',
    );
    show(this.#auto, this.#auto.textContent !== '');
    this.#warn(state.info?.auto ? [] : (state.plan?.warnings ?? []));
    for (const [id, row] of this.#rows) {
      if (!gates.some((g) => g.id === id)) {
        row.row.remove();
        this.#rows.delete(id);
      }
    }
    for (const gate of gates) this.#draw(gate, brief);
    show(this.#list, !brief || gates.some((g) => !g.ok));
    show(this, gates.length > 0);
    const { around = null } = state.frame ?? {};
    show(this.#about, state.info?.link === 'live' && around !== null);
    if (around) this.#about.update(around, error);
    show(this.#line, state.info?.link === 'live' && around === null);
    if (state.frame) this.#line.update(state.frame, { brief, error });
  }

  /** What the maneuver asks for and the aircraft may not do. @param {readonly Phrase[]} warnings */
  #warn(warnings) {
    const words = warnings.map(sentence);
    if (words.join('\n') === this.#warned) return;
    this.#warned = words.join('\n');
    this.#warnings.replaceChildren(...words.map((w) => h('p', { class: 'warning' }, w)));
  }

  /** @param {Gate} gate @param {boolean} brief */
  #draw(gate, brief) {
    const row = this.#rows.get(gate.id) ?? this.#add(gate.id);
    const state =
      gate.value === null && gate.unit !== '' ? 'not-measured' : gate.ok ? 'met' : gate.optional ? 'near' : 'missed';
    if (row.state !== state) {
      row.state = state;
      row.mark.replaceChildren(mark(/** @type {import('../types.d.ts').Verdict} */ (state)));
      attr(row.row, 'data-ok', String(gate.ok));
    }
    explain(row.label, told(gate.label));
    text(row.value, gateValue(gate));
    text(row.want, gate.optional ? `${told(gate.want)} · ${t('advised')}` : told(gate.want));
    show(row.row, !brief || !gate.ok);
  }

  /** @param {string} id @returns {Row} */
  #add(id) {
    const row = {
      row: h('li'), mark: h('span', { class: 'row-mark' }), label: h('span', { class: 'row-label' }),
      value: h('span', { class: 'row-value' }), want: h('span', { class: 'row-want soft' }), state: '',
    };
    row.row.append(row.mark, h('span', { class: 'gate-words' }, row.label, ' ', row.want), row.value);
    this.#list.append(row.row);
    this.#rows.set(id, row);
    return row;
  }
}
