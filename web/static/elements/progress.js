// "How am I doing": one curve for each maneuver, with the word for where it goes.

/** @import { Trend } from '../sessions.d.ts' */
/** @import { Progress } from '../pure/progress.js' */

import { h, s } from '../dom.js';
import { number } from '../pure/format.js';
import { fewest, progressOf } from '../pure/progress.js';
import { dayShort } from '../pure/sessions.js';
import { cardText, t } from '../pure/text.js';

const box = { w: 300, h: 132, left: 44, right: 246, top: 14, bottom: 104 };

/**
 * The curves, the maneuver with the most legs first.
 * @param {readonly Trend[]} trends one for each maneuver
 * @param {string} chosen the maneuver whose checks are shown
 * @param {(maneuver: string) => void} choose called with the one that is pressed
 */
export function progress(trends, chosen, choose) {
  const flown = trends
    .filter((x) => x.maneuver !== null && x.legs > 0)
    .toSorted((a, b) => b.legs - a.legs)
    .map((trend) => ({ trend, is: progressOf(trend) }))
    .filter(({ is }) => is.sessions.length > 0);
  if (flown.length === 0) return [];
  return [
    h('h2', { id: 'progress-title' }, t('How am I doing?')),
    h('p', { class: 'small soft' }, t('The share of the checks within their limits, session by session.')),
    h('div', { class: 'curves' }, ...flown.map(({ trend, is }) => {
      const name = trend.maneuver?.name ?? '';
      const button = h('button',
        { type: 'button', class: 'curve', 'aria-pressed': String(name === chosen), 'data-maneuver': name },
        h('span', { class: 'multiple-name' }, cardText(trend.maneuver?.title ?? '')),
        h('span', { class: 'curve-word' }, progressWords(is)),
        curve(is));
      button.addEventListener('click', () => choose(name));
      return button;
    })),
  ];
}

/** @param {Progress} is */
export function progressWords({ word, check, sessions }) {
  switch (word) {
    case 'steadier': return t('getting steadier');
    case 'less': return t('less steady than before');
    case 'stuck': return t('stuck on: {check}', { check: cardText(check?.label ?? '') });
    case 'few': return t('{n} of the {fewest} sessions it takes to tell', { n: number(sessions.length), fewest });
    default: return t('about the same');
  }
}

/** @param {number} share */
const percent = (share) => `${number(100 * share)}\u202f%`;

/** @param {Progress} is */
function curve({ sessions }) {
  const n = sessions.length;
  const x = (/** @type {number} */ i) =>
    n < 2 ? (box.left + box.right) / 2 : box.left + 8 + ((box.right - box.left - 16) * i) / (n - 1);
  const y = (/** @type {number} */ share) => box.bottom - (box.bottom - box.top) * share;
  const [first, last] = [sessions[0], sessions.at(-1)];
  const svg = s('svg', {
    viewBox: `0 0 ${box.w} ${box.h}`,
    class: 'trend-plot',
    role: 'img',
    'aria-label': first && last ? t('{first} on {day}, {last} on {now}', {
      first: percent(first.share), day: dayShort(first.began), last: percent(last.share), now: dayShort(last.began),
    }) : '',
  });
  for (const share of [0, 0.5, 1]) {
    svg.append(s('path', { class: 'rule edge', d: `M${box.left} ${y(share)}H${box.right}` }),
      s('text', { class: 'tick', x: box.left - 6, y: y(share) + 4, 'text-anchor': 'end' }, percent(share)));
  }
  svg.append(s('path', {
    class: 'trend-line',
    d: sessions.map((p, i) => `${i === 0 ? 'M' : 'L'}${x(i).toFixed(1)} ${y(p.share).toFixed(1)}`).join(''),
  }));
  const r = n > 30 ? 2 : 3.5;
  sessions.forEach((p, i) => svg.append(s('circle', { class: 'dot', cx: x(i), cy: y(p.share), r })));
  if (first && last) {
    svg.append(s('text', { class: 'tick now-value', x: box.right + 6, y: y(last.share) + 4 }, percent(last.share)),
      s('text', { class: 'tick', x: box.left, y: box.h - 8 }, dayShort(first.began)));
    if (n > 1) {
      const attributes = { class: 'tick', x: box.right, y: box.h - 8, 'text-anchor': 'end' };
      svg.append(s('text', attributes, dayShort(last.began)));
    }
  }
  return svg;
}

/** What an empty logbook will show, and how to get it. */
export function nothingYet() {
  /** @type {Progress['sessions']} */
  const sample = [0.48, 0.55, 0.52, 0.64, 0.7, 0.78].map((share, i) => ({ session: String(i), began: '', share }));
  return h('section', { class: 'card nothing-yet', 'aria-labelledby': 'nothing-title' },
    h('h2', { id: 'nothing-title' }, t('What will be here')),
    h('p', {}, t('Each session with its verdict, and for each maneuver a curve that says how you are doing.')),
    h('figure', {},
      curve({ sessions: sample, word: 'steadier', check: null }),
      h('figcaption', { class: 'small soft' }, t('An example: getting steadier'))),
    h('ol', {},
      h('li', {}, h('a', { href: './' }, t('Fly a leg: it is recorded and graded by itself.'))),
      h('li', {}, t('Or import a recording that you have, with the button here.')),
      h('li', {}, t('No simulator at hand? The built-in aircraft flies a session: '), h('code', {}, 'halfturn demo'))));
}
