// The verdict of a leg over all else: what decided, how much was within limits, what to change, and for a leg that was
// stopped for safety, what to do about it.

/** @import { Leg, Verdict } from '../types.d.ts' */

import { h } from '../dom.js';
import { number, verdictWords } from '../pure/format.js';
import { told } from '../pure/phrase.js';
import { t } from '../pure/text.js';
import { changeLine, headOf, scoreParts } from './judged.js';
import { mark } from './mark.js';
import { explained } from './term.js';

/** What to do about what stopped a leg, by the code of its reason. @type {Record<string, string>} */
const remedies = {
  'end.stalled':
    'Lower the nose first, then level the wings, then power. Begin the next one at entry speed, pull less.',
  'end.below-deck': 'Level the wings and climb. Begin the next one higher.',
  'end.over-speed': 'Power back, level the wings, then raise the nose gently. Let the nose fall less next time.',
  'end.over-load': 'Ease the pull. Roll level before pulling out next time.',
  'end.over-bank': 'Ease the pull and roll level. Hold the bank at the limit next time.',
};

/** What to do about a leg that was stopped, '' for any other. @param {Leg} leg */
export function remedyOf(leg) {
  if (leg.outcome !== 'knock-off') return '';
  const code = typeof leg.reason === 'string' ? '' : leg.reason.code;
  return t(remedies[code] ?? 'Recover to level flight first. Then look at what led to it.');
}

/**
 * What is said of how many were within limits: "24 of 25 within limits, 1 not measured". As in the headline, a check
 * without weight counts nothing.
 * @param {Leg} leg
 */
export function withinWords(leg) {
  const checks = (leg.checks ?? []).filter((c) => c.weight > 0);
  const count = (/** @type {Verdict} */ v) => checks.filter((c) => c.verdict === v).length;
  const blank = count('not-measured');
  const of = checks.length - blank;
  if (of === 0) return '';
  const words = t('{met} of {of} within limits', { met: number(count('met')), of: number(of) });
  return blank === 0 ? words : `${words}, ${number(blank)} ${verdictWords('not-measured')}`;
}

/**
 * The headline without what stands beside it in figures: how many were within limits, and how many were not measured.
 * @param {Leg} leg
 */
export function shortHead(leg) {
  let head = leg.headline;
  if (!head || withinWords(leg) === '') return headOf(leg);
  if (typeof head !== 'string' && head.code === 'head.unmeasured') {
    const measured = head.args?.['headline'];
    head = (Array.isArray(measured) && measured[0]) || head;
  }
  const whole = told(head);
  const within = typeof head === 'string' ? null : head.args?.['within'];
  if (!Array.isArray(within)) return whole;
  const said = within.map(told).join(', ');
  return whole.endsWith(`; ${said}`) ? whole.slice(0, -said.length - 2) : whole;
}

/** @param {Leg} leg */
export function headline(leg) {
  const remedy = remedyOf(leg);
  const words = shortHead(leg);
  return [
    h('p', { class: 'verdict' }, mark(leg.verdict),
      h('span', { class: `verdict-word${sizeOf(words)}` }, ...explained(words))),
    h('div', { class: 'verdict-why' },
      ...(remedy === '' ? [] : [h('p', { class: 'remedy' }, ...explained(remedy))]),
      h('p', { class: 'verdict-within' }, ...factsOf(leg)),
      ...(leg.another ? [] : [changeLine(leg)])),
  ];
}

/** How much room a headline takes. @param {string} words */
function sizeOf(words) {
  return words.length > 30 ? ' longer' : words.length > 18 ? ' long' : '';
}

/** The count, then grade and score. @param {Leg} leg */
function factsOf(leg) {
  const within = withinWords(leg);
  const score = scoreParts(leg);
  return [within, within !== '' && score.length > 0 ? ' · ' : '', ...score];
}

