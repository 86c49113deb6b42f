// One step of a course in full: what passes it, the legs that it rests on, and what a person says of it.

/** @import { CourseRecord, CourseRuling, CourseState, CourseTry } from '../course.d.ts' */

import { h, text } from '../dom.js';
import { markOf, passWords, promptsWords, sideWords, stateWords, towardWords } from '../pure/course.js';
import { number, verdictWords } from '../pure/format.js';
import { longestInput } from '../pure/names.js';
import { dayWords } from '../pure/sessions.js';
import { cardText, t } from '../pure/text.js';
import { silentMark } from './coursestrip.js';

/** The grade that is required beside the latest. @param {CourseRecord['steps'][number]} s */
export function gradeWords(s) {
  const last = s.last === '' ? t('none yet') : t(s.last);
  if (s.required === '') return s.last === '' ? '–' : t('latest: {grade}', { grade: last });
  const values = { required: t(s.required), grade: last };
  return s.reached
    ? t('required: {required}, latest: {grade}, reached', values)
    : t('required: {required}, latest: {grade}, not yet', values);
}

/** What a person said of a step. @param {CourseRuling} r */
export function ruledWords(r) {
  const values = { by: r.by || t('somebody'), day: dayWords(r.at), reason: r.reason || '–' };
  return r.passed
    ? t('passed, says {by} ({day}): {reason}', values)
    : t('not yet, says {by} ({day}): {reason}', values);
}

/** A leg that counts, as a link to it. @param {CourseTry} x */
export function tryLink(x) {
  const words = t('leg {n}, {side}', { n: number(x.n), side: sideWords(x.direction) });
  const label = x.session === ''
    ? h('span', {}, words)
    : h('a', { href: `sessions/${encodeURIComponent(x.session)}?leg=${x.n}` }, words);
  const more = [
    dayWords(x.began),
    `${verdictWords(x.verdict)}, ${number(x.score)}`,
    x.overruled ? t('overruled') : '',
    x.signed ? t('signed') : '',
  ].filter((w) => w !== '');
  return h('li', {}, silentMark(x.good ? 'met' : x.verdict === 'met' ? 'near' : x.verdict), label,
    h('span', { class: 'small soft' }, more.join(' · ')));
}

/** @param {string} heading @param {readonly CourseTry[]} list @param {string} none */
function tries(heading, list, none) {
  return h('section', { class: 'tries' }, h('h3', {}, heading),
    list.length === 0
      ? h('p', { class: 'soft' }, none)
      : h('ul', { class: 'rows try-list' }, ...list.map(tryLink)));
}

/**
 * @param {CourseRecord} r @param {string} id of the step
 * @param {HTMLElement[]} acts what can be pressed
 */
export function courseStep(r, id, acts) {
  const i = r.course.steps.findIndex((s) => s.id === id);
  const step = r.course.steps[i];
  const state = r.progress.steps[i];
  const beside = r.steps[i];
  if (!step || !state || !beside) return h('section');
  const fact = (/** @type {string} */ name, /** @type {string} */ words) =>
    h('div', {}, h('dt', {}, name), h('dd', {}, words));
  const toward = towardWords(state);
  const missed = state.missed.slice(0, 3)
    .map((m) => t('{check} ({times} of {of})', { check: cardText(m.label), times: number(m.times), of: number(m.of) }));
  return h('section', { class: 'card step-card', id: 'step', 'aria-labelledby': 'step-title' },
    h('div', { class: 'step-top' },
      h('h2', { id: 'step-title' }, silentMark(markOf(state)), ' ', cardText(step.title)),
      h('div', { class: 'step-acts' }, ...acts)),
    h('dl', { class: 'step-facts' },
      fact(t('State'), [stateWords(state.state), toward].filter(Boolean).join(', ')),
      fact(t('Maneuver'), cardText(beside.maneuver)),
      fact(t('Standard'), `${cardText(step.standard)} · ${promptsWords(state.prompts)}`),
      fact(t('Passed by'), passWords(step)),
      fact(t('Grade'), gradeWords(beside)),
      fact(t('Missed most'), missed.join(', ') || '–')),
    ...(state.ruled ? [h('p', { class: 'ruled strong' }, ruledWords(state.ruled))] : []),
    h('div', { class: 'tries-both' },
      tries(t('Passed by these legs'), state.passedBy, t('None yet.')),
      tries(t('Latest legs'), state.lately.toReversed(), t('None yet.'))),
    h('p', { class: 'small soft' }, t('Source: {source}', { source: step.source })));
}

/** Where a ruling can be made once there is something to keep it with. @param {string} student */
export function rulingNowhere(student) {
  return h('div', { class: 'ruling-form ruling-nowhere' },
    h('p', {}, t('A ruling is kept with a session, and there is none of {student} yet.', { student })),
    h('p', { class: 'ruling-ways' },
      h('a', { href: './' }, t('Say on the panel who flies, and fly')),
      h('a', { href: 'sessions' }, t('Bring in a recording on Sessions'))));
}

/**
 * Asks what a person says of a step.
 * @param {CourseState} state @param {string} by who said something last, '' for nobody
 * @param {boolean} named whether whoever looks goes by a name of their own
 * @param {(said: { verdict: string, reason: string, by: string }) => Promise<string>} send
 */
export function rulingForm(state, by, named, send) {
  const choice = h('select', { 'aria-label': t('Ruling') },
    h('option', { value: 'passed' }, t('passed')), h('option', { value: 'not-yet' }, t('not yet')));
  if (state.ruled) choice.append(h('option', { value: '' }, t('by the rule')));
  if (state.state === 'passed') choice.value = 'not-yet';
  const reason = h('input', { type: 'text', maxlength: 500, 'aria-label': t('Reason'), placeholder: t('Reason') });
  const who = h('input', { type: 'text', maxlength: longestInput, autocomplete: 'name', 'aria-label': t('By'),
    placeholder: t('By') });
  who.value = by;
  const save = h('button', { type: 'submit' }, t('Rule'));
  const error = h('p', { class: 'control-error', role: 'alert' });
  const form = h('form', { class: 'overrule-form ruling-form' }, choice, reason, ...(named ? [] : [who]), save, error);
  form.addEventListener('submit', (e) => {
    e.preventDefault();
    if (choice.value !== '' && reason.value.trim() === '') {
      text(error, t('Say why the step is passed, or not yet.'));
      reason.focus();
      return;
    }
    save.disabled = true;
    void send({ verdict: choice.value, reason: reason.value.trim(), by: who.value.trim() }).then((why) => {
      save.disabled = false;
      text(error, why);
    });
  });
  return form;
}
