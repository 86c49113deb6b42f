// How the student found a leg: asked before its grade is shown, and set beside it afterwards.

/** @import { FlownLeg, Forms, Rating, SessionDetail, Students } from '../sessions.d.ts' */

import { call, shared } from '../api.js';
import { h } from '../dom.js';
import { t } from '../pure/text.js';
import { looking, may, self } from '../rights.js';
import { headline } from './headline.js';
import { signedLine } from './judging.js';
import { overruledLine } from './overrule.js';

/** @typedef {{ detail: SessionDetail | null, students: string[], forms: Forms | null }} Logged */

/** What the logbook knows of a session. @param {string} api @returns {Promise<Logged>} */
export async function askLogbook(api) {
  /** @type {Promise<Awaited<ReturnType<typeof call<SessionDetail>>>>} */ const asked = call(api);
  if (shared) return { detail: (await asked).value, students: [], forms: null };
  /** @type {[Awaited<ReturnType<typeof call<Students>>>, Awaited<ReturnType<typeof call<Forms>>>]} */
  const [names, test] = await Promise.all([call('api/students'), call(`${api}/forms`)]);
  await looking(); // whoever looks may be asked for a rating first
  return { detail: (await asked).value, students: names.value?.students ?? [], forms: test.value };
}

/**
 * The verdict on a leg; before it, where a student is named, the question how the leg was. A leg that was stopped is
 * never asked about: what to do about it comes first. Nor is an instructor asked, whose view is no student's.
 * @param {FlownLeg} f
 * @param {{ detail: SessionDetail | null, forms: Forms | null, seen: Set<number> }} known
 * @param {(grade: string, thing: string) => void} rate
 */
export function headParts({ leg, n }, { detail, forms, seen }, rate) {
  const rated = detail?.judging.ratings.find((r) => r.leg === n);
  const asks = !shared && may('fly') && self()?.role !== 'instructor';
  const open = asks && forms?.first && (detail?.student ?? '') !== '' && !rated && !seen.has(n) &&
    leg.outcome === 'finished' && leg.verdict !== 'not-measured';
  if (open && forms) {
    document.body.dataset['first'] = 'true';
    return [ratingCard(forms, rate)];
  }
  delete document.body.dataset['first'];
  return [...headline(leg), ...overruledLine(leg), ...(rated ? [ratedLine(rated)] : []),
    ...(shared ? (detail?.judging.signed ?? []).map(signedLine) : [])];
}

/** What a leg is rated by, as it is shown; an aspect of a later version keeps its own word. */
const aspects = {
  bank: () => t('bank'),
  nose: () => t('nose'),
  speed: () => t('speed'),
  height: () => t('height'),
  heading: () => t('heading'),
  ball: () => t('ball'),
  timing: () => t('timing'),
  nothing: () => t('nothing'),
};

/** @param {string} aspect */
function aspectWords(aspect) {
  return Object.hasOwn(aspects, aspect) ? aspects[/** @type {keyof typeof aspects} */ (aspect)]() : aspect;
}

const grades = /** @type {const} */ (['unable', 'fair', 'good', 'excellent']);

/**
 * Asks for the grade and the one thing, a touch each; a touch shows the grade without.
 * @param {Forms} forms
 * @param {(grade: string, thing: string) => void} done called with '' where nothing was rated
 */
export function ratingCard(forms, done) {
  let grade = '';
  const things = h('div', { class: 'rate-row', role: 'group', 'aria-label': t('The one thing') },
    ...forms.aspects.map((a) => button(aspectWords(a), () => done(grade, a))));
  const why = h('div', { class: 'rate-things', hidden: '' }, h('p', {}, t('And the one thing to change?')), things);
  const marks = grades.map((g) => button(t(g), (pressed) => {
    grade = g;
    for (const other of marks) other.setAttribute('aria-pressed', String(other === pressed));
    why.removeAttribute('hidden');
  }));
  return h('div', { class: 'rate', id: 'rate' },
    h('h2', {}, t('How was this leg?')),
    h('div', { class: 'rate-row', role: 'group', 'aria-label': t('How was this leg?') }, ...marks),
    why,
    button(t('Show the grade'), () => done(grade, '')));
}

/** @param {string} words @param {(button: HTMLButtonElement) => void} press */
function button(words, press) {
  const b = h('button', { type: 'button' }, words);
  b.addEventListener('click', () => press(b));
  return b;
}

/** The student's view beside what was measured. @param {Rating} r */
export function ratedLine(r) {
  const own = r.thing === ''
    ? t('Rated by the student: {grade}', { grade: t(r.grade) })
    : t('Rated by the student: {grade}, {thing}', { grade: t(r.grade), thing: aspectWords(r.thing) });
  const measured = r.measured.grade === ''
    ? t('not measured')
    : t('measured: {grade}, {thing}', { grade: t(r.measured.grade), thing: aspectWords(r.measured.thing || '–') });
  return h('p', { class: 'rated small' }, `${own} · ${measured}`);
}
