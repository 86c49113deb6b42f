// Where something can be set up: the stations that are live.

/** @import { Station, StationList } from './types.d.ts' */

import { call } from './api.js';

/** @returns {Promise<Station[]>} */
export async function liveStations() {
  /** @type {{ value: StationList | null }} */
  const { value } = await call('api/stations');
  return (value?.stations ?? []).filter((s) => s.link === 'live' && !s.replay && !s.demonstration);
}

/**
 * The station at which something is set up for a student: where they sit, else one of a name, else any.
 * @param {readonly Station[]} stations @param {string} student @param {string} [name]
 */
export const seatOf = (stations, student, name = '') =>
  (student === '' ? undefined : stations.find((s) => s.student === student)) ??
  stations.find((s) => s.name === name) ?? stations[0];
