// Where things stand on the ribbon and in the sight picture. Pure; all results are pixels.

/** @import { Corridor, Lane, Plan, Trace } from '../types.d.ts' */

/**
 * @typedef {{ left: number, right: number, top: number, bottom: number }} Box
 * @typedef {{ lane: Lane, top: number, bottom: number }} Strip
 */

/** The ribbon runs on a little past the full turn, where an overshoot would be. */
const beyond = 8;

/** How much of the height a lane gets. @type {Record<string, number>} */
const shares = { bank: 1.45, pitch: 1.1, airspeed: 0.85, height: 0.85 };

/**
 * The pixel of a turn angle, kept on the paper.
 * @param {Box} box
 * @param {number} full the maneuver's full turn, degrees
 * @param {number} turn degrees
 */
export function x(box, full, turn) {
  const at = Math.min(Math.max(turn, -2), full + beyond);
  return round(box.left + ((box.right - box.left) * at) / full);
}

/** The pixel of a value, kept within its strip. @param {Strip} strip @param {number} value */
export function y(strip, value) {
  const { low, high } = strip.lane;
  const share = high === low ? 0.5 : (value - low) / (high - low);
  const at = Math.min(Math.max(share, -0.06), 1.06);
  return round(strip.bottom - (strip.bottom - strip.top) * at);
}

/**
 * Cuts the box into the plan's lanes.
 * @param {Plan} plan
 * @param {Box} box
 * @param {number} gap between lanes
 * @returns {Strip[]}
 */
export function strips(plan, box, gap) {
  const lanes = plan.lanes ?? [];
  const total = lanes.reduce((sum, l) => sum + (shares[l.channel] ?? 1), 0);
  const room = box.bottom - box.top - gap * Math.max(0, lanes.length - 1);
  let top = box.top;
  return lanes.map((lane) => {
    const height = (room * (shares[lane.channel] ?? 1)) / total;
    const strip = { lane, top: round(top), bottom: round(top + height) };
    top += height + gap;
    return strip;
  });
}

/** How much farther than its plan a lane may reach, in spans of the plan. */
const farthest = 2;

/**
 * The lane with room for what was flown beyond it, in steps of an eighth of its span, so that it seldom changes.
 * @param {Lane} lane @param {number} low @param {number} high what was flown
 * @returns {Lane} itself where all has room
 */
export function stretched(lane, low, high) {
  const span = lane.high - lane.low;
  const step = span / 8;
  if (!(span > 0)) return lane;
  const up = overrun(high - lane.high, step, span);
  const down = overrun(lane.low - low, step, span);
  if (up === 0 && down === 0) return lane;
  const grown = { ...lane, low: lane.low - down, high: lane.high + up };
  return { ...grown, ticks: moreTicks(lane.ticks ?? [], grown.low, grown.high) };
}

/** @param {number} over @param {number} step @param {number} span */
function overrun(over, step, span) {
  return over > span * 0.02 ? Math.min(Math.ceil((over + step / 4) / step) * step, farthest * span) : 0;
}

/** Carries ticks on at their own distance. @param {readonly number[]} ticks @param {number} low @param {number} high */
export function moreTicks(ticks, low, high) {
  const [first, second] = ticks;
  if (first === undefined || second === undefined || second <= first) return [...ticks];
  const step = second - first;
  const more = [];
  for (let at = first - Math.floor((first - low) / step) * step; at <= high + 1e-9; at += step) more.push(at);
  return more;
}

/**
 * The lowest and the highest value of a lane in these traces; Infinity and −Infinity where there is none.
 * @param {string} channel
 * @param {readonly (readonly Trace[])[]} traces
 */
export function reach(channel, traces) {
  let low = Infinity;
  let high = -Infinity;
  for (const trace of traces) {
    for (const point of trace) {
      const v = laneValue(point, channel);
      if (v === null) continue;
      low = Math.min(low, v);
      high = Math.max(high, v);
    }
  }
  return { low, high };
}

/**
 * A plan whose lanes have room for these traces, in steps: in flight a lane seldom changes.
 * @param {Plan} plan @param {readonly (readonly Trace[])[]} traces @returns {Plan}
 */
export function roomFor(plan, traces) {
  return { ...plan, lanes: (plan.lanes ?? []).map((lane) => {
    const { low, high } = reach(lane.channel, traces);
    return stretched(lane, low, high);
  }) };
}

/**
 * Whether a value has left the lane so far that it should be drawn wider.
 * @param {Lane} lane
 * @param {Lane} planned
 * @param {number} value
 */
export function leaves(lane, planned, value) {
  const span = planned.high - planned.low;
  return (value > lane.high + span * 0.02 && lane.high < planned.high + farthest * span)
    || (value < lane.low - span * 0.02 && lane.low > planned.low - farthest * span);
}

/** @param {number} n */
function round(n) {
  return Math.round(n * 10) / 10;
}

/**
 * The corridor as a closed path, and its center line.
 * @param {Box} box
 * @param {number} full
 * @param {Strip} strip
 */
