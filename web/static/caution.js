// The caution that stands on every page.

import { text } from './dom.js';
import { t } from './pure/text.js';

/** Where there is no room for all of it. */
export const shortCaution = () => t('Simulator practice only. Never for use in an aircraft.');

const whole = () => t(
  'Simulator practice only. Never for use in an aircraft, not for navigation, no credit toward a license. ' +
    'The aircraft’s handbook, local rules and a licensed instructor come first.',
);

/** Puts it in where the page has it, in the language of now. */
export function caution() {
  for (const [id, words] of Object.entries({ caution: whole(), 'caution-short': shortCaution() })) {
    const node = document.getElementById(id);
    if (node) text(node, words);
  }
}
