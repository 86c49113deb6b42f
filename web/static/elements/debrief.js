// After a leg: the grade, the one thing to change and why, the checks worst first.

/** @import { Check, Leg } from '../types.d.ts' */
/** @import { State } from '../view.d.ts' */

import { h, show, text } from '../dom.js';
import { checkNumbers, number, verdictWords } from '../pure/format.js';
import { worstFirst } from '../pure/marks.js';
import { mark } from './mark.js';

/** @type {Record<Leg['outcome'], string>} */
const outcomes = { finished: '', 'broken-off': 'Broken off', 'knock-off': 'Stopped for safety' };

export class Debrief extends HTMLElement {
  /** @type {Leg | null} */ #leg = null;
  #head = h('h2');
  #verdict = h('p', { class: 'verdict' });
  #reason = h('p', { class: 'strong' });
  #change = h('p', { class: 'change' });
  #why = h('ul', { class: 'rows causes' });
  #list = h('ul', { class: 'rows checks', tabindex: 0, 'aria-label': 'Checks, worst first' });

  connectedCallback() {
    this.replaceChildren(this.#head, this.#verdict, this.#reason, this.#change, this.#why, this.#list);
  }

  /** @param {State} state */
  update(state) {
    const leg = state.last;
    if (leg === this.#leg || leg === null) return;
    this.#leg = leg;
    const flown = state.lastPlan;
    const of = flown && flown.legs > 1 ? `, leg ${leg.number} of ${flown.legs}` : '';
    text(this.#head, `${flown?.title ?? 'Leg'}${of}, to the ${leg.direction}`);
    const outcome = outcomes[leg.outcome];
    this.#verdict.replaceChildren(mark(leg.verdict),
      h('span', { class: 'verdict-word' }, outcome === '' ? capital(leg.grade || verdictWords(leg.verdict)) : outcome),
      h('span', { class: 'score' }, leg.outcome === 'finished' ? `${number(leg.score)} of 100` : ''));
    show(this.#reason, leg.reason !== '');
    text(this.#reason, capital(leg.reason));
    show(this.#change, leg.change !== '');
    this.#change.replaceChildren(h('span', { class: 'change-head' }, 'Change this: '), leg.change);
    const causes = leg.causes ?? [];
    show(this.#why, causes.length > 0);
    this.#why.replaceChildren(...causes.slice(0, 2).map((c) => h('li', {},
      h('span', { class: 'cause' }, c.advice), h('span', { class: 'cause-evidence soft' }, c.evidence))));
    this.#list.replaceChildren(...worstFirst(leg.checks ?? []).map(row));
    this.#list.scrollTop = 0;
  }
}

/** @param {Check} check */
function row(check) {
  return h('li', {}, h('span', { class: 'row-mark' }, mark(check.verdict)),
    h('span', { class: 'row-label' }, check.label),
    h('span', { class: 'row-value' }, verdictWords(check.verdict)),
    h('span', { class: 'row-want soft' }, check.note ? `${checkNumbers(check)}. ${check.note}` : checkNumbers(check)));
}

/** @param {string} words */
function capital(words) {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
