// The calls of the first page and the set-up page: simulators, demonstration, measuring.

/** @import { Finding, Measured, Showing } from './begin.d.ts' */
/** @import { Probe } from './setup.d.ts' */
/** @import { BriefSheet } from './types.d.ts' */

import { call, post } from './api.js';
import { query } from './pure/path.js';
import { may } from './rights.js';

/** @template T @typedef {{ value: T, error: '' } | { value: null, error: string }} Answer */

/** @param {string} station */
const of = (station) => `api/stations/${encodeURIComponent(station)}`;

/** @returns {Promise<Finding | null>} */
export const find = async () =>
  may('fly') ? /** @type {Answer<Finding>} */ (await call('api/find')).value : null;

/** @param {{ ask: string } | { stop: string } | { open: boolean }} what @returns {Promise<Answer<Finding>>} */
export const tell = (what) => post('api/find', what);

/** @param {string} station @returns {Promise<Probe | null>} */
export const probe = async (station) =>
  may('fly') ? /** @type {Answer<Probe>} */ (await call(`${of(station)}/probe`)).value : null;

/** @param {{ maneuver: string, aircraft: string }} choice @returns {Promise<Answer<Showing>>} */
export const show = (choice) => post('api/demonstration', choice);

/** Ends the demonstration. @returns {Promise<Answer<Showing>>} */
export const endShow = () => call('api/demonstration', { method: 'DELETE' });

/** @param {string} station @returns {Promise<Answer<Measured>>} */
export const measured = (station) => call(`${of(station)}/measure`);

/** @param {string} station @param {'begin' | 'next' | 'again' | 'stop'} step @returns {Promise<Answer<Measured>>} */
export const measure = (station, step) => post(`${of(station)}/measure`, { step });

/** @param {string} station @param {string} title @returns {Promise<Answer<{ name: string, file: string }>>} */
export const card = (station, title) => post(`${of(station)}/card`, { title });

/** @param {{ maneuver: string, aircraft: string }} choice @returns {Promise<BriefSheet | null>} */
export const sheet = async (choice) =>
  /** @type {Answer<BriefSheet>} */ (await call(`api/brief?${query({ ...choice, standard: '' })}`)).value;
