// How a student is doing with a maneuver: the share of its checks met, session by session, and what that says. Pure.
//
// The rule, over the latest eight sessions: the line through them has the slope that is the median of all slopes
// between two of them (Theil and Sen; P. K. Sen, J. Am. Stat. Assoc. 63:1379, 1968), which one odd session does not
// turn. Where it rises by five points of a hundred or more, flying is getting steadier; where it falls as much, less
// steady; else it is about the same. Five points are about one check of a card in twenty. A check that is met on less
// than half of the legs in each of the latest three sessions is what the student is stuck on, as long as the line does
// not rise; of several, the one met least. Eight, five, three and half: common practice, no source.

/** @import { Trend, TrendCheck } from '../sessions.d.ts' */

/** The sessions that are looked at. */
const latest = 8;

/** Fewer say nothing. */
export const fewest = 3;

/** What counts as a change over the sessions that are looked at, as a share of the checks. */
const change = 0.05;

/**
 * @typedef {object} Standing a session of a maneuver
 * @property {string} session
 * @property {string} began
 * @property {number} share of the checks that were met, 0 to 1
 *
 * @typedef {object} Progress
 * @property {Standing[]} sessions oldest first
 * @property {'few' | 'steadier' | 'same' | 'less' | 'stuck'} word
 * @property {TrendCheck | null} check the one that the student is stuck on
 */

/** The share of all checks met in each session. @param {Trend} trend @returns {Standing[]} */
export function standings(trend) {
  /** @type {Map<string, { began: string, met: number, of: number }>} */ const by = new Map();
  for (const p of trend.checks.flatMap((c) => c.points)) {
    const s = by.get(p.session) ?? { began: p.began, met: 0, of: 0 };
    s.met += p.met;
    s.of += p.legs;
    by.set(p.session, s);
  }
  return [...by]
    .filter(([, s]) => s.of > 0)
    .map(([session, s]) => ({ session, began: s.began, share: s.met / s.of }))
    .sort((a, b) => Date.parse(a.began) - Date.parse(b.began));
}

/**
 * The median of the slopes between any two values, per step; 0 for fewer than two.
 * @param {readonly number[]} values
 */
export function slope(values) {
  const all = values.flatMap((b, j) => values.slice(0, j).map((a, i) => (b - a) / (j - i))).sort((a, b) => a - b);
  if (all.length === 0) return 0;
  const middle = (all.length - 1) / 2;
  return ((all[Math.floor(middle)] ?? 0) + (all[Math.ceil(middle)] ?? 0)) / 2;
}

/** How much values change along their line, from the first to the last of the latest. @param {readonly number[]} all */
export function moved(all) {
  const values = all.slice(-latest);
  return slope(values) * (values.length - 1);
}

/** @param {Trend} trend @returns {Progress} */
export function progressOf(trend) {
  const sessions = standings(trend);
  if (sessions.length < fewest) return { sessions, word: 'few', check: null };
  const by = moved(sessions.map((s) => s.share));
  if (by >= change) return { sessions, word: 'steadier', check: null };
  const check = stuckOn(trend, sessions);
  if (check) return { sessions, word: 'stuck', check };
  return { sessions, word: by <= -change ? 'less' : 'same', check: null };
}

/** The share of the legs that met a check, by session. @param {TrendCheck} check */
function shares(check) {
  return check.points.map((p) => p.met / Math.max(1, p.legs));
}

/** @param {Trend} trend @param {readonly Standing[]} sessions */
function stuckOn(trend, sessions) {
  const last = sessions.slice(-fewest).map((s) => s.session);
  /** @type {{ check: TrendCheck | null, met: number }} */ let worst = { check: null, met: Infinity };
  for (const check of trend.checks) {
    const points = check.points.filter((p) => last.includes(p.session));
    if (points.length < fewest || points.some((p) => 2 * p.met >= p.legs)) continue;
    const met = points.reduce((sum, p) => sum + p.met / p.legs, 0);
    if (met < worst.met) worst = { check, met };
  }
  return worst.check;
}

/**
 * The checks that move, those that changed most first, and the others.
 * @param {readonly TrendCheck[]} checks
 */
export function byMovement(checks) {
  const all = checks
    .map((check) => ({ check, by: check.points.length < fewest ? 0 : Math.abs(moved(shares(check))) }))
    .sort((a, b) => b.by - a.by);
  return {
    moving: all.filter((x) => x.by >= change).map((x) => x.check),
    still: checks.filter((c) => all.some((x) => x.check === c && x.by < change)),
  };
}
