// The legs of a session at a glance, with what only a series shows.

/** @import { Verdict } from '../types.d.ts' */
/** @import { FlownLegs, FlownSheet } from '../sessions.d.ts' */

import { h } from '../dom.js';
import { number, verdictWords } from '../pure/format.js';
import { told } from '../pure/phrase.js';
import { t } from '../pure/text.js';
import { mark } from './mark.js';
import { legName } from './over.js';
import { overruledLine } from './overrule.js';

/** How a leg ended, in a word or two. @param {{ outcome: string, grade: string, verdict: Verdict }} leg */
export function wordOf(leg) {
  if (leg.outcome === 'broken-off') return t('broken off');
  if (leg.outcome === 'knock-off') return t('stopped for safety');
  return t(leg.grade || verdictWords(leg.verdict));
}

/**
 * The legs, a group per series.
 * @param {FlownLegs} all
 * @param {(leg: number) => void} open called with the number of a leg that is pressed
 */
export function legGroups(all, open) {
  /** @type {Map<number, FlownSheet[]>} */
  const series = new Map();
  for (const leg of all.legs) series.set(leg.series, [...(series.get(leg.series) ?? []), leg]);
  return [...series].map(([n, legs]) =>
    h('div', { class: 'series', role: 'group', 'aria-label': t('Series {n}', { n }) },
      h('div', { class: 'series-legs' }, ...legs.map((leg) => legButton(all, leg, open))),
      seriesLine(all, n)));
}

/** @param {FlownLegs} all @param {FlownSheet} leg @param {(leg: number) => void} open */
function legButton(all, leg, open) {
  const button = h('button', { type: 'button', class: 'leg-button', 'data-leg': leg.n },
    mark(leg.verdict),
    h('span', { class: 'leg-name' }, legName(all, leg)),
    h('span', { class: 'visually-hidden' }, wordOf(leg)),
  );
  button.addEventListener('click', () => open(leg.n));
  return button;
}

/** What the legs together come to. @param {FlownLegs} all @param {number} n */
function seriesLine(all, n) {
  const whole = all.series[n - 1];
  const own = (whole?.checks ?? []).filter((c) => c.verdict !== 'not-measured');
  // a single leg, or one broken off, is all there is to tell
  if (!whole || (own.length === 0 && !whole.missing)) return '';
  const words = [whole.grade ? t(whole.grade) : '', whole.grade ? number(whole.score) : ''].filter((w) => w !== '');
  return h('div', {}, ...overruledLine(whole), h('p', { class: 'series-line small' },
    mark(whole.verdict),
    h('span', {}, t('the series')),
    h('span', { class: 'soft' }, words.join(' ')),
    h('span', { class: 'soft' }, whole.headline ? told(whole.headline) : ''),
  ));
}
