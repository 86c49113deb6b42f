// The lanes of the debrief: what each is drawn from, what is allowed in it, and which are chosen. Pure.

/** @import { BriefPoint, Check, Lane, Trace } from '../types.d.ts' */
/** @import { FlownLeg, Rows, View } from '../sessions.d.ts' */

import { speedHeight, trueSpeed } from './energy.js';
import { rowOf, span, value, widened } from './flight.js';

/** @typedef {'solid' | 'dashed' | 'dotted'} Stroke */
/** @typedef {{ row: string, title: string, stroke: Stroke }} LaneTrace one line of a lane */

/**
 * A lane that can be chosen. `least` is what it spans at least; `words` are of checks that the lane shows, by what
 * their channel or kind is called; `ideal` is its value on the reference path.
 * @typedef {object} Kind
 * @property {string} id
 * @property {string} title
 * @property {string} [short] its name beside the lane, where the title has no room
 * @property {string} unit
 * @property {number} least
 * @property {readonly LaneTrace[]} traces
 * @property {(p: BriefPoint, entry: BriefPoint) => number} [ideal]
 */

/** @param {string} row @param {string} [title] @param {Stroke} [stroke] @returns {LaneTrace} */
const of = (row, title = '', stroke = 'solid') => ({ row, title, stroke });

/** In the order of their buttons. @type {readonly Kind[]} */
export const kinds = [
  { id: 'bank', title: 'Bank', unit: '°', least: 30, traces: [of('bank')], ideal: (p) => p.bank },
  { id: 'radius', title: 'Distance', unit: '%', least: 20, traces: [of('radius')], ideal: () => 0 },
  {
    id: 'pivotal', title: 'Off pivotal altitude', short: 'Off pivotal', unit: 'ft', least: 200, traces: [of('pivotal')],
    ideal: () => 0,
  },
  { id: 'pitch', title: 'Nose', unit: '°', least: 20, traces: [of('pitch')], ideal: (p) => p.pitch },
  { id: 'airspeed', title: 'Speed', unit: 'kt', least: 20, traces: [of('airspeed')], ideal: (p) => p.airspeed },
  { id: 'height', title: 'Height', unit: 'ft', least: 200, traces: [of('climb')], ideal: (p) => p.height },
  { id: 'ball', title: 'Ball', unit: 'balls', least: 1.2, traces: [of('ball')], ideal: () => 0 },
  {
    id: 'load',
    title: 'Load factor',
    short: 'Load',
    unit: 'g',
    least: 1,
    traces: [of('normal-load')],
    ideal: (p) => p.load,
  },
  { id: 'roll-rate', title: 'Roll rate', unit: '°/s', least: 10, traces: [of('roll-rate')] },
  {
    id: 'controls',
    title: 'Controls',
    unit: '%',
    least: 40,
    traces: [
      of('elevator', 'elevator'), of('aileron', 'aileron', 'dashed'), of('rudder', 'rudder', 'dotted'),
      of('throttle', 'throttle', 'dashed'),
    ],
  },
  {
    id: 'energy',
    title: 'Energy height',
    short: 'Energy',
    unit: 'ft',
    least: 200,
    traces: [of('energy')],
    ideal: (p, entry) => p.energy - entry.energy,
  },
];

/** The most lanes at a time: a lane too low shows no corridor. */
export const most = 4;

/**
 * The rows of a leg with those that are worked out here: the energy height, what height and speed together are worth,
 * from the entry; controls in percent; the roll rate where the stream has none, from the bank.
 * @param {FlownLeg} flight
 * @returns {Rows}
 */
export function rowsOf(flight) {
  const { samples, leg } = flight;
  const speed = samples['true-airspeed'] ?? madeTrue(samples['airspeed'], samples['altitude']);
  const climb = samples['climb'];
  /** @type {Rows} */ const rows = { ...samples };
  if (speed && climb) {
    const start = (samples['time'] ?? []).findIndex((v) => v !== null && v >= leg.start);
    const first = speed[Math.max(0, start)] ?? null;
    rows['energy'] = climb.map((h, i) => {
      const v = speed[i] ?? null;
      return h === null || v === null || first === null ? null : h + speedHeight(v) - speedHeight(first);
    });
  }
  for (const name of ['elevator', 'aileron', 'rudder', 'throttle']) {
    const row = samples[name];
    if (row) rows[name] = row.map((v) => (v === null ? null : v * 100));
  }
  const { what } = leg.about ?? { what: flight.plan.lanes?.some((l) => l.channel === 'pivotal') ? 'pylon' : '' };
  if (what) rows[what === 'center' ? 'radius' : 'pivotal'] = offRow(samples['time'] ?? [], leg.trace ?? []);
  const { bank, time } = samples;
  if (!rows['roll-rate'] && bank && time) rows['roll-rate'] = rate(bank, time);
  return rows;
}

