// What the machine lost before it could read it, in words. Pure.

/** @import { Lost, Phrase } from '../types.d.ts' */

import { clock } from './format.js';
import { t } from './text.js';
import { told } from './phrase.js';

/** Nothing while nothing was lost, or nobody says. @param {Lost | undefined} lost */
export function lostWords(lost) {
  if (!lost || lost.datagrams === 0) return '';
  return t('Datagrams that this machine lost since it started: {n}, the last at {time}. They came faster than it ' +
    'read them.', { n: lost.datagrams, time: clock(Date.parse(lost.last)) });
}

/**
 * What the machine does not do now because too much arrives; once it does all again, what it lost.
 *
 * @param {{ lost?: Lost, lacking?: Phrase[] } | null | undefined} list
 */
export function strainWords(list) {
  const now = (list?.lacking ?? []).map((p) => told(p));
  return now.length > 0 ? now.join(' ') : lostWords(list?.lost);
}
