// What else a leg could be graded by: the aircraft card that it fits, and the maneuver that was flown instead.

/** @import { Leg } from '../types.d.ts' */

import { h } from '../dom.js';
import { withUnit } from '../pure/format.js';
import { cardText, t } from '../pure/text.js';

/** @typedef {{ maneuver?: string, standard?: string, aircraft?: string }} OtherCards */

/**
 * What there is to propose, in words, with the cards.
 * @param {Leg} leg
 * @param {string} [standard] by which it was graded, where this version of the program grades it otherwise
 */
export function proposals(leg, standard) {
  /** @type {{ words: string, press: string, by: OtherCards }[]} */
  const list = [];
  if (leg.another) {
    const maneuver = cardText(leg.another.title);
    list.push({
      words: t('Another maneuver than the chosen one was flown: {maneuver}.', { maneuver }),
      press: t('Grade it as that maneuver'),
      by: { maneuver: leg.another.maneuver },
    });
  }
  if (leg.propose) {
    const { title, entry, stall = 0, aircraft } = leg.propose;
    const values = { aircraft: cardText(title), entry: withUnit(entry, 'kt'), stall: withUnit(stall, 'kt') };
    list.push({
      words: stall === 0
        ? t('No aircraft card was chosen. Entered at {entry}, it fits: {aircraft}.', values)
        : t('No aircraft card was chosen. Entered at {entry} and stalled at {stall}, it fits: {aircraft}.', values),
      press: t('Grade by this card'),
      by: { aircraft },
    });
  }
  if (standard) {
    list.push({
      words: t('Graded as on the day it was flown. This version of the program grades it otherwise.'),
      press: t('Grade again'),
      by: { standard },
    });
  }
  return list;
}

/**
 * The proposals, each with a button.
 * @param {Leg} leg
 * @param {(by: OtherCards) => void} take called with the cards of the one that is pressed
 * @param {string} [standard] see proposals
 */
export function otherwise(leg, take, standard) {
  return proposals(leg, standard).map(({ words, press, by }) => {
    const button = h('button', { type: 'button', class: 'propose' }, press);
    button.addEventListener('click', () => take(by));
    return h('p', { class: 'otherwise' }, h('span', {}, words), ' ', button);
  });
}