/**
 * What the trace has of how far off it was, at the times of the samples.
 * @param {Rows[string]} time @param {readonly Trace[]} trace
 */
function offRow(time, trace) {
  let i = 0;
  return time.map((at) => {
    if (at === null) return null;
    while (i < trace.length - 1 && (trace[i + 1]?.time ?? Infinity) <= at) i++;
    return trace[i]?.off ?? null;
  });
}

/** @param {Rows[string] | undefined} row of airspeeds @param {Rows[string] | undefined} altitude */
function madeTrue(row, altitude) {
  return row?.map((v, i) => (v === null ? null : trueSpeed(v, altitude?.[i] ?? 0)));
}

/** The change a second over half a second each way. @param {(number | null)[]} row @param {(number | null)[]} time */
function rate(row, time) {
  const half = 5;
  return row.map((_, i) => {
    const [a, b] = [Math.max(0, i - half), Math.min(row.length - 1, i + half)];
    const [from, to, t0, t1] = [row[a], row[b], time[a], time[b]];
    return from == null || to == null || t0 == null || t1 == null || t1 <= t0 ? null : (to - from) / (t1 - t0);
  });
}

/** The kinds of which the leg has anything. @param {Rows} rows */
export function known(rows) {
  return kinds.filter((k) => k.traces.some((trace) => rows[trace.row]?.some((v) => v !== null)));
}

/** The lane a check is about, by its channel, else by its kind; null where it is none. @param {Check} check */
export function laneOfCheck(check) {
  /** @type {Record<string, string>} */
  const byChannel = {
    bank: 'bank', pitch: 'pitch', airspeed: 'airspeed', altitude: 'height', height: 'height', slip: 'ball',
    'normal-load': 'load', 'stall-margin': 'airspeed', power: 'controls', 'roll-rate': 'roll-rate',
    'vertical-speed': 'height', energy: 'energy', turn: 'bank', 'off-pivotal': 'pivotal',
    'speed-change': 'airspeed', 'pitch-rate': 'pitch',
  };
  /** @type {Record<string, string>} */
  const byKind = {
    round: 'radius', sight: 'pivotal', 'roll-ratio': 'bank', 'roll-out-angle': 'bank', 'energy-slope': 'energy',
    bank: 'bank',
  };
  return byChannel[check.channel ?? ''] ?? byChannel[check.kind] ?? byKind[check.kind] ?? null;
}

/** Whether a check of this lane was not met. @param {Kind} kind @param {readonly Check[]} checks */
export function decidedIn(kind, checks) {
  return checks.some((c) => (c.verdict === 'missed' || c.verdict === 'near') && laneOfCheck(c) === kind.id);
}

/**
 * The lanes that come chosen: those of the checks that decided, the worst first, then bank, nose, speed and height,
 * together at most four; in the order of their buttons. Where energy is a cause, energy and load come after the worst.
 * @param {readonly Check[]} checks worst first
 * @param {readonly Kind[]} there
 * @param {boolean} [energy] whether it is a cause
 * @returns {string[]}
 */
export function chosenFirst(checks, there, energy = false) {
  const ids = new Set(there.map((k) => k.id));
  /** @type {string[]} */ const picked = [];
  const pick = (/** @type {string | null} */ id) => {
    if (id !== null && ids.has(id) && !picked.includes(id) && picked.length < most) picked.push(id);
  };
  if (checks.some((c) => c.verdict === 'missed' || c.verdict === 'near')) pick('bank'); // it is the maneuver's own
  if (energy) {
    pick(checks.filter((c) => c.verdict === 'missed').map(laneOfCheck).find((l) => l !== null) ?? null);
    for (const id of ['energy', 'load']) pick(id);
  }
  for (const verdict of ['missed', 'near']) {
    for (const c of checks) if (c.verdict === verdict) pick(laneOfCheck(c));
  }
  for (const id of ['bank', 'radius', 'pivotal', 'pitch', 'airspeed', 'height']) pick(id);
  return there.filter((k) => picked.includes(k.id)).map((k) => k.id);
}

