// A leg's samples: where a moment lies in them, and how they are drawn. Pure.

/** @import { Callout, Check, Plan, Trace } from '../types.d.ts' */
/** @import { FlownLeg, FlownSheet, Rows } from '../sessions.d.ts' */

import { moreTicks, reach } from './geometry.js';

/**
 * The sample nearest to a value of a row that only rises (time, place).
 * @param {readonly (number | null)[] | undefined} row
 * @param {number} value
 */
export function nearest(row, value) {
  if (!row || row.length === 0) return 0;
  let low = 0;
  let high = row.length - 1;
  while (low < high) {
    const mid = (low + high) >> 1;
    if ((row[mid] ?? -Infinity) < value) low = mid + 1;
    else high = mid;
  }
  const before = row[low - 1];
  const here = row[low];
  return before != null && here != null && value - before < here - value ? low - 1 : low;
}

/**
 * The sample at which a turn angle is first reached between entry and exit, or the nearest to it.
 * @param {FlownLeg} flight
 * @param {number} turn
 */
export function atTurn(flight, turn) {
  const { time = [], turn: turned = [] } = flight.samples;
  let best = 0;
  let off = Infinity;
  for (let i = 0; i < time.length; i++) {
    const at = time[i];
    const here = turned[i];
    if (at == null || here == null || at < flight.leg.start - 0.05 || at > flight.leg.end + 0.5) continue;
    const away = Math.abs(here - turn);
    if (away < off) {
      off = away;
      best = i;
    }
    if (here >= turn && away < 3) break;
  }
  return best;
}

/** @param {Rows} rows @param {string} name @param {number} i @returns {number | null} */
export function value(rows, name, i) {
  return rows[name]?.[i] ?? null;
}

/** The row a lane of the ribbon is drawn from. @param {string} channel */
export function rowOf(channel) {
  return channel === 'height' ? 'climb' : channel;
}

/**
 * What is aimed at at a turn angle; null where nothing is known.
 * @param {Plan} plan
 * @param {string} channel
 * @param {number} turn
 */
export function aimAt(plan, channel, turn) {
  const all = plan.lanes?.find((l) => l.channel === channel)?.corridor ?? [];
  const after = all.findIndex((c) => c.turn >= turn);
  const b = all[after];
  if (!b) return null;
  const a = all[after - 1];
  if (!a) return turn < b.turn - 1 ? null : b.aim;
  return a.aim + ((b.aim - a.aim) * (turn - a.turn)) / (b.turn - a.turn);
}

/**
 * Round numbers that a plot of these values spans, and where its rules are.
 * @param {readonly (number | null)[][]} rows
 * @param {number} least what it spans at least
 */
export function span(rows, least) {
  let low = Infinity;
  let high = -Infinity;
  for (const row of rows) {
    for (const v of row) {
      if (v === null) continue;
      low = Math.min(low, v);
      high = Math.max(high, v);
    }
  }
  if (low > high) return null;
  const lack = Math.max(0, least - (high - low)) / 2;
  low -= lack;
  high += lack;
  const raw = (high - low) / 2;
  const ten = 10 ** Math.floor(Math.log10(raw));
  const step = (raw / ten >= 5 ? 5 : raw / ten >= 2 ? 2 : 1) * ten;
  const ticks = [];
  for (let k = Math.ceil(low / step); k * step <= high; k++) ticks.push(Number((k * step).toPrecision(10)));
  return { low, high, ticks };
}

/**
 * A line through samples; it breaks where a value is missing.
 * @param {readonly (number | null)[]} xs
 * @param {readonly (number | null)[]} ys
 * @param {(x: number) => number} px
 * @param {(y: number) => number} py
 */
export function line(xs, ys, px, py) {
  let path = '';
  let down = false;
  for (let i = 0; i < xs.length; i++) {
    const x = xs[i];
    const y = ys[i];
    if (x == null || y == null) {
      down = false;
      continue;
    }
    path += `${down ? 'L' : 'M'}${px(x).toFixed(1)} ${py(y).toFixed(1)}`;
    down = true;
  }
  return path;
}

/**
 * The checks in the order of the turn: by the checkpoints they belong to, then those of the whole leg, as they came.
 * @param {readonly Check[]} checks
 */
export function inOrder(checks) {
  const place = (/** @type {Check} */ c) => c.post ?? Infinity;
  return checks.map((check, i) => ({ check, i })).sort((a, b) => {
    const [p, q] = [place(a.check), place(b.check)];
    return p === q ? a.i - b.i : p - q;
  }).map(({ check }) => check);
}

/**
 * How many seconds before a turn angle was reached something was said; negative is after it,
 * null when it was not reached.
 * @param {FlownLeg} flight
 * @param {Callout} callout
 * @param {number} turn
 */
export function ahead(flight, callout, turn) {
  const i = atTurn(flight, turn);
  const at = value(flight.samples, 'time', i);
  const here = value(flight.samples, 'turn', i);
  return at === null || here === null || Math.abs(here - turn) > 3 ? null : at - callout.time;
}

/**
 * The checkpoint a callout is about: of a cue the next one, of a word after it the last one.
 * @param {FlownLeg} flight
 * @param {Callout} callout
 */
export function checkpointOf(flight, callout) {
  const posts = flight.plan.checkpoints ?? [];
  if (callout.kind === 'cue') return callout.to ?? posts.find((p) => p.turn > callout.turn)?.turn ?? null;
  if (callout.kind === 'after') return posts.findLast((p) => p.turn <= callout.turn + 2)?.turn ?? null;
  return null;
}

/**
 * The legs worth laying over one: same maneuver; the best first, then as flown.
 * @param {readonly FlownSheet[]} legs
 * @param {number} n of the leg itself
 */
export function comparable(legs, n) {
  const self = legs.find((l) => l.n === n);
  if (!self) return [];
  return legs.filter((l) => l.n !== n && l.plan === self.plan && (l.trace?.length ?? 0) > 0)
    .sort((a, b) => b.score - a.score || a.n - b.n);
}

/**
 * The leg flown the other way that goes with one: the nearest of its series.
 * @param {readonly FlownSheet[]} legs
 * @param {number} n of the leg itself
 */
export function partner(legs, n) {
  const self = legs.find((l) => l.n === n);
  if (!self) return null;
  return comparable(legs, n).filter((l) => l.series === self.series && l.direction !== self.direction)
    .sort((a, b) => Math.abs(a.n - n) - Math.abs(b.n - n))[0] ?? null;
}

/**
 * The lanes of a plan, wide enough for what was flown: in the chair nothing is cut off at the edge.
 * @template {Pick<Plan, 'lanes'>} P
 * @param {P} plan
 * @param {readonly (readonly Trace[])[]} traces
 * @returns {P}
 */
export function widened(plan, traces) {
  return {
    ...plan,
    lanes: (plan.lanes ?? []).map((lane) => {
      const flown = reach(lane.channel, traces);
      const low = Math.min(lane.low, flown.low);
      const high = Math.max(lane.high, flown.high);
      return low === lane.low && high === lane.high
        ? lane
        : { ...lane, low, high, ticks: moreTicks(lane.ticks ?? [], low, high) };
    }),
  };
}
