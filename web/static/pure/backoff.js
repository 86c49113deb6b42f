// How long to wait before the next attempt. Pure.

const first = 400; // ms
const most = 2_000; // ms: a leg takes half a minute, and the server is near

/**
 * Doubles with each failure, up to two seconds, and strays by up to a half either way so
 * that many pages do not come back at once.
 * @param {number} failures in a row, from 0
 * @param {number} chance 0 to 1, from Math.random
 * @returns {number} ms
 */
export function backoff(failures, chance) {
  const steady = Math.min(first * 2 ** Math.min(failures, 10), most);
  return Math.round(steady * (0.5 + chance));
}
