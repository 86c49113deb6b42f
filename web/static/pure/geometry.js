// Where things stand on the ribbon and in the sight picture. Pure; all results are pixels.

/** @import { Around, Corridor, Flown, Lane, Plan, Trace } from '../types.d.ts' */

/**
 * @typedef {{ left: number, right: number, top: number, bottom: number }} Box
 * @typedef {{ lane: Lane, top: number, bottom: number }} Strip
 */

/** The ribbon runs on a little past the full turn, where an overshoot would be. */
const beyond = 8;

/** How much of the height a lane gets. @type {Record<string, number>} */
const shares = { bank: 1.45, pitch: 1.1, airspeed: 0.85, height: 0.85, radius: 1.1, pivotal: 1.1 };

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
 * @param {Plan} plan @param {readonly (readonly Flown[])[]} traces @returns {Plan}
 */
export function roomFor(plan, traces) {
  return { ...plan, lanes: (plan.lanes ?? []).map((lane) => {
    const { low, high } = reach(lane.channel, traces);
    const floor = lane.channel === 'airspeed' ? lowestFloor(lane, traces) : Infinity;
    return stretched(lane, Math.min(low, floor), high);
  }) };
}

/** Where the stall is so near that the speed lane shows it: less than the lane's span below it. @param {Lane} lane */
export function floorShown(lane) {
  return lane.low - (lane.high - lane.low);
}

/**
 * The lowest stall of these traces that a planned speed lane should have room for, with a strip of ground below it.
 * @param {Lane} lane @param {readonly (readonly Flown[])[]} traces
 */
function lowestFloor(lane, traces) {
  const shown = traces.flat().map(stallOf).filter((v) => v !== null && v > floorShown(lane));
  return Math.min(...shown.map((v) => /** @type {number} */ (v) - (lane.high - lane.low) * 0.12));
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
 * What a lane allows at a turn angle; null where it has no corridor there.
 * @param {Lane} lane @param {number} turn
 */
export function allowed(lane, turn) {
  const all = lane.corridor ?? [];
  const next = all.findIndex((c) => c.turn >= turn);
  const after = all[next < 0 ? all.length - 1 : next];
  const before = next > 0 ? all[next - 1] : after;
  if (all.length < 2 || !after || !before) return null;
  const share = after === before ? 0 : (turn - before.turn) / (after.turn - before.turn);
  if (turn < before.turn - 3) return null; // a lane may be judged from some turn on
  const between = (/** @type {number} */ a, /** @type {number} */ b) => a + (b - a) * share;
  return { low: between(before.low, after.low), high: between(before.high, after.high) };
}

/**
 * What of a trace lies outside the corridor: the area between the two, and the line itself.
 * @param {Box} box
 * @param {number} full
 * @param {Strip} strip
 * @param {readonly Trace[]} trace
 */
export function excursions(box, full, strip, trace) {
  const { lane } = strip;
  let area = '';
  let line = '';
  /** @type {Step | null} */ let before = null;
  for (const p of trace) {
    const v = laneValue(p, lane.channel);
    const edge = v === null ? null : allowed(lane, p.turn);
    if (v === null || !edge) {
      before = null;
      continue;
    }
    /** @type {Step} */
    const step = { at: x(box, full, p.turn), v, high: v - edge.high, low: edge.low - v };
    if (before) {
      const from = before;
      for (const side of /** @type {const} */ (['high', 'low'])) {
        const [a, b] = [from[side], step[side]];
        if (a <= 0 && b <= 0) continue;
        // where it crosses the edge between the two, straight
        const cut = a > 0 === b > 0 ? 0 : a / (a - b);
        const way = side === 'high' ? 1 : -1;
        const point = (/** @type {number} */ share, /** @type {number} */ past) => {
          const value = from.v + (step.v - from.v) * share;
          const px = round(from.at + (step.at - from.at) * share);
          return { trace: `${px} ${y(strip, value)}`, edge: `${px} ${y(strip, value - way * past)}` };
        };
        const start = a > 0 ? point(0, a) : point(cut, 0);
        const end = b > 0 ? point(1, b) : point(cut, 0);
        area += `M${start.trace}L${end.trace}L${end.edge}L${start.edge}Z`;
        line += `M${start.trace}L${end.trace}`;
      }
    }
    before = step;
  }
  return { area, line };
}

/**
 * The stall as the floor of the speed lane: its line, and the area down to the foot of the strip.
 * @param {Box} box
 * @param {number} full
 * @param {Strip} strip of the speed
 * @param {readonly Flown[]} trace
 */
export function floorPaths(box, full, strip, trace) {
  let area = '';
  let line = '';
  let before = '';
  let from = 0;
  for (const p of trace) {
    const stall = stallOf(p);
    if (stall === null || stall < strip.lane.low) {
      before = '';
      continue;
    }
    const at = x(box, full, p.turn);
    const to = `${at} ${y(strip, stall)}`;
    if (before !== '') {
      area += `M${before}L${to}L${at} ${strip.bottom}L${from} ${strip.bottom}Z`;
      line += `M${before}L${to}`;
    }
    [before, from] = [to, at];
  }
  return { area, line };
}

/** The speed at which the wing stalls at the load of the moment, kt; null where it is not known. @param {Flown} p */
export function stallOf(p) {
  return p.airspeed === null || p.stall === undefined || p.stall === null ? null : p.airspeed - p.stall;
}

/** @typedef {{ at: number, v: number, high: number, low: number }} Step high and low: how far past that edge */

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
    case 'radius':
    case 'pivotal': return t.off ?? null;
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

/**
 * The bank that holds the distance over the circle to come, as far as the ribbon goes.
 * @param {Box} box @param {number} full @param {Strip | undefined} strip @param {Around | null | undefined} around
 */
export function holdPath(box, full, strip, around) {
  const ahead = around?.hold?.ahead?.filter(([turn]) => turn <= full) ?? [];
  return strip ? path(ahead.map(([turn, bank]) => ({ x: x(box, full, turn), y: y(strip, bank) }))) : '';
}
