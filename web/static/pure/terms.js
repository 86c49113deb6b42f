// The words of the trade that a newcomer asks about, each with a sentence that says what it means. Pure.
//
// What a grade and a verdict stand on: package score. What a clearing turn and a hard deck are for: FAA-H-8083-3C,
// chapters 5 and 10. To unload first, then roll: Airplane Upset Recovery Training Aid, revision 2.

import { t } from './text.js';

/** @typedef {keyof typeof all} Term */

/** By its name: how it is written in a sentence, and what it means. */
const all = {
  'knock-off': {
    words: () => t('stopped for safety'),
    says: () => t(
      'A knock-off: the leg ended because a limit of safety was passed, and counts as missed; or a person stopped ' +
        'it, and it counts for nothing. Recover to level flight before anything else.',
    ),
  },
  deck: {
    words: () => t('hard deck'),
    says: () => t(
      'The height above the ground below which nothing of the maneuver may go on. Passing it ends the leg: level the ' +
        'wings and climb.',
    ),
  },
  clearing: {
    words: () => t('clearing turns'),
    says: () => t(
      'Turns flown before the maneuver to look for other traffic: 90° to one side and back, or 180° around.',
    ),
  },
  unload: {
    words: () => t('unload'),
    says: () => t(
      'Ease the stick forward until the load is light. The wing stalls later then, and the airplane rolls freely.',
    ),
  },
  path: {
    words: () => t('reference path'),
    says: () => t(
      'The maneuver flown as the card asks, calculated for this aircraft without wind. It is what a leg is compared ' +
        'with.',
    ),
  },
  energy: {
    words: () => t('energy height'),
    says: () => t(
      'Height plus V²/2g: what height and airspeed together are worth in feet. Trading one for the other leaves it ' +
        'as it is; power adds to it, drag and load take from it. Source: FAA-H-8083-3C p. 4-7.',
    ),
  },
  gate: {
    words: () => t('set-up gate'),
    says: () => t(
      'Each line is a set-up gate: what must hold before the leg begins. When all are met the panel says Ready; what ' +
        'is only advised does not hold it back.',
    ),
  },
  excellent: { words: () => t('excellent'), says: () => t('A score of 95 or more: to the standard, without help.') },
  good: { words: () => t('good'), says: () => t('A score from 80 to 94: to the standard.') },
  fair: { words: () => t('fair'), says: () => t('A score from 60 to 79: nearly there, not yet to the standard.') },
  unable: { words: () => t('unable'), says: () => t('A score below 60: practice the parts before the whole.') },
  met: { words: () => t('met'), says: () => t('Within the limits of the standard.') },
  near: { words: () => t('near'), says: () => t('A little outside the limits: close, but not met.') },
  missed: { words: () => t('missed'), says: () => t('Well outside the limits of the standard.') },
};

/** The terms that may stand in any sentence; the others are common words, and looked for only where they are meant. */
const anywhere = /** @type {const} */ (['knock-off', 'deck', 'clearing', 'unload', 'path', 'energy']);

export const terms = /** @type {Term[]} */ (Object.keys(all));

/** Whether a word names a term. @param {string} name @returns {name is Term} */
export function isTerm(name) {
  return Object.hasOwn(all, name);
}

/** What a term means, in the language of now. @param {Term} name */
export function meaning(name) {
  return all[name].says();
}

/**
 * A sentence cut at the terms in it: each piece with the term it is, or null for what lies between.
 * @param {string} sentence
 * @param {readonly Term[]} [names] the terms looked for
 * @returns {{ words: string, term: Term | null }[]}
 */
export function pieces(sentence, names = anywhere) {
  const lower = sentence.toLowerCase();
  const found = names
    .map((term) => ({ term, length: all[term].words().length, at: wordAt(lower, all[term].words().toLowerCase()) }))
    .filter(({ at }) => at >= 0)
    .sort((a, b) => a.at - b.at);
  /** @type {{ words: string, term: Term | null }[]} */ const out = [];
  let done = 0;
  for (const { term, at, length } of found) {
    if (at < done) continue;
    if (at > done) out.push({ words: sentence.slice(done, at), term: null });
    out.push({ words: sentence.slice(at, at + length), term });
    done = at + length;
  }
  if (done < sentence.length) out.push({ words: sentence.slice(done), term: null });
  return out;
}

/** Where a word first stands as a whole, -1 where it does not. @param {string} sentence @param {string} word */
function wordAt(sentence, word) {
  const letter = /\p{L}/u;
  for (let at = sentence.indexOf(word); at >= 0; at = sentence.indexOf(word, at + 1)) {
    if (!letter.test(sentence[at - 1] ?? '') && !letter.test(sentence[at + word.length] ?? '')) return at;
  }
  return -1;
}
