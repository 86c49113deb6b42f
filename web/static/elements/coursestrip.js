// The course as a strip: what was passed in ink, where the student is, and what lies ahead.

/** @import { CourseRecord } from '../course.d.ts' */
/** @import { Verdict } from '../types.d.ts' */

import { attr, h } from '../dom.js';
import { markOf, stateWords } from '../pure/course.js';
import { number, verdictWords } from '../pure/format.js';
import { cardText, t } from '../pure/text.js';
import { mark } from './mark.js';

/** A mark whose words stand beside it. @param {Verdict} verdict */
export function silentMark(verdict) {
  const shape = mark(verdict);
  attr(shape, 'aria-hidden', 'true');
  attr(shape, 'role', null);
  attr(shape, 'aria-label', null);
  return shape;
}

/**
 * @param {CourseRecord} r
 * @param {string} chosen id of the step that is shown in full
 * @param {(step: string) => void} choose
 */
export function courseStrip(r, chosen, choose) {
  const now = r.progress.steps.findIndex((s) => s.id === r.progress.now);
  const items = r.course.steps.map((step, i) => {
    const state = /** @type {CourseRecord['progress']['steps'][number]} */ (r.progress.steps[i]);
    const button = h('button', {
      type: 'button',
      class: 'strip-step',
      'data-step': step.id,
      'aria-pressed': String(step.id === chosen),
    }, h('span', { class: 'strip-number' }, number(i + 1)), silentMark(markOf(state)),
    h('span', { class: 'strip-title' }, cardText(step.title)),
    h('span', { class: 'strip-state small soft' }, stateWords(state.state)));
    button.addEventListener('click', () => choose(step.id));
    return h('li', { 'data-state': state.state, 'data-now': String(i === now) },
      ...(i === now ? [h('span', { class: 'strip-now' }, t('now'))] : []), button);
  });
  const list = h('ol', { class: 'course-strip', 'aria-label': t('Steps') }, ...items);
  list.style.setProperty('--steps', String(items.length));
  return list;
}

/** The parts of flying across the steps: a weak one is a row. @param {CourseRecord} r */
export function blockTable(r) {
  if (r.blocks.length === 0) return [];
  const cell = (/** @type {Verdict | ''} */ v) => v === ''
    ? h('td', { class: 'block-none' })
    : h('td', {}, silentMark(v), h('span', { class: 'visually-hidden' }, verdictWords(v)));
  const steps = r.course.steps.map((s, i) =>
    h('th', { scope: 'col', title: cardText(s.title) }, h('span', { class: 'visually-hidden' }, cardText(s.title)),
      h('span', { 'aria-hidden': 'true' }, number(i + 1))));
  const words = t('Parts of flying, over the last three tries at each step');
  return [h('div', { class: 'scroll', tabindex: 0, role: 'group', 'aria-label': words },
    h('table', { class: 'block-table' },
      h('caption', {}, words),
      h('thead', {}, h('tr', {}, h('td'), ...steps)),
      h('tbody', {}, ...r.blocks.map((b) =>
        h('tr', { 'data-weak': String(b.weak) }, h('th', { scope: 'row' }, t(b.aspect)), ...b.marks.map(cell))))))];
}
