// What to fly today, and what the week made steadier.

/** @import { CourseMoved, CourseRecord, PlanItem } from '../course.d.ts' */

import { h } from '../dom.js';
import { itemWords } from '../pure/course.js';
import { number } from '../pure/format.js';
import { sentence, told } from '../pure/phrase.js';
import { cardText, t } from '../pure/text.js';
import { tryLink } from './coursestep.js';
import { howWords } from './flynext.js';

/**
 * The next thing to fly, large, and what it rests on.
 * @param {CourseRecord} r @param {HTMLElement[]} acts what can be pressed
 */
export function nextCards(r, acts) {
  const item = r.plan.items[0];
  const head = h('p', { class: 'soft', id: 'next-title' }, t('Fly next'));
  if (!item) {
    return [h('section', { class: 'card next-card', 'aria-labelledby': 'next-title' }, head,
      h('p', { class: 'next-what' }, t('Nothing is left to fly in this course.')))];
  }
  const state = r.progress.steps.find((s) => s.id === item.step);
  const mind = item.mind ? told(item.mind) : '';
  return [
    h('section', { class: 'card next-card', 'aria-labelledby': 'next-title' }, head,
      h('p', { class: 'next-what' }, itemWords(item)),
      ...(mind === '' ? [] : [h('p', { class: 'strong' }, t('First of all: {what}', { what: mind }))]),
      h('p', {}, sentence(item.why), ...(item.source ? [h('span', { class: 'small soft' }, ` ${item.source}`)] : [])),
      h('p', { class: 'soft small' }, howWords(item)),
      h('div', { class: 'next-acts' }, ...acts)),
    h('section', { class: 'rests', 'aria-labelledby': 'rests-title' },
      h('h2', { id: 'rests-title' }, t('What this rests on')),
      (state?.lately.length ?? 0) === 0
        ? h('p', { class: 'soft' }, t('This step was not flown yet.'))
        : h('ul', { class: 'rows try-list' }, ...(state?.lately ?? []).slice(-4).toReversed().map(tryLink))),
  ];
}

/** @param {CourseRecord} r @param {(item: PlanItem) => HTMLElement[]} acts */
export function planSection(r, acts) {
  const { plan } = r;
  const heading = t('Today, {minutes} minutes', { minutes: number(plan.minutes) });
  const row = (/** @type {PlanItem} */ item) => {
    const why = item.optional ? t('{why}; may be left out', { why: told(item.why) }) : told(item.why);
    return h('li', {},
      h('div', { class: 'plan-what' }, h('strong', {}, itemWords(item)),
        h('span', { class: 'small soft' }, `${howWords(item)} · ${t('{n} min', { n: number(item.minutes) })}`),
        h('span', { class: 'small' }, why,
          ...(item.source ? [h('span', { class: 'soft' }, ` (${item.source})`)] : []))),
      h('div', { class: 'plan-acts' }, ...acts(item)));
  };
  return h('section', { class: 'plan', 'aria-labelledby': 'plan-title' },
    h('h2', { id: 'plan-title' }, heading),
    plan.items.length === 0
      ? h('p', { class: 'soft' }, t('Nothing is left to fly in this course.'))
      : h('ol', { class: 'plan-list' }, ...plan.items.map(row)));
}

/** @param {CourseRecord} r */
export function weekSection({ week }) {
  const list = (/** @type {string} */ heading, /** @type {readonly CourseMoved[]} */ moved) => moved.length === 0
    ? []
    : [h('h3', {}, heading), h('ul', { class: 'rows week-list' }, ...moved.map((m) => h('li', {},
      h('span', {}, `${cardText(m.label)} `, h('span', { class: 'small soft' }, cardText(m.maneuver))),
      h('span', { class: 'small soft' }, t('met {met} of {of}, before {then} of {thenOf}',
        { met: number(m.met), of: number(m.of), then: number(m.metThen), thenOf: number(m.ofThen) })))))];
  const all = [...list(t('Steadier'), week.steadier), ...list(t('Less steady'), week.shakier),
    ...list(t('Still missed'), week.still)];
  const flown = t('Legs in the last seven days: {legs}; in the four weeks before: {before}.',
    { legs: number(week.legs), before: number(week.before) });
  return h('section', { class: 'week', 'aria-labelledby': 'week-title' },
    h('h2', { id: 'week-title' }, t('The week')),
    h('p', { class: 'soft' }, flown),
    ...(all.length > 0 ? all : [h('p', {}, t('No check has changed clearly.'))]));
}
