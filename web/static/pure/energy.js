// Energy height: what height and speed together are worth, h + v²/2g in feet (FAA-H-8083-3C p. 4-7), and where on the
// turn it was spent. Pure.

/** @import { Cause } from '../types.d.ts' */

/** Standard gravity, m/s², and the international knot and foot, m/s and m: exact by definition. */
const gravity = 9.80665;
const knot = 1852 / 3600;
const foot = 0.3048;

/** Height that a speed is worth, ft: v²/2g. @param {number} kt */
export function speedHeight(kt) {
  return (kt * knot) ** 2 / (2 * gravity) / foot;
}

/**
 * The true airspeed of a calibrated one at an altitude, by the density of the standard atmosphere (ICAO Doc 7488); at
 * the speeds of trainers the air is hardly compressed.
 * @param {number} kt @param {number} altitude ft
 */
export function trueSpeed(kt, altitude) {
  return kt / (1 - 6.87559e-6 * altitude) ** (4.25588 / 2);
}

/** @typedef {{ turn: number, value: number | null }} Point */

/**
 * What a stretch of the turn took (negative) or gave, ft: as flown, and on the reference path where there is one.
 * @typedef {{ from: number, to: number, flown: number, path: number | null }} Spent
 */

/**
 * Where energy was spent, by the stretches between checkpoints. The last one ends where the leg does.
 * @param {readonly Point[]} flown @param {readonly Point[]} path @param {readonly number[]} turns ° with 0, rising
 * @returns {Spent[]}
 */
export function spent(flown, path, turns) {
  /** @type {Spent[]} */ const out = [];
  const end = flown.findLast((p) => p.value !== null)?.turn ?? 0;
  for (const [i, from] of turns.slice(0, -1).entries()) {
    const last = i === turns.length - 2;
    const to = turns[i + 1] ?? from;
    const change = between(flown, from, last ? Math.max(to, end) : to, last);
    if (change === null) break;
    out.push({ from, to, flown: change, path: between(path, from, to, last) });
  }
  return out;
}

/**
 * The change between two turn angles; null where it is not known. `open`: where the points end before, up to there.
 * @param {readonly Point[]} points @param {number} from @param {number} to @param {boolean} open
 */
function between(points, from, to, open) {
  const a = valueAt(points, from);
  const b = valueAt(points, to) ?? (open ? points.findLast((p) => p.value !== null && p.turn > from)?.value : null);
  return a === null || b == null ? null : b - a;
}

/** The value at a turn angle, as it is first reached. @param {readonly Point[]} points @param {number} turn */
function valueAt(points, turn) {
  const i = points.findIndex((p) => p.value !== null && p.turn >= turn);
  const b = points[i];
  const a = points[i - 1];
  if (!b || b.value === null) return null;
  if (!a || a.value === null || b.turn <= a.turn) return b.turn - turn < 3 ? b.value : null;
  return a.value + ((b.value - a.value) * (turn - a.turn)) / (b.turn - a.turn);
}

/** Whether energy is named among the causes. @param {readonly Cause[]} causes */
export function energyNamed(causes) {
  return causes.some(({ evidence }) => JSON.stringify(evidence).includes('"evidence.energy-'));
}
