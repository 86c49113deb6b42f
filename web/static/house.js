// The calls of the panel other than the live socket.

/** @import { Cards, Choice, LineChoice, PromptsChoice, StationList } from './types.d.ts' */

import { post } from './api.js';

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
export const choose = (station, choice) => tell(station, 'choose', choice);

/**
 * Sets or clears the ground line of a station. Returns '' or why it was refused, in words.
 * @param {string} station
 * @param {LineChoice} choice
 */
export const line = (station, choice) => tell(station, 'line', choice);

/**
 * Sets how much is said in flight at a station. Returns '' or why it was refused, in words.
 * @param {string} station
 * @param {PromptsChoice['prompts']} prompts
 */
export const prompts = (station, prompts) => tell(station, 'prompts', { prompts });

/**
 * Shares a station with nobody, or with others again. Returns '' or why it was refused, in words.
 * @param {string} station
 * @param {boolean} on
 */
export const keepPrivate = (station, on) => tell(station, 'private', { private: on });

/**
 * @param {string} station
 * @param {'choose' | 'line' | 'prompts' | 'private'} act
 * @param {Choice | LineChoice | PromptsChoice | { private: boolean }} body
 */
async function tell(station, act, body) {
  return (await post(`api/stations/${encodeURIComponent(station)}/${act}`, body)).error;
}
