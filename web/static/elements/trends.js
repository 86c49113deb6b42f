// How each check of a maneuver went from session to session, one of them large.

/** @import { Trend, TrendCheck } from '../sessions.d.ts' */

import { h } from '../dom.js';
import { digitsOf, number } from '../pure/format.js';
import { byMovement } from '../pure/progress.js';
import { trendWords } from '../pure/sessions.js';
import { textOf, told } from '../pure/phrase.js';
import { cardText, t } from '../pure/text.js';
import { trendPlot, trendTable } from './trend.js';

/**
 * @param {Trend | null} trend
 * @param {string} chosen the check shown large, '' for none
 * @param {(check: string) => void} choose called with the check that is pressed, '' when the large one is closed
 */
export function trends(trend, chosen, choose) {
  if (!trend || !trend.maneuver || trend.legs === 0 || trend.checks.every((c) => c.points.length === 0)) {
    return [
      h('h2', { id: 'trend-title' }, t('Trend')),
      h('p', { class: 'soft' }, t('There is no finished leg to tell a trend from.')),
    ];
  }
  const checks = trend.checks.filter((c) => c.points.length > 0);
  const large = checks.find((c) => c.id === chosen);
  const { moving, still } = byMovement(checks);
  const multiples = (/** @type {readonly TrendCheck[]} */ of) =>
    h('div', { class: 'multiples' }, ...of.map((c) => smallTrend(c, c.id === chosen, choose)));
  const legs = trend.legs === 1 ? t('one leg') : t('{n} legs', { n: number(trend.legs) });
  const latest = trend.more ? `, ${t('of the latest {n} sessions', { n: number(trend.sessions) })}` : '';
  const subject = h('span', { class: 'soft' }, ` ${cardText(trend.maneuver.title)}, ${legs}${latest}`);
  const key = t(
    'A mark is the median of a session; its bar holds the middle half of the legs, the hair all of them. ' +
      'The band is what was met in each of them.',
  );
  return [
    h('h2', { id: 'trend-title' }, t('Check by check'), subject),
    h('div', { class: 'trend-head' }, streakCard(trend), thingsCard(trend)),
    ...(large ? [largeTrend(large, choose)] : []),
    h('p', { class: 'small soft' }, key),
    ...(moving.length > 0 ? [h('h3', {}, t('Checks that changed, the most first')), multiples(moving)] : []),
    ...(still.length > 0 ? [h('h3', {}, t('Checks that stayed as they were')), multiples(still)] : []),
  ];
}

/** @param {Trend} trend */
function streakCard({ streak }) {
  return h('section', { class: 'card', 'aria-labelledby': 'streak-title' },
    h('h3', { id: 'streak-title' }, t('Legs in a row good or better')),
    h('p', { class: 'big-number' }, number(streak.now)),
    h('p', { class: 'soft small' }, t('the longest: {n}', { n: number(streak.best) })));
}

/** @param {Trend} trend */
function thingsCard({ things }) {
  const most = things[0]?.legs ?? 1;
  const rows = things.length === 0
    ? h('p', {}, t('Nothing had to be changed.'))
    : h('ol', { class: 'things' }, ...things.slice(0, 4).map((x) => thing(x, most)));
  return h('section', { class: 'card', 'aria-labelledby': 'things-title' },
    h('h3', { id: 'things-title' }, t('What needed changing most often')),
    rows);
}

/**
 * @param {Trend['things'][number]} x
 * @param {number} most the legs of the most frequent one: the rest compare with it
 */
function thing(x, most) {
  const legs = x.legs === 1 ? t('one leg') : t('{n} legs', { n: number(x.legs) });
  const bar = h('span', { class: 'share', 'aria-hidden': 'true' });
  bar.style.setProperty('--share', `${((x.legs / most) * 100).toFixed(0)}%`);
  const href = `sessions/${encodeURIComponent(x.session)}?thing=${encodeURIComponent(textOf(x.words))}`;
  const name = t('The latest leg: {thing}', { thing: told(x.words) });
  const latest = h('a', { href, 'aria-label': name }, t('latest'));
  return h('li', {},
    h('span', {}, told(x.words)),
    bar,
    h('span', { class: 'thing-legs small' }, legs, ' · ', latest));
}

/** @param {TrendCheck} c @param {boolean} pressed @param {(check: string) => void} choose */
function smallTrend(c, pressed, choose) {
  const button = h('button',
    { type: 'button', class: 'multiple', 'aria-pressed': String(pressed), 'data-check': c.id },
    h('span', { class: 'multiple-name' }, cardText(c.label)),
    trendPlot(c),
    h('span', { class: 'small soft' }, trendWords(c, digitsOf(c.unit))));
  button.addEventListener('click', () => {
    choose(pressed ? '' : c.id);
    const again = document.querySelector(`[data-check="${CSS.escape(c.id)}"]`);
    if (again instanceof HTMLElement) again.focus({ preventScroll: true });
    document.getElementById('big')?.scrollIntoView({ block: 'nearest' });
  });
  return button;
}

/** @param {TrendCheck} c @param {(check: string) => void} choose */
function largeTrend(c, choose) {
  const close = h('button', { type: 'button', id: 'big-close' }, t('Close'));
  close.addEventListener('click', () => choose(''));
  const name = t('Session by session, the latest first');
  return h('section', { class: 'card', id: 'big', 'aria-labelledby': 'big-title' },
    h('div', { class: 'big-head' }, h('h3', { id: 'big-title' }, cardText(c.label)), close),
    trendPlot(c, true),
    h('div', { class: 'scroll', tabindex: 0, role: 'group', 'aria-label': name }, trendTable(c)));
}
