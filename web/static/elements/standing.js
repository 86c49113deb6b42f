// What a session is and how it stands with it, in words.

/** @import { Plan } from '../types.d.ts' */
/** @import { FlownLeg, FlownLegs, SessionDetail } from '../sessions.d.ts' */

import { judged, number, stationWords } from '../pure/format.js';
import { told } from '../pure/phrase.js';
import { dayWords, timeWords } from '../pure/sessions.js';
import { cardText, t } from '../pure/text.js';
import { wordOf } from './legs.js';
import { legName } from './over.js';

/** Whether the session is still being flown. @param {SessionDetail | null} detail */
function goesOn(detail) {
  return detail?.ended === '';
}

/**
 * Who flew, when and where, how many legs, by which cards.
 * @param {SessionDetail | null} detail @param {Plan | undefined} plan @param {number} legs
 */
export function subtitle(detail, plan, legs) {
  const when = detail ? `${dayWords(detail.began)}, ${timeWords(detail.began)}` : '';
  const words = [
    detail?.student ?? '',
    when,
    stationWords(detail?.station ?? ''),
    goesOn(detail) ? t('being flown now') : '',
    (legs === 0 ? t('no leg') : legs === 1 ? t('one leg') : t('{n} legs', { n: legs })).replace(' ', '\u00a0'),
  ];
  if (plan) {
    words.push(t('{standard} standard', { standard: cardText(plan.standard) }));
    words.push(plan.aircraft ? cardText(plan.aircraft) : t('no aircraft chosen'));
  }
  return words.filter((w) => w !== '').join('\u00a0· ');
}

/**
 * How it stands with the session and its recording, in words.
 * @param {SessionDetail | null} detail @param {FlownLegs | null} list
 * @param {string} error why there are no pictures
 */
export function standing(detail, list, error) {
  const words = [];
  if (goesOn(detail)) words.push(t('This session is being flown: a leg shows here once it is over.'));
  else if (list?.legs.length === 0) {
    words.push(
      list.advice
        ? t('No leg was flown in this session.')
        : t('No leg was flown in this session. The flight can still be replayed.'),
    );
  }
  if (detail?.left) words.push(told(detail.left));
  if (list?.legs.length === 0 && list.advice) words.push(told(list.advice));
  for (const hole of list?.holes ?? []) words.push(told(hole.words));
  if (list?.damage) words.push(t('The recording could not be read to its end: {why}', { why: told(list.damage) }));
  words.push(detail?.problem ? told(detail.problem) : error);
  return words.filter((w) => w !== '').join(' ');
}

/**
 * What is laid over, in words for the paper.
 * @param {string} id of the session that is shown
 * @param {FlownLeg} over @param {FlownLegs} all
 */
export function overName(id, over, all) {
  const sheet = over.session === id ? all.legs.find((l) => l.n === over.n) : undefined;
  return sheet
    ? `${legName(all, sheet)}, ${judged(sheet) ? number(sheet.score) : wordOf(sheet)}`
    : `${over.session}, ${t('leg {n}', { n: over.n })}`;
}
