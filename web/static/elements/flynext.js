// The next thing to fly, and a press that sets the station up for it.

/** @import { CoursePlan, PlanItem } from '../course.d.ts' */

import { post } from '../api.js';
import { h } from '../dom.js';
import { number } from '../pure/format.js';
import { itemWords, promptsWords } from '../pure/course.js';
import { sentence } from '../pure/phrase.js';
import { cardText, t } from '../pure/text.js';

/**
 * Sets a station up for a step: what is flown, by which standard, and how much is said from leg to leg.
 * @param {{ name: string, aircraft: string }} station
 * @param {Pick<PlanItem, 'task'>} item
 * @returns {Promise<string>} why it was refused, in words; '' when it was not
 */
export async function setUp({ name, aircraft }, { task }) {
  return (await post(`api/stations/${encodeURIComponent(name)}/step`, { ...task, aircraft })).error;
}

/** How an item is flown, in a line. @param {PlanItem} item */
export function howWords(item) {
  return [
    item.legs === 1 ? t('one leg') : t('{n} legs', { n: number(item.legs) }),
    t('{standard} standard', { standard: cardText(item.standard) }),
    promptsWords(item.prompts),
  ].join(' · ');
}

/**
 * What to fly next on the panel: a line, and a button.
 * @param {CoursePlan} plan @param {string} course its title
 * @param {(item: PlanItem) => Promise<string>} take
 */
export function flyNext(plan, course, take) {
  const error = h('p', { class: 'control-error', role: 'alert' });
  const press = (/** @type {PlanItem} */ item, /** @type {HTMLButtonElement} */ button) => {
    button.disabled = true;
    void take(item).then((why) => {
      button.disabled = false;
      error.textContent = why;
    });
  };
  const [first, ...others] = plan.items;
  const where = h('a', { href: 'course', class: 'soft' }, cardText(course));
  if (!first) {
    return h('div', { class: 'fly-next' }, h('p', {}, t('Nothing is left to fly in this course.'), ' ', where));
  }
  const set = h('button', { type: 'button', class: 'fly-set' }, t('Set it up'));
  set.addEventListener('click', () => press(first, set));
  const another = others.find((x) => x.step !== first.step);
  const instead = h('button', { type: 'button', class: 'fly-set' });
  if (another) {
    instead.append(t('Instead: {what}', { what: itemWords(another) }));
    instead.addEventListener('click', () => press(another, instead));
  }
  return h('div', { class: 'fly-next' },
    h('p', { class: 'fly-what' }, h('span', { class: 'soft' }, t('Fly next:')), ' ',
      h('strong', {}, itemWords(first))),
    h('p', { class: 'small soft' }, sentence(first.why), ' ', where),
    h('p', { class: 'fly-buttons' }, set, ...(another ? [instead] : [])), error);
}
