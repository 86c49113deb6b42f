// The record of a course as a table: every step, what it rests on, and lines to sign on paper.

/** @import { CourseRecord, CourseTry } from '../course.d.ts' */

import { h } from '../dom.js';
import { markOf, stateWords, towardWords } from '../pure/course.js';
import { number } from '../pure/format.js';
import { dayWords } from '../pure/sessions.js';
import { cardText, t } from '../pure/text.js';
import { gradeWords, ruledWords } from './coursestep.js';
import { silentMark } from './coursestrip.js';

/** @param {CourseRecord} r */
export function recordSection(r) {
  const heads = [t('Step'), t('State'), t('Grade'), t('Legs that passed it')];
  const cell = (/** @type {number} */ of, /** @type {(Node | string)[]} */ ...children) =>
    h('td', { 'data-head': heads[of] ?? '', ...(children[0] === '–' && { class: 'nothing' }) }, ...children);
  const rows = r.course.steps.flatMap((step, i) => {
    const state = r.progress.steps[i];
    const beside = r.steps[i];
    if (!state || !beside) return [];
    const toward = towardWords(state);
    const words = state.ruled ? [h('br'), ruledWords(state.ruled)] : [];
    return [h('tr', {}, h('th', { scope: 'row' }, `${number(i + 1)}. ${cardText(step.title)}`),
      cell(1, h('span', { class: 'record-state' }, silentMark(markOf(state)),
        h('span', {}, [stateWords(state.state), toward].filter(Boolean).join(', '), ...words))),
      cell(2, gradeWords(beside)),
      cell(3, evidence(state.passedBy)))];
  });
  const line = (/** @type {string} */ words) => h('div', {}, h('span', { class: 'line' }), words);
  return h('section', { class: 'record', 'aria-labelledby': 'record-title' },
    h('h2', { id: 'record-title' }, t('Record')),
    h('p', { class: 'on-paper' }, dayWords(r.at)),
    h('div', { class: 'scroll', tabindex: 0, role: 'group', 'aria-label': t('Record') },
      h('table', { class: 'sheet-table record-table' },
        h('thead', {}, h('tr', {}, ...heads.map((w) => h('th', { scope: 'col' }, w)))), h('tbody', {}, ...rows))),
    h('div', { class: 'for-print' }, line(t('Student')), line(t('Instructor')), line(t('Day'))));
}

/** The legs that passed a step, by their days. @param {readonly CourseTry[]} list */
function evidence(list) {
  if (list.length === 0) return '–';
  /** @type {Map<string, CourseTry[]>} */ const days = new Map();
  for (const x of list) days.set(dayWords(x.began), [...(days.get(dayWords(x.began)) ?? []), x]);
  const parts = [...days].map(([day, tries]) => h('span', { class: 'evidence' }, `${day}: `,
    ...tries.flatMap((x, i) => {
      const words = `${number(x.score)}${x.signed ? ` (${t('signed')})` : ''}`;
      const label = t('leg {n}: {score}', { n: number(x.n), score: words });
      const node = x.session === ''
        ? label
        : h('a', { href: `sessions/${encodeURIComponent(x.session)}?leg=${x.n}` }, label);
      return i === 0 ? [node] : [', ', node];
    })));
  return h('span', { class: 'evidences' }, ...parts);
}
