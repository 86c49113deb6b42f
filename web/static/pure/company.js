// Who else is at the station: who watches, and who acted last. Pure.

/** @import { Who } from '../types.d.ts' */
/** @import { State } from '../view.d.ts' */

import { cardText, t } from './text.js';
import { whoWords } from './voice.js';

/** How long an act of somebody else is told, ms. */
export const toldFor = 30_000;

/**
 * Whether somebody is whoever looks at this page. The owner of the machine has no name of their own.
 * @param {State} state @param {Who} who
 */
export function isYou({ you }, who) {
  if (you === null) return who.name === 'owner' && !who.id;
  return you.id && who.id ? you.id === who.id : you.name === who.name;
}

/** Whether the page is that of the pilot or of the owner of the machine. @param {State} state */
export const isPilot = ({ you }) => you === null || you.role === 'owner' || you.role === 'student';

/** Who else watches, in words; '' is nobody. @param {State} state */
export function watchingWords(state) {
  const others = (state.watching?.watchers ?? []).filter((w) => !isYou(state, w)).map((w) => w.name);
  // a nameless viewer knows that it watches itself
  const more = Math.max(0, (state.watching?.nameless ?? 0) - (state.you !== null && state.you.name === '' ? 1 : 0));
  if (others.length === 0) {
    return more === 0 ? '' : more === 1 ? t('one guest watches') : t('{n} guests watch', { n: more });
  }
  const names = others.length > 2 ? [...others.slice(0, 2), t('{n} more', { n: others.length - 2 })] : others;
  const all = more === 0 ? names : [...names, more === 1 ? t('one guest') : t('{n} guests', { n: more })];
  return all.length === 1 ? t('{who} watches', { who: all[0] ?? '' }) : t('{who} watch', { who: all.join(', ') });
}

/** What is done by a command. @type {Readonly<Record<string, string>>} */
const done = {
  line: 'set the line',
  about: 'chose the point',
  prompts: 'set how much is said',
  step: 'set up a step of a course',
  drill: 'set up a drill',
  end: 'ended the session',
  start: 'began a session',
  private: 'changed who may watch',
};

/**
 * What somebody else did last, in words; '' when that was long ago, or was done here.
 * @param {State} state @param {number} now ms since 1970
 */
export function actedWords(state, now) {
  const last = state.acted;
  if (!last || now - last.at > toldFor || isYou(state, last.acted.by)) return '';
  const { command, by, choice, student } = last.acted;
  const who = whoWords(by.name);
  if (command === 'choose') {
    return t('{who} chose: {what}', { who, what: titleOf(state, choice?.maneuver ?? '') });
  }
  if (command === 'student') {
    return student ? t('{who} named {student}', { who, student }) : t('{who} named nobody', { who });
  }
  return t('{who} {did}', { who, did: t(done[command] ?? 'acted') });
}

/** @param {State} state @param {string} maneuver */
function titleOf({ plan }, maneuver) {
  if (maneuver === 'auto') return t('Whichever is flown');
  return plan?.maneuver === maneuver ? cardText(plan.title) : maneuver;
}