/**
 * The choice after a button is pressed: off, or on, where the one chosen longest gives way.
 * @param {readonly string[]} chosen in the order chosen
 * @param {string} id
 */
export function pressed(chosen, id) {
  if (chosen.includes(id)) return chosen.length > 1 ? chosen.filter((c) => c !== id) : [...chosen];
  return [...chosen, id].slice(-most);
}

/** What is allowed in a lane that the plan has no corridor for. @param {Kind} kind @param {readonly Check[]} checks */
function limits(kind, checks) {
  const check = checks.find((c) =>
    kind.id === 'ball' ? c.kind === 'ball-centered'
      : kind.id === 'load' ? c.channel === 'normal-load' && c.kind === 'extreme' : false);
  if (!check) return null;
  return kind.id === 'ball' ? { low: -quarter, high: quarter } : { low: check.met[0], high: check.met[1] };
}

/** How far the ball may be out: a quarter of its width, as the check counts it. */
const quarter = 0.25;

/**
 * A chosen lane as it is drawn. The ideal is a line of its own.
 * @typedef {object} DrawnLane
 * @property {Kind} kind
 * @property {Lane} lane
 * @property {{ turn: number, value: number }[]} ideal
 */

/**
 * The chosen lanes with their scales, wide enough for what was flown.
 * @param {View} view
 * @param {readonly Kind[]} chosen
 * @param {Rows} rows of the leg
 * @param {Rows | null} over of the one laid over it
 * @returns {DrawnLane[]}
 */
export function drawnLanes(view, chosen, rows, over) {
  const { main } = view;
  const planned = widened(main.plan, [main.leg.trace ?? [], view.over?.leg.trace ?? []]).lanes ?? [];
  return chosen.map((kind) => {
    const ideal = idealOf(main, kind);
    const lane = planned.find((l) => l.channel === kind.id);
    if (lane) return { kind, lane: tightened(lane, main, rows), ideal };
    return { kind, lane: ownLane(main, kind, rows, over, ideal), ideal };
  });
}

/**
 * The speed axis spans what was flown and what is allowed, not what the maneuver might ask of any aircraft.
 * @param {Lane} lane @param {FlownLeg} main @param {Rows} rows @returns {Lane}
 */
function tightened(lane, main, rows) {
  if (lane.channel !== 'airspeed') return lane;
  const corridor = (lane.corridor ?? []).flatMap((c) => [c.low, c.high]);
  const range = span([within(main, rows, 'airspeed'), corridor], 20);
  return range ? { ...lane, low: range.low, high: range.high, ticks: range.ticks } : lane;
}

/**
 * @param {FlownLeg} main @param {Kind} kind @param {Rows} rows @param {Rows | null} over
 * @param {DrawnLane['ideal']} ideal
 */
function ownLane(main, kind, rows, over, ideal) {
  const allowed = limits(kind, main.leg.checks ?? []);
  const edges = [allowed?.low ?? null, allowed?.high ?? null];
  const values = kind.traces.flatMap(({ row }) =>
    [within(main, rows, row), ...(over?.[row] ? [over[row]] : [])]);
  const range = span([...values, edges, ideal.map((p) => p.value)], kind.least) ??
    { low: 0, high: kind.least, ticks: [0, kind.least] };
  const full = main.plan.turn;
  const low = allowed?.low ?? range.low;
  const high = allowed?.high ?? range.high;
  const aim = kind.id === 'ball' ? 0 : high;
  const corridor = allowed ? [0, full].map((turn) => ({ turn, low, high, aim })) : [];
  /** @type {Lane} */
  const lane = {
    channel: /** @type {any} */ (kind.id), title: kind.short ?? kind.title, unit: kind.unit,
    low: range.low, high: range.high, ticks: range.ticks, corridor,
  };
  return lane;
}

