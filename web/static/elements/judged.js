// The checks of a leg with their bands, its causes, and what was said.

/** @import { Cause, Check, Leg, Plan } from '../types.d.ts' */
/** @import { FlownLeg } from '../sessions.d.ts' */

import { h, s } from '../dom.js';
import { ahead, checkpointOf, inOrder, nearest, value } from '../pure/flight.js';
import { bandWords } from '../pure/check.js';
import { capital, digitsOf, number, verdictWords, withUnit } from '../pure/format.js';
import { told } from '../pure/phrase.js';
import { isTerm } from '../pure/terms.js';
import { cardText, t } from '../pure/text.js';
import { ofCue, readOf } from '../pure/voice.js';
import { mark, markShape } from './mark.js';
import { overruledWords } from './overrule.js';
import { explained } from './term.js';

/**
 * The checks by the checkpoints they belong to, each with its verdict.
 * @param {Leg} leg
 * @param {Plan} plan
 * @param {string} caption
 */
export function checkTable(leg, plan, caption) {
  const checks = inOrder(leg.checks ?? []);
  if (checks.length === 0) return h('p', { class: 'soft' }, t('Nothing was judged in this leg.'));
  const places = [...new Set(checks.map((c) => c.post ?? null))];
  const heads = ['', 'Check', 'Flown', 'Target', 'Limits', 'Against the limits', 'Score'];
  return h('table', { class: 'check-table' }, h('caption', {}, caption),
    h('thead', {}, h('tr', {}, ...heads.map((w, i) => i === 0 ? h('td') : h('th', { scope: 'col' }, t(w))))),
    ...places.map((turn) =>
      h('tbody', {}, placeRow(leg, plan, turn), ...checks.filter((c) => (c.post ?? null) === turn).map(row))));
}

/** @param {Leg} leg @param {Plan} plan @param {number | null} turn */
function placeRow(leg, plan, turn) {
  const verdict = leg.posts?.find((p) => p.turn === turn)?.verdict;
  return h('tr', { class: 'check-place' },
    h('td', { class: 'cell-mark' }, verdict ? mark(verdict) : ''),
    h('th', { scope: 'rowgroup', colspan: 6 }, postLabel(plan, turn)));
}

/** A checkpoint in words; null is the leg as a whole. @param {Plan | null} plan @param {number | null} turn */
export function postLabel(plan, turn) {
  if (turn === null) return t('whole leg');
  if (turn === 0) return t('entry');
  return t(plan?.checkpoints?.find((p) => p.turn === turn)?.label ?? `${number(turn)}°`);
}

/** @param {Check} c */
function row(c) {
  const digits = digitsOf(c.unit);
  const words = [c.words, c.reason ?? '', c.note ?? '', overruledWords(c)].filter((w) => w !== '').map(told);
  return h('tr', { 'data-verdict': c.verdict },
    h('td', { class: 'cell-mark' }, mark(c.verdict)),
    h('th', { scope: 'row' },
      cardText(c.label),
      ...(words.length > 0 ? [h('span', { class: 'small soft check-words' }, words.join(' '))] : []),
    ),
    h('td', { class: 'number' }, c.value === null ? '' : withUnit(c.value, c.unit, digits)),
    h('td', { class: 'number' }, c.aim === undefined ? '' : withUnit(c.aim, c.unit, digits)),
    h('td', { class: 'number soft' }, bandWords(c.met, c.unit, digits)),
    h('td', { class: 'cell-band' }, bands(c)),
    h('td', { class: 'number' },
      c.verdict === 'not-measured' || c.value === null ? t(verdictWords(c.verdict)) : number(c.score),
    ),
  );
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
      leg.verdict === 'not-measured' ? t('Nothing could be judged.') : t('Again, the same'),
    );
  }
  return h('p', { class: 'change' },
    h('span', { class: 'soft' }, `${t('The one thing to change')}: `),
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
  const share = c.share > 0 ? ` ${t('It cost {share} % of the points lost.', { share: number(c.share * 100) })}` : '';
  return `${told(c.evidence)}.${share}`.replace('..', '.');
}

const kinds = /** @type {const} */ ({
  cue: 'before',
  said: 'by a person',
  watch: 'on the way',
  after: 'after',
  result: 'result',
  next: 'for the next leg',
  'set-up': 'set-up',
  done: 'as asked for',
  again: 'said again',
  safety: 'safety',
  clear: 'safety over',
});

/**
 * What was said, and when it came; a press on the moment goes there.
 * @param {FlownLeg} flight
 * @param {(time: number) => void} go
 */
export function calloutTable(flight, go) {
  const rows = flight.callouts.filter((c) => c.kind === 'clear' ? !ofCue(c) : c.words !== '' && c.kind !== 'set-up');
  if (rows.length === 0) return h('p', { class: 'soft' }, t('Nothing was said in this leg.'));
  return h('table', { class: 'said-table' },
    h('caption', {}, t('What was said, and when')),
    h('thead', {},
      h('tr', {}, ...['When', 'Turn angle', 'Words', 'Kind', 'Timing'].map((w) => h('th', { scope: 'col' }, t(w)))),
    ),
    h('tbody', {},
      ...rows.map((c) => {
        const when = h('button', { type: 'button', class: 'moment' }, withUnit(c.time - flight.leg.start, 's', 1));
        when.addEventListener('click', () => go(c.time));
        return h('tr', {},
          h('td', { class: 'number' }, when),
          h('td', { class: 'number' }, withUnit(turned(flight, c), '°')),
          h('th', { scope: 'row' }, c.words === '' ? t('(over)') : readOf(c)),
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
 * What the verdict rests on, in a line. A leg of an earlier version has only its grade, or how it ended.
 * @param {Leg} leg
 */
export function headOf(leg) {
  if (leg.headline) return told(leg.headline);
  if (leg.outcome === 'broken-off') return t('Broken off');
  if (leg.outcome === 'knock-off') return t('Stopped for safety');
  return capital(leg.grade ? t(leg.grade) : verdictWords(leg.verdict));
}

/** The grade with the score, "" where nothing was measured. @param {Leg} leg */
export function scoreOf(leg) {
  if (leg.verdict === 'not-measured') return '';
  return t('{grade}, {score} of 100', { grade: capital(t(leg.grade || leg.verdict)), score: number(leg.score) });
}

/** The grade, which explains itself, with the score. @param {Leg} leg */
export function scoreParts(leg) {
  const grade = leg.grade || leg.verdict;
  const parts = explained(scoreOf(leg), { names: isTerm(grade) ? [grade] : [], alone: true });
  const whole = (/** @type {string} */ words) => h('span', { class: 'whole' }, words.trim());
  return parts.flatMap((p) => /** @type {(Node | string)[]} */ (typeof p === 'string' ? [' ', whole(p)] : [p]));
}

/** The verdict of a leg: mark, what it rests on, grade and score. @param {Leg} leg */
export function verdictLines(leg) {
  return [
    h('p', { class: 'verdict' }, mark(leg.verdict), h('span', { class: 'verdict-word' }, headOf(leg))),
    h('p', { class: 'score' }, scoreOf(leg)),
  ];
}
