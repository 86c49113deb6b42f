// How a station is shared with another Halfturn, in words.

/** @import { Share } from '../types.d.ts' */

import { told } from './phrase.js';
import { t } from './text.js';

// Clocks that differ by less are as good as equal, s.
const clockSlack = 5;

/** One sentence, '' for a station that is not shared. @param {Share | undefined} share */
export function shareWords(share) {
  if (!share) return '';
  if (share.with === '' && !share.up && share.why !== '') return told(share.why);
  const parts = [share.with === '' ? atSchool(share) : atHome(share)];
  if (share.behind > 0) {
    parts.push(t('{seconds} s of the recording are still to be sent', { seconds: String(Math.round(share.behind)) }));
  }
  if (share.up && Math.abs(share.clock) > clockSlack) {
    parts.push(t('the clocks differ by {seconds} s', { seconds: String(Math.round(Math.abs(share.clock))) }));
  }
  return parts.join('; ');
}

/** @param {Share} share */
function atHome(share) {
  const school = share.with;
  if (share.up) return t('Shared with {school} as {station}', { school, station: share.as });
  if (share.why !== '') return t('Not shared with {school}: {why}', { school, why: told(share.why) });
  return t('Shared with {school}: no link now, what is flown is sent later', { school });
}

/** @param {Share} share */
function atSchool(share) {
  return share.up ? t('Flown at another Halfturn') : t('Flown at another Halfturn: no link now');
}