/** A row between the entry and the exit. @param {FlownLeg} main @param {Rows} rows @param {string} row */
function within(main, rows, row) {
  const time = main.samples['time'] ?? [];
  return (rows[row] ?? []).filter((_, i) => {
    const at = time[i];
    return at != null && at >= main.leg.start - 0.05 && at <= main.leg.end + 0.05;
  });
}

/**
 * The ideal of a lane: the middle of the plan's corridor, else what the reference path gives.
 * @param {FlownLeg} main @param {Kind} kind
 */
function idealOf(main, kind) {
  const corridor = main.plan.lanes?.find((l) => l.channel === kind.id)?.corridor ?? [];
  if (corridor.length > 1) return corridor.map((c) => ({ turn: c.turn, value: c.aim }));
  const [entry] = main.path ?? [];
  const { ideal } = kind;
  if (!entry || !ideal) return [];
  return (main.path ?? []).map((p) => ({ turn: p.turn, value: ideal(p, entry) }));
}

/**
 * The points of a trace between entry and exit, over the turn angle.
 * @param {FlownLeg} flight @param {Rows} rows @param {string} row
 * @returns {{ turn: number, value: number | null }[]}
 */
export function traceOf(flight, rows, row) {
  const { time = [], turn = [] } = flight.samples;
  const out = [];
  for (let i = 0; i < time.length; i++) {
    const at = time[i];
    const turned = turn[i];
    if (at == null || turned == null || at < flight.leg.start - 0.05 || at > flight.leg.end + 0.05) continue;
    out.push({ turn: turned, value: value(rows, row, i) });
  }
  return out;
}

/** The trace of one of the plan's own lanes, as graded. @param {FlownLeg} flight @param {string} channel */
export function gradedTrace(flight, channel) {
  return (flight.leg.trace ?? []).map((p) => ({
    turn: p.turn,
    value: channel === 'bank' ? p.bank : channel === 'pitch' ? p.pitch
      : channel === 'airspeed' ? p.airspeed : channel === 'height' ? p.height
      : channel === 'radius' || channel === 'pivotal' ? p.off ?? null : null,
  }));
}

/** @param {DrawnLane} lane @param {FlownLeg} flight @param {Rows} rows */
export function tracesOf({ kind }, flight, rows) {
  const graded = kind.traces.length === 1 ? gradedTrace(flight, kind.id) : [];
  if (graded.some((p) => p.value !== null)) return kind.traces.map((k) => ({ ...k, points: graded }));
  return kind.traces.filter((k) => rows[k.row]).map((k) => ({ ...k, points: traceOf(flight, rows, k.row) }));
}

/** Less than this, in degrees of turn, is a bump. */
const brief = 4;

/**
 * The parts of a trace outside a corridor, each with the edge that it is past; none that is over within a few degrees.
 * @param {readonly { turn: number, value: number | null }[]} points
 * @param {readonly { turn: number, low: number, high: number }[]} corridor
 * @returns {{ turn: number, value: number, edge: number }[][]}
 */
export function excursions(points, corridor) {
  /** @type {{ turn: number, value: number, edge: number }[][]} */ const all = [];
  /** @type {{ turn: number, value: number, edge: number }[]} */ let open = [];
  const close = () => {
    if ((open.at(-1)?.turn ?? 0) - (open[0]?.turn ?? 0) >= brief) all.push(open);
    open = [];
  };
  for (const { turn, value: v } of points) {
    const edges = edgesAt(corridor, turn);
    if (v === null || !edges || (v >= edges.low && v <= edges.high)) {
      close();
      continue;
    }
    open.push({ turn, value: v, edge: v > edges.high ? edges.high : edges.low });
  }
  close();
  return all;
}

/** @param {readonly { turn: number, low: number, high: number }[]} corridor @param {number} turn */
function edgesAt(corridor, turn) {
  const after = corridor.findIndex((c) => c.turn >= turn);
  const b = corridor[after];
  const a = corridor[after - 1] ?? b;
  if (!a || !b || turn < a.turn - 0.5) return null;
  const f = b.turn > a.turn ? (turn - a.turn) / (b.turn - a.turn) : 0;
  return { low: a.low + (b.low - a.low) * f, high: a.high + (b.high - a.high) * f };
}

/** The row a lane's cursor reads. @param {Kind} kind */
export function cursorRow(kind) {
  return kind.traces[0]?.row ?? rowOf(kind.id);
}
