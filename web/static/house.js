// The few calls of the page besides the live socket.

/** @import { Cards, Choice, StationList } from './types.d.ts' */

import { t } from './pure/text.js';

/** @template T @param {string} path @returns {Promise<T | null>} null when the server does not answer */
async function get(path) {
  try {
    const answer = await fetch(path, { headers: { accept: 'application/json' } });
    return answer.ok ? await answer.json() : null;
  } catch {
    return null;
  }
}

/** @returns {Promise<Cards | null>} */
export const cards = () => get('api/cards');

/** @returns {Promise<import('./sessions.d.ts').Students | null>} */
export const students = () => get('api/students');

/** @returns {Promise<StationList | null>} */
export const stations = () => get('api/stations');

/**
 * Sets what a station flies. Returns '' or why it was refused, in words.
 * @param {string} station
 * @param {Choice} choice
 */
export async function choose(station, choice) {
  try {
    const answer = await fetch(`api/stations/${encodeURIComponent(station)}/choose`, {
      method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(choice),
    });
    if (answer.ok) return '';
    const { error } = await answer.json();
    return typeof error === 'string' ? error : `refused (${answer.status})`;
  } catch {
    return t('Halfturn does not answer; nothing was changed');
  }
}