export function corridorPaths(box, full, strip) {
  const all = strip.lane.corridor ?? [];
  if (all.length < 2) return { area: '', aim: '' };
  /** @param {(c: Corridor) => number} value */
  const line = (value) => all.map((c) => `${x(box, full, c.turn)} ${y(strip, value(c))}`);
  const upper = line((c) => c.high);
  const lower = line((c) => c.low).reverse();
  return { area: `M${upper.join('L')}L${lower.join('L')}Z`, aim: `M${line((c) => c.aim).join('L')}` };
}

/**
 * The value a lane draws of a trace, null where the stream lacks it.
 * @param {Trace} t
 * @param {string} channel
 */
export function laneValue(t, channel) {
  switch (channel) {
    case 'bank': return t.bank;
    case 'pitch': return t.pitch;
    case 'airspeed': return t.airspeed;
    case 'height': return t.height;
    default: return null;
  }
}

/**
 * A trace as a path; it breaks where values are missing.
 * @param {Box} box
 * @param {number} full
 * @param {Strip} strip
 * @param {readonly Trace[]} trace
 */
export function tracePath(box, full, strip, trace) {
  let path = '';
  let down = false;
  for (const t of trace) {
    const v = laneValue(t, strip.lane.channel);
    if (v === null) {
      down = false;
      continue;
    }
    path += `${down ? 'L' : 'M'}${x(box, full, t.turn)} ${y(strip, v)}`;
    down = true;
  }
  return path;
}

/**
 * A line through places; it breaks where one has no height.
 * @param {readonly { x: number, y: number | null }[]} places
 */
export function path(places) {
  let d = '';
  let down = false;
  for (const { x: at, y: height } of places) {
    if (height !== null) d += `${down ? 'L' : 'M'}${at} ${height}`;
    down = height !== null;
  }
  return d;
}

/**
 * The greatest value of a lane, or the least, once the flight has turned away from it by the margin.
 * @param {readonly Trace[]} trace
 * @param {string} channel
 * @param {number} margin in the lane's unit
 * @param {1 | -1} [way] -1 for the least
 * @returns {{ turn: number, value: number } | null}
 */
export function peak(trace, channel, margin, way = 1) {
  let at = -1;
  let top = -Infinity;
  let now = -Infinity;
  for (let i = 0; i < trace.length; i++) {
    const point = trace[i];
    const v = point ? laneValue(point, channel) : null;
    if (v === null) continue;
    now = v * way;
    if (now > top) [top, at] = [now, i];
  }
  const point = trace[at];
  return point && point.turn > 5 && now < top - margin ? { turn: point.turn, value: top * way } : null;
}

/**
 * Whether a trace bends away below a place on it, so that there is room above.
 * @param {readonly Trace[]} trace
 * @param {string} channel
 * @param {number} turn
 * @param {number} value
 */
export function bulges(trace, channel, turn, value) {
  const beside = trace
    .filter((t) => Math.abs(Math.abs(t.turn - turn) - 15) <= 3)
    .map((t) => laneValue(t, channel))
    .filter((v) => v !== null);
  const mean = beside.reduce((sum, v) => sum + v, 0) / beside.length;
  return beside.length === 0 || value >= mean;
}

/**
 * Flags stand beside the pen on the side with room, all on one, each within its strip.
 * @param {Box} box
 * @param {number} pen the pen's x
 * @param {number} width of this flag
 * @param {number} widest of the flags
 */
export function flagX(box, pen, width, widest) {
  const gap = 12;
  return pen + gap + widest > box.right + 8 ? pen - gap - width : pen + gap;
}

/** @param {Strip} strip @param {number} at the value's y @param {number} height of the flag */
export function flagY(strip, at, height) {
  return Math.min(Math.max(at - height / 2, strip.top - 6), strip.bottom - height + 6);
}

/**
 * A place on a circle, from an angle off the nose, right positive; up is the nose.
 * @param {number} cx @param {number} cy @param {number} radius @param {number} angle degrees
 */
export function around(cx, cy, radius, angle) {
  const a = (angle * Math.PI) / 180;
  return { x: round(cx + radius * Math.sin(a)), y: round(cy - radius * Math.cos(a)) };
}

/**
 * A chord of a circle, upright, beside its center: where a ground line is drawn that lies so far to a side.
 * @param {number} cx
 * @param {number} cy
 * @param {number} radius
 * @param {number} aside px from the center, right positive; kept within the circle
 */
export function chord(cx, cy, radius, aside) {
  const off = Math.min(Math.max(aside, -radius * 0.9), radius * 0.9);
  const half = Math.sqrt(radius * radius - off * off);
  return { x1: round(cx + off), x2: round(cx + off), y1: round(cy - half), y2: round(cy + half) };
}

/**
 * The share of the way from the last post to the next one, 0 to 1.
 * @param {Plan} plan
 * @param {number} turn where the flight is
 * @param {number} next the next post
 */
export function progress(plan, turn, next) {
  const before = (plan.checkpoints ?? []).findLast((c) => c.turn < next)?.turn ?? 0;
  if (next <= before) return 0;
  return Math.min(Math.max((turn - before) / (next - before), 0), 1);
}
