// The checks of a leg, worst first; those that were met are folded away once there are enough.

/** @import { Check } from '../types.d.ts' */

import { h } from '../dom.js';
import { bandWords } from '../pure/check.js';
import { capital, digitsOf, number, verdictWords, withUnit } from '../pure/format.js';
import { told } from '../pure/phrase.js';
import { cardText, t } from '../pure/text.js';
import { mark } from './mark.js';
import { overruledWords } from './overrule.js';
import { term } from './term.js';

/** How many rows stand open; more where more were not met. */
const open = 7;

/** @type {readonly import('../types.d.ts').Verdict[]} */
const order = ['missed', 'near', 'not-measured', 'met'];

/**
 * Missed, near, not measured, met; among equals the heavier first, then as they came.
 * @param {readonly Check[]} checks
 */
export function byWorst(checks) {
  return [...checks].sort((a, b) => order.indexOf(a.verdict) - order.indexOf(b.verdict) || b.weight - a.weight);
}

/** @param {readonly Check[]} all of a leg, or of a series */
export function checkList(all) {
  const checks = byWorst(all);
  if (checks.length === 0) return h('p', { class: 'soft' }, t('Nothing was judged in this leg.'));
  const bad = checks.filter((c) => c.verdict === 'missed' || c.verdict === 'near').length;
  const blank = checks.filter((c) => c.verdict === 'not-measured');
  const met = checks.filter((c) => c.verdict === 'met');
  const shown = [...checks.slice(0, bad), ...blank.slice(0, Math.max(1, open - bad - 3))];
  const firstMet = met.slice(0, Math.max(0, open - shown.length));
  const isFirst = (/** @type {Check} */ c) => checks.find((x) => x.verdict === c.verdict) === c;
  const list = (/** @type {readonly Check[]} */ some) =>
    h('ul', { class: 'rows checklist' }, ...some.map((c) => row(c, isFirst(c))));
  const rest = [...blank.filter((c) => !shown.includes(c)), ...met.slice(firstMet.length)];
  return h('div', {}, list([...shown, ...firstMet]),
    ...(rest.length === 0 ? [] : [h('details', { class: 'more-checks' },
      h('summary', {}, restWords(rest)), list(rest))]));
}

/** "19 more, all met". @param {readonly Check[]} rest */
function restWords(rest) {
  const met = rest.filter((c) => c.verdict === 'met').length;
  const n = number(rest.length);
  if (met === rest.length) return t('{n} more, all met', { n });
  if (met === 0) return t('{n} more, not measured', { n });
  return t('{n} more: {met} met, {blank} not measured', { n, met: number(met), blank: number(rest.length - met) });
}

/** @param {Check} c @param {boolean} first of its verdict: there the word explains itself */
function row(c, first) {
  const digits = digitsOf(c.unit);
  const band = bandWords(c.met, c.unit, digits);
  const measured = c.value !== null && c.verdict !== 'not-measured';
  const figures = measured
    ? [withUnit(c.value ?? 0, c.unit, digits) + (band === '' ? '' : ` · ${band}`)]
    : [];
  const more = measured ? (c.verdict === 'met' ? [] : [c.words, c.note ?? '']) : [c.reason ?? ''];
  const said = more.filter((w) => w !== '').map((w) => capital(told(w))).join('. ');
  const is = verdictWords(c.verdict);
  const over = overruledWords(c);
  return h('li', { 'data-verdict': c.verdict },
    h('span', { class: 'check-mark', 'aria-hidden': 'true' }, mark(c.verdict)),
    h('span', { class: 'check-name' }, cardText(c.label)),
    h('span', { class: 'check-figures' }, ...figures),
    h('span', { class: 'check-verdict' }, first && c.verdict !== 'not-measured' ? term(c.verdict, is) : is),
    ...(said === '' ? [] : [h('span', { class: 'check-said small soft' }, said)]),
    ...(over === '' ? [] : [h('span', { class: 'check-overruled small' }, capital(over))]),
    h('button', { type: 'button', class: 'overrule-check', 'data-check': c.id }, t('Overrule')));
}
