// A flown leg played again on the ribbon, and the leg it is laid against. Pure.

/** @import { Leg, Trace } from '../types.d.ts' */

/**
 * The flight at a moment of a trace, between its points where need be.
 * @param {readonly Trace[]} trace in the order of time, not empty
 * @param {number} time s, as in the trace
 * @returns {{ point: Trace, index: number }} index of the last point that has come by then
 */
export function moment(trace, time) {
  let low = 0;
  let high = trace.length - 1;
  while (low < high) {
    const mid = (low + high + 1) >> 1;
    if ((trace[mid]?.time ?? 0) <= time) low = mid;
    else high = mid - 1;
  }
  const a = /** @type {Trace} */ (trace[low]);
  const b = trace[low + 1];
  if (!b || time <= a.time || b.time <= a.time) return { point: a, index: low };
  const share = (time - a.time) / (b.time - a.time);
  return { index: low, point: {
    turn: between(a.turn, b.turn, share), time,
    bank: between(a.bank, b.bank, share), pitch: between(a.pitch, b.pitch, share),
    airspeed: maybe(a.airspeed, b.airspeed, share), height: maybe(a.height, b.height, share),
    along: maybe(a.along, b.along, share), across: maybe(a.across, b.across, share),
  } };
}

/** @param {number} a @param {number} b @param {number} share */
function between(a, b, share) {
  return a + (b - a) * share;
}

/** @param {number | null} a @param {number | null} b @param {number} share */
function maybe(a, b, share) {
  return a === null || b === null ? null : between(a, b, share);
}

/**
 * When a turn angle was first reached.
 * @param {readonly Trace[]} trace not empty
 * @param {number} turn degrees
 * @returns {number} s, as in the trace; the end where it never was
 */
export function timeAt(trace, turn) {
  const i = trace.findIndex((p) => p.turn >= turn);
  const b = trace[i];
  if (!b) return trace.at(-1)?.time ?? 0;
  const a = trace[i - 1];
  return a && b.turn > a.turn ? between(a.time, b.time, (turn - a.turn) / (b.turn - a.turn)) : b.time;
}

/**
 * The turn angle of the post after this moment; the end where there is none.
 * @param {readonly { turn: number }[]} posts
 * @param {readonly Trace[]} trace
 * @param {number} time
 */
export function nextPost(posts, trace, time) {
  for (const post of posts) {
    const at = timeAt(trace, post.turn);
    if (at > time + 0.01) return at;
  }
  return trace.at(-1)?.time ?? 0;
}

/**
 * The leg to lay a leg against: the latest before it the other way round.
 * @param {readonly Leg[]} legs in the order flown
 * @param {Leg} leg
 * @returns {Leg | null}
 */
export function against(legs, leg) {
  return (
    legs.findLast((l) => l.start < leg.start && l.direction !== leg.direction && (l.trace?.length ?? 0) > 1) ?? null
  );
}
