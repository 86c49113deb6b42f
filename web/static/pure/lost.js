// What the machine lost before it could read it, in words. Pure.

/** @import { Lost } from '../types.d.ts' */

import { clock } from './format.js';
import { t } from './text.js';

/** Nothing while nothing was lost, or nobody says. @param {Lost | undefined} lost */
export function lostWords(lost) {
  if (!lost || lost.datagrams === 0) return '';
  return t('Datagrams that this machine lost since it started: {n}, the last at {time}. They came faster than it ' +
    'read them.', { n: lost.datagrams, time: clock(Date.parse(lost.last)) });
}
