// The room left over the stall and over the hard deck: what it was, and whether it closes. Pure.

/** @import { Flown } from '../types.d.ts' */

/** @typedef {'stall' | 'deck'} Wall */

/** How much is too little whatever the rate, and the slowest rate that is told. */
const walls = {
  stall: { low: 10, rate: 0.7 }, // kt, kt/s
  deck: { low: 500, rate: 8 }, // ft, ft/s
};

/** A margin that would be gone within so long at its present rate is closing, s (as long as a quick recovery takes). */
const soon = 7;

/** The rate is taken over the last of these, s. */
const window = 1;

/**
 * @typedef {object} Margin
 * @property {number} now
 * @property {'closing' | 'opening' | ''} trend
 * @property {boolean} large whether it is to be seen first: it is low, or gone soon
 * @property {number} full what the bar's length stands for
 * @property {{ turn: number, value: number }[]} stood what it was at the entry and at the first checkpoint
 */

/**
 * @param {Wall} wall
 * @param {number | null} now
 * @param {readonly Flown[]} trace of this leg
 * @param {number} time of now, s of the stream
 * @param {number} post the turn angle of the first checkpoint
 * @returns {Margin | null} null where it is not known
 */
export function margin(wall, now, trace, time, post) {
  if (now === null) return null;
  const { low, rate } = walls[wall];
  /** @type {Margin['stood']} */ const stood = [];
  let most = Math.max(now, 1);
  let before = null;
  for (const p of trace) {
    const value = p[wall] ?? null;
    if (value === null) continue;
    most = Math.max(most, value);
    if (stood.length === 0 && p.turn < 5) stood.push({ turn: 0, value });
    if (p.turn >= post && p.turn < post + 5 && stood.at(-1)?.turn !== post) stood.push({ turn: post, value });
    if (p.time <= time - window || before === null) before = { value, time: p.time };
  }
  const slope = before && time - before.time > window / 2 ? (now - before.value) / (time - before.time) : 0;
  const gone = slope < 0 && now / -slope < soon;
  return {
    now,
    trend: slope < -rate ? 'closing' : slope > rate ? 'opening' : '',
    large: now < low || gone,
    full: most * 1.04,
    stood,
  };
}
