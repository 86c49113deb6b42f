// One session in the list of sessions.

/** @import { SessionRow } from '../sessions.d.ts' */

import { attr, h } from '../dom.js';
import { number, stationWords, verdictWords } from '../pure/format.js';
import { lasted, timeWords } from '../pure/sessions.js';
import { told } from '../pure/phrase.js';
import { cardText, t } from '../pure/text.js';
import { isTerm } from '../pure/terms.js';
import { mark } from './mark.js';
import { term } from './term.js';

/** The verdicts shown as marks; more are an ellipsis. */
const mostMarks = 24;

/**
 * A row says what differs from the one above; where nothing does, when it was.
 * @param {SessionRow} r @param {SessionRow | null} above
 * @param {boolean} first whether its grade explains itself: the first of the list with that grade
 */
export function sessionRow(r, above, first) {
  const all = subjects(r);
  const before = above ? subjects(above) : null;
  const differs = all.filter((words, i) => words !== '' && words !== before?.[i]);
  const [who, ...what] = differs.length > 0 ? differs : [timeWords(r.began) || r.id];
  const link = h('a',
    {
      class: 'session-link',
      href: `sessions/${encodeURIComponent(r.id)}`,
      'aria-label': [...all, timeWords(r.began)].filter((w) => w !== '').join(', '),
    },
    h('span', { class: 'session-who' }, who ?? ''),
    h('span', { class: 'session-what' }, what.join(' · ')));
  const score = h('span', { class: 'session-score' }, r.score === null ? '' : ` ${number(r.score)}`);
  const grade = t(r.grade || 'no grade');
  const node = h('li', { class: 'session-row' },
    link,
    h('span', { class: 'session-grade' }, first && isTerm(r.grade) ? term(r.grade, grade, true) : grade, score),
    h('span', { class: 'session-line' }, marksOf(r), h('span', { class: 'session-facts soft small' }, factsOf(r))));
  if (r.headline !== '') node.append(h('span', { class: 'session-headline soft' }, told(r.headline)));
  if (r.change !== '') {
    const head = h('span', { class: 'soft' }, `${t('The one thing to change')}: `);
    node.append(h('span', { class: 'session-change' }, head, told(r.change)));
  }
  if (r.found !== '') node.append(h('q', { class: 'session-found small' }, r.found));
  return node;
}

/** Who flew, what, in what, and where nobody is named, at which station. @param {SessionRow} r */
function subjects(r) {
  const flown = r.maneuvers.map((m) => cardText(m.title)).join(', ') || t('no leg');
  return [r.student, flown, cardText(r.aircraft.title), r.student ? '' : stationWords(r.station)];
}

/** @param {SessionRow} r */
function factsOf(r) {
  return [
    timeWords(r.began),
    r.ended === '' ? t('being flown now') : lasted(r),
    r.legs === 1 ? t('one leg') : t('{n} legs', { n: number(r.legs) }),
    r.keep ? t('protected') : '',
    r.remarks === 0 ? '' : r.remarks === 1 ? t('one remark') : t('{n} remarks', { n: number(r.remarks) }),
  ].filter((w) => w !== '').join(' · ');
}

/** @param {SessionRow} r */
function marksOf(r) {
  const marks = h('span', { class: 'marks', role: 'img', 'aria-label': counted(r) },
    ...r.verdicts.slice(0, mostMarks).map((v) => mark(v)),
    r.verdicts.length > mostMarks ? '…' : '');
  for (const m of marks.querySelectorAll('svg')) attr(m, 'aria-hidden', 'true');
  return marks;
}

/** "5 met, 1 near". @param {SessionRow} r */
function counted(r) {
  const words = /** @type {const} */ (['met', 'near', 'missed', 'not-measured'])
    .map((v) => ({ n: r.verdicts.filter((x) => x === v).length, word: verdictWords(v) }))
    .filter(({ n }) => n !== 0)
    .map(({ n, word }) => `${n} ${word}`);
  return words.join(', ') || t('no leg');
}
