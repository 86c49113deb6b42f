// The checks of a leg with their bands, its causes, and what was said.

/** @import { Cause, Check, Leg, Verdict } from '../types.d.ts' */
/** @import { FlownLeg } from '../sessions.d.ts' */

import { h, s } from '../dom.js';
import { ahead, checkpointOf, inOrder, nearest, value } from '../pure/flight.js';
import { digitsOf, fromTo, number, verdictWords, withUnit } from '../pure/format.js';
import { told } from '../pure/phrase.js';
import { said, t } from '../pure/text.js';
import { mark, markShape } from './mark.js';

/** @param {readonly Check[]} checks @param {string} caption */
export function checkTable(checks, caption) {
  if (checks.length === 0) return h('p', { class: 'soft' }, t('Nothing was judged in this leg.'));
  return h('table', { class: 'check-table' }, h('caption', {}, caption),
    h('thead', {}, h('tr', {}, ...['', 'Check', 'Was', 'Aim', 'Met within', 'Where it fell', 'Score'].map((w, i) =>
      i === 0 ? h('td') : h('th', { scope: 'col' }, t(w))))),
    h('tbody', {}, ...inOrder(checks).map(row)));
}

/** @param {Check} c */
function row(c) {
  const digits = digitsOf(c.unit);
  const words = [c.words, c.reason ?? '', c.note ?? ''].filter((w) => w !== '').map(told);
  return h('tr', { 'data-verdict': c.verdict },
    h('td', { class: 'cell-mark' }, mark(c.verdict)),
    h('th', { scope: 'row' },
      said(c.label),
      ...(words.length > 0 ? [h('span', { class: 'small soft check-words' }, words.join(' '))] : []),
    ),
    h('td', { class: 'number' }, c.value === null ? '' : withUnit(c.value, c.unit, digits)),
    h('td', { class: 'number' }, c.aim === undefined ? '' : withUnit(c.aim, c.unit, digits)),
    h('td', { class: 'number soft' }, band(c.met, c.unit, digits)),
    h('td', { class: 'cell-band' }, bands(c)),
    h('td', { class: 'number' },
      c.verdict === 'not-measured' || c.value === null ? t(verdictWords(c.verdict)) : number(c.score),
    ),
  );
}

/** @param {Check['met']} b @param {string} unit @param {number} digits */
function band([low, high], unit, digits) {
  if (low !== null && high !== null) return fromTo(low, high, unit, digits);
  if (low !== null) return t('{low} or more', { low: withUnit(low, unit, digits) });
  if (high !== null) return t('{high} or less', { high: withUnit(high, unit, digits) });
  return '';
}

/** The bands as a strip, the value as a mark on it. @param {Check} c */
function bands(c) {
  if (c.value === null || (c.met[0] === null && c.met[1] === null)) return ''; // nothing is asked of it
  const known = [...c.met, ...c.near, c.aim ?? null, c.value].filter((v) => v !== null);
  const low = Math.min(...known);
  const high = Math.max(...known);
  const room = (high - low) * 0.12 || 1;
  const x = (/** @type {number | null} */ v, /** @type {number} */ open) =>
    v === null ? open : 8 + (144 * (v - low + room)) / (high - low + 2 * room);
  const strip = s('svg', { viewBox: '0 0 160 24', class: 'band-strip', 'aria-hidden': 'true' });
  const [n0, n1] = [x(c.near[0], 0), x(c.near[1], 160)];
  const [m0, m1] = [x(c.met[0], 0), x(c.met[1], 160)];
  strip.append(
    s('line', { class: 'rule edge', x1: 0, x2: 160, y1: 12, y2: 12 }),
    s('rect', {
      class: 'near-band',
      x: Math.min(n0, m0),
      width: Math.max(0, Math.max(n1, m1) - Math.min(n0, m0)),
      y: 6,
      height: 12,
    }),
    s('rect', { class: 'corridor', x: m0, width: Math.max(1, m1 - m0), y: 2, height: 20 }),
  );
  if (c.aim !== undefined) strip.append(s('line', { class: 'aim', x1: x(c.aim, 0), x2: x(c.aim, 0), y1: 2, y2: 22 }));
  strip.append(markShape(c.verdict, x(c.value, 0), 12, 6));
  return strip;
}

