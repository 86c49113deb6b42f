// After a leg: the grade, the posts, the one thing to change and why, the checks worst first.

/** @import { Check, Leg, Plan } from '../types.d.ts' */
/** @import { State } from '../view.d.ts' */

import { attr, h, show, text } from '../dom.js';
import { checkNumbers } from '../pure/check.js';
import { capital, judged, number, verdictWords } from '../pure/format.js';
import { markLeg, worstFirst } from '../pure/marks.js';
import { told } from '../pure/phrase.js';
import { language, said, t } from '../pure/text.js';
import { units } from '../pure/units.js';
import { mark } from './mark.js';

/** @param {Leg['outcome']} outcome */
function ended(outcome) {
  switch (outcome) {
    case 'broken-off': return t('Broken off');
    case 'knock-off': return t('Stopped for safety');
    default: return '';
  }
}

export class Debrief extends HTMLElement {
  /** @type {Leg | null} */ #leg = null;
  #built = '';
  #head = h('h2');
  #verdict = h('p', { class: 'verdict' });
  #posts = h('ol', { class: 'verdicts' });
  #reason = h('p', { class: 'strong' });
  #change = h('p', { class: 'change' });
  #series = h('p', { class: 'series' });
  #why = h('ul', { class: 'rows causes' });
  #list = h('ul', { class: 'rows checks' });

  connectedCallback() {
    attr(this, 'role', 'region');
    attr(this, 'tabindex', 0); // it scrolls where it has little room
    this.replaceChildren(
      this.#head,
      this.#verdict,
      this.#posts,
      this.#reason,
      this.#series,
      this.#change,
      this.#why,
      this.#list,
    );
  }

  /** @param {State} state */
  update(state) {
    const leg = state.last;
    const missing = missingOf(state);
    const built = [language(), units(), missing].join();
    if (leg === null || (leg === this.#leg && built === this.#built)) return;
    this.#leg = leg;
    this.#built = built;
    attr(this, 'aria-label', t('Debrief'));
    attr(this.#list, 'aria-label', t('Checks, worst first'));
    const flown = state.lastPlan;
    text(this.#head, [
      flown ? said(flown.title) : t('Leg'),
      flown && flown.legs > 1 ? t('leg {n} of {of}', { n: leg.number, of: flown.legs }) : '',
      leg.direction === 'left' ? t('to the left') : t('to the right'),
    ].filter(Boolean).join(', '));
    const outcome = ended(leg.outcome);
    this.#verdict.replaceChildren(
      mark(leg.verdict),
      h('span', { class: 'verdict-word' },
        outcome === '' ? capital(leg.grade ? said(leg.grade) : verdictWords(leg.verdict)) : outcome,
      ),
      h('span', { class: 'score' }, judged(leg) ? t('{score} of 100', { score: number(leg.score) }) : ''),
    );
    attr(this.#posts, 'aria-label', t('Checkpoints'));
    this.#posts.replaceChildren(...posts(leg, flown));
    show(this.#posts, this.#posts.childElementCount > 0);
    show(this.#reason, leg.reason !== '');
    text(this.#reason, capital(told(leg.reason)));
    show(this.#change, leg.change !== '');
    this.#change.replaceChildren(h('span', { class: 'change-head' }, t('Change this: ')), told(leg.change));
    show(this.#series, missing !== '');
    text(this.#series, t('The series is not complete: {what}.', { what: told(missing) }));
    const causes = leg.causes ?? [];
    show(this.#why, causes.length > 0);
    this.#why.replaceChildren(...causes.slice(0, 1).map((c) => h('li', {},
      h('span', { class: 'cause' }, told(c.advice)), h('span', { class: 'cause-evidence soft' }, told(c.evidence)))));
    this.#list.replaceChildren(...worstFirst(leg.checks ?? []).map(row));
    this.scrollTop = 0;
  }
}

/** What the series of the last leg lacks, once it is over. @param {State} state */
function missingOf({ last, series }) {
  const over = series.at(-1);
  return last !== null && over?.legs?.at(-1)?.start === last.start ? over.missing ?? '' : '';
}

/** The checkpoints something was judged at, in the order of the turn. @param {Leg} leg @param {Plan | null} plan */
function posts(leg, plan) {
  const marks = markLeg(leg, plan);
  return (plan?.checkpoints ?? []).flatMap(({ turn, label }) => {
    const verdict = marks.get(turn);
    if (!verdict) return [];
    const shape = mark(verdict);
    attr(shape, 'aria-hidden', 'true'); // the word is beside it
    return [
      h('li', {},
        shape,
        h('span', {},
          h('span', { class: 'verdict-post' }, t(label)),
          ' ',
          h('span', { class: 'verdict-is' }, verdictWords(verdict)),
        ),
      ),
    ];
  });
}

/** @param {Check} check */
function row(check) {
  return h('li', {}, h('span', { class: 'row-mark' }, mark(check.verdict)),
    h('span', { class: 'row-label' }, said(check.label)),
    h('span', { class: 'row-value' }, verdictWords(check.verdict)),
    h('span', { class: 'row-want soft' },
      check.note ? `${checkNumbers(check)}. ${told(check.note)}` : checkNumbers(check),
    ),
  );
}
