// How one check went from session to session: the bands of each session, and the median as a mark of its verdict,
// the middle half as a bar, least and most as hairs.

/** @import { TrendCheck } from '../sessions.d.ts' */

import { h, s } from '../dom.js';
import { digitsOf, number, withUnit } from '../pure/format.js';
import { dayShort, metWords, places, trendWords } from '../pure/sessions.js';
import { cardText, t } from '../pure/text.js';
import { inUnits } from '../pure/units.js';
import { markShape } from './mark.js';

const small = { w: 260, h: 122, left: 42, right: 212, top: 10, bottom: 98, r: 4 };

/** With numbers and days; as wide as the page lets it be, so that they are read at their size. */
function large() {
  const w = Math.min(720, Math.max(280, document.documentElement.clientWidth - 80));
  return { w, h: 250, left: 70, right: w - 16, top: 12, bottom: 214, r: 7 };
}

/** @param {TrendCheck} check @param {boolean} [big] as wide as the page, with larger marks */
export function trendPlot(check, big = false) {
  const size = big ? large() : small;
  const at = places(check, size);
  const svg = s('svg', {
    viewBox: `0 0 ${size.w} ${size.h}`,
    class: big ? 'trend-plot big' : 'trend-plot',
    role: 'img',
    'aria-label': `${cardText(check.label)}: ${trendWords(check, digitsOf(check.unit))}`,
  });
  for (const { from: x, to, met, near, aim } of at.spans) {
    svg.append(s('rect', { class: 'near-band', x, width: to - x, y: near.top, height: Math.max(0, near.height) }),
      s('rect', { class: 'corridor', x, width: to - x, y: met.top, height: Math.max(1, met.height) }));
    if (aim !== null) svg.append(s('path', { class: 'aim', d: `M${x} ${aim}H${to}` }));
  }
  svg.append(
    s('path', {
      class: 'trend-line',
      d: at.points.map((p, i) => `${i === 0 ? 'M' : 'L'}${p.x.toFixed(1)} ${p.median.toFixed(1)}`).join(''),
    }),
  );
  const r = Math.min(size.r, Math.max(2.5, (size.right - size.left) / at.points.length / 3));
  for (const p of at.points) {
    const x = p.x.toFixed(1);
    svg.append(
      s('path', { class: 'trend-hair', d: `M${x} ${p.high.toFixed(1)}V${p.low.toFixed(1)}` }),
      s('path', {
        class: 'trend-middle',
        d: `M${x} ${p.q3.toFixed(1)}V${p.q1.toFixed(1)}`,
        'stroke-width': (r * 1.1).toFixed(1),
      }),
    );
  }
  at.points.forEach((p) => svg.append(markShape(p.verdict, p.x, p.median, r)));
  svg.append(...numbers(check, size, at.y));
  const now = check.points.at(-1);
  if (!big && now) {
    svg.append(...valueNow(now.median, check.unit, size.right + 4, at.y(now.median) + 4));
  }
  return svg;
}

/** Letters that have room beside a small plot. */
const beside = 5;

/**
 * The value of now beside a small plot, its unit below where both have no room in a line. The word balls has none at
 * all: the card's name says what is measured.
 * @param {number} value @param {string} unit @param {number} x @param {number} y
 */
function valueNow(value, unit, x, y) {
  const words = withUnit(value, unit === 'balls' ? '' : unit, digitsOf(unit));
  const [figures = '', ...after] = words.length > beside ? words.split('\u00a0') : [words];
  const node = s('text', { class: 'tick now-value', x, y }, figures);
  const below = s('text', { class: 'tick', x, y: y + 15 }, after.join('\u00a0'));
  return after.length > 0 ? [node, below] : [node];
}

/**
 * What stands along a plot: limits, and the first and the last day; the bands named are the latest.
 * @param {TrendCheck} check
 * @param {ReturnType<typeof large>} size
 * @param {(v: number) => number} y
 */
function numbers(check, size, y) {
  const digits = digitsOf(check.unit);
  const edges = [...new Set([...check.met, check.aim].filter((v) => v !== null))];
  /** @type {SVGElement[]} */
  const nodes = [];
  let last = -Infinity;
  for (const v of edges.sort((a, b) => b - a)) {
    if (y(v) - last < 14) continue;
    last = y(v);
    nodes.push(
      s('text', { class: 'tick', x: size.left - 8, y: last + 4, 'text-anchor': 'end' },
        size.w < 280 ? number(inUnits(v, check.unit).value, inUnits(v, check.unit).digits ?? digits)
          : withUnit(v, check.unit, digits),
      ),
    );
  }
  const [first, end] = [check.points[0], check.points.at(-1)];
  if (first) nodes.push(s('text', { class: 'tick', x: size.left, y: size.h - 8 }, dayShort(first.began)));
  if (end && end !== first) {
    nodes.push(
      s('text', { class: 'tick', x: size.right, y: size.h - 8, 'text-anchor': 'end' }, dayShort(end.began)),
    );
  }
  return nodes;
}

/** The same as numbers, the latest first. @param {TrendCheck} check */
export function trendTable(check) {
  const digits = digitsOf(check.unit);
  const value = (/** @type {number} */ v) =>
    number(inUnits(v, check.unit).value, inUnits(v, check.unit).digits ?? digits);
  return h('table', { class: 'trend-table' },
    h('caption', {}, t('Session by session, the latest first')),
    h('thead', {},
      h('tr', {},
        h('th', { scope: 'col' }, t('Session')),
        h('th', { scope: 'col', class: 'number' }, t('Median')),
        h('th', { scope: 'col', class: 'number' }, t('Middle half')),
        h('th', { scope: 'col', class: 'number' }, t('From, to')),
        h('th', { scope: 'col' }, t('Legs')),
      ),
    ),
    h('tbody', {},
      ...check.points
        .toReversed()
        .map((p) =>
          h('tr', {},
            h('th', { scope: 'row' },
              h('a', { href: `sessions/${encodeURIComponent(p.session)}` }, dayShort(p.began) || p.session),
            ),
            h('td', { class: 'number' }, withUnit(p.median, check.unit, digits)),
            h('td', { class: 'number soft' }, t('{low} to {high}', { low: value(p.q1), high: value(p.q3) })),
            h('td', { class: 'number soft' }, t('{low} to {high}', { low: value(p.low), high: value(p.high) })),
            h('td', {}, metWords(p)),
          ),
        ),
    ),
  );
}