/** The one thing to change. @param {Leg} leg */
export function changeLine(leg) {
  if (leg.change === '') {
    return h('p', { class: 'change' },
      leg.verdict === 'not-measured' ? t('Nothing could be judged.') : t('Nothing was missed: keep it like this.'),
    );
  }
  return h('p', { class: 'change' },
    h('span', { class: 'soft' }, `${t('The one thing')}: `),
    h('span', { class: 'change-head' }, told(leg.change)),
  );
}

/** The likely causes, the dearest first. @param {Leg} leg */
export function causes(leg) {
  return h('ul', { class: 'rows causes' },
    ...(leg.causes ?? []).map((c) =>
      h('li', {},
        h('span', { class: 'cause' }, told(c.advice)),
        h('span', { class: 'cause-evidence soft' }, costs(c)),
      ),
    ),
  );
}

/** @param {Cause} c */
function costs(c) {
  const share = c.share > 0 ? ` ${t('It cost {share} % of what was lost.', { share: number(c.share * 100) })}` : '';
  return `${told(c.evidence)}.${share}`.replace('..', '.');
}

const kinds = /** @type {const} */ ({
  cue: 'before',
  after: 'after',
  result: 'result',
  safety: 'safety',
  clear: 'safety over',
});

/**
 * What was said, and when it came; a press on the moment goes there.
 * @param {FlownLeg} flight
 * @param {(time: number) => void} go
 */
export function calloutTable(flight, go) {
  const rows = flight.callouts.filter((c) => c.words !== '' || c.kind === 'clear');
  if (rows.length === 0) return h('p', { class: 'soft' }, t('Nothing was said in this leg.'));
  return h('table', { class: 'said-table' },
    h('caption', {}, t('What was said, and when')),
    h('thead', {},
      h('tr', {}, ...['When', 'Turned', 'Words', 'Kind', 'Timing'].map((w) => h('th', { scope: 'col' }, t(w)))),
    ),
    h('tbody', {},
      ...rows.map((c) => {
        const when = h('button', { type: 'button', class: 'moment' }, withUnit(c.time - flight.leg.start, 's', 1));
        when.addEventListener('click', () => go(c.time));
        return h('tr', {},
          h('td', { class: 'number' }, when),
          h('td', { class: 'number' }, withUnit(turned(flight, c), '°')),
          h('th', { scope: 'row' }, c.words === '' ? t('(over)') : said(c.words)),
          h('td', {}, t(kinds[c.kind])),
          h('td', {}, timing(flight, c)),
        );
      }),
    ),
  );
}

/**
 * Where it was said: what is said past the end of a leg carries no turn of its own.
 * @param {FlownLeg} flight
 * @param {import('../types.d.ts').Callout} c
 */
function turned(flight, c) {
  return value(flight.samples, 'turn', nearest(flight.samples['time'], c.time)) ?? c.turn;
}

/** @param {FlownLeg} flight @param {import('../types.d.ts').Callout} c */
function timing(flight, c) {
  const turn = checkpointOf(flight, c);
  if (turn === null) return '';
  const name = flight.plan.checkpoints?.find((p) => p.turn === turn)?.label ?? `${number(turn)}°`;
  const full = turn === flight.plan.turn ? flight.leg.exit?.turn ?? turn : turn;
  const early = ahead(flight, c, full);
  if (early === null) return t('{post} was not reached', { post: t(name) });
  if (Math.abs(early) < 0.05) return t('at {post}', { post: t(name) });
  const seconds = number(Math.abs(early), 1);
  return early >= 0
    ? t('{seconds} s before {post}', { seconds, post: t(name) })
    : t('{seconds} s after {post}', { seconds, post: t(name) });
}

/**
 * The verdict in a line: mark, word, score.
 * @param {Verdict} verdict
 * @param {string} word
 * @param {number | null} score
 */
export function verdictLine(verdict, word, score) {
  return h('p', { class: 'verdict' }, mark(verdict), h('span', { class: 'verdict-word' }, word),
    h('span', { class: 'score' }, score === null ? '' : t('{score} of 100', { score: number(score) })));
}
