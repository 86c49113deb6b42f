// The calls of the panel other than the live socket.

/** @import { Cards, Choice, AboutChoice, LineChoice, PromptsChoice, StationList } from './types.d.ts' */

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
 * Chooses the point on the ground that a station flies about, or clears it. Returns '' or why it was refused, in words.
 * @param {string} station
 * @param {AboutChoice} choice
 */
export const about = (station, choice) => tell(station, 'about', choice);

/**
 * Carries out what parts of the page choose to fly by.
 * @param {readonly Element[]} parts @param {() => string} station
 * @param {(error: string) => void} done '' or why it was refused, in words
 */
export function flyBy(parts, station, done) {
  for (const part of parts) {
    part.addEventListener('line', async (e) => done(await line(station(), /** @type {CustomEvent} */ (e).detail)));
    part.addEventListener('about', async (e) => done(await about(station(), /** @type {CustomEvent} */ (e).detail)));
  }
}

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
 * @param {'choose' | 'line' | 'about' | 'prompts' | 'private'} act
 * @param {Choice | LineChoice | AboutChoice | PromptsChoice | { private: boolean }} body
 */
async function tell(station, act, body) {
  return (await post(`api/stations/${encodeURIComponent(station)}/${act}`, body)).error;
}
