// What a course says, in words. Pure.

/** @import { CourseRule, CourseState, CourseStep, PlanItem } from '../course.d.ts' */
/** @import { Verdict } from '../types.d.ts' */

import { number } from './format.js';
import { cardText, t } from './text.js';

/** The mark of a step: a half disc while it is worked on. @param {Pick<CourseState, 'state' | 'tries'>} s */
export function markOf(s) {
  /** @type {Record<CourseState['state'], Verdict>} */
  const marks = { passed: 'met', open: s.tries > 0 ? 'near' : 'not-measured', slipped: 'missed',
    locked: 'not-measured' };
  return marks[s.state];
}

/** @param {CourseState['state']} state */
export function stateWords(state) {
  return { passed: t('passed'), open: t('open'), slipped: t('slipped'), locked: t('not yet open') }[state];
}

/** What passes a step. @param {Pick<CourseStep, 'checkFlight' | 'pass'>} step */
export function passWords({ checkFlight, pass }) {
  if (checkFlight) return t('one try to each side a day, flown silent');
  return ruleWords(pass);
}

/** @param {Pick<CourseRule, 'good' | 'of' | 'sides'>} rule */
function ruleWords({ good, of, sides }) {
  const values = { good: number(good), of: number(of) };
  return sides === 'each'
    ? t('{good} good of the last {of}, to each side', values)
    : t('{good} good of the last {of}', values);
}

/** How far a step is from being passed; '' once it is. @param {CourseState} s */
export function towardWords(s) {
  if (s.state !== 'open' && s.state !== 'slipped') return '';
  return s.sides.map(({ direction, good, need }) => {
    const values = { good: number(good), need: number(need) };
    if (direction === 'right') return t('right {good} of {need}', values);
    return direction === 'left' ? t('left {good} of {need}', values) : t('{good} of {need}', values);
  }).join(', ');
}

/** How much is said. @param {string} prompts */
export function promptsWords(prompts) {
  return { all: t('all cues'), fade: t('fading cues'), off: t('no cues') }[prompts] ?? prompts;
}

/** "Wing-over to 45°, to the left". @param {Pick<PlanItem, 'title' | 'direction'>} item */
export function itemWords({ title, direction }) {
  return `${cardText(title)}, ${sideWords(direction)}`;
}

/** @param {string} direction */
export function sideWords(direction) {
  return direction === 'left' ? t('to the left') : t('to the right');
}
