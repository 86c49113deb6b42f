// The page's state, and how each message changes it. Pure.

/** @import {
 *   Callout, CalloutMessage, Flown, Frame, HelloMessage, Leg, LegMessage, MarkMessage, Message, Plan, PlanMessage,
 *   StationMessage, Watching,
 * } from '../types.d.ts' */
/** @import { Link, State } from '../view.d.ts' */

import { keepLevel, sinceEntry } from './entry.js';
import { markCallout, markLeg } from './marks.js';
import { decideCue, lengthOf, setBack } from './schedule.js';
import { ofCue } from './voice.js';

/** @param {number} now ms since 1970 @returns {State} */
export function empty(now) {
  return {
    link: { state: 'connecting', since: now, retryAt: null, reason: '' },
    server: '', run: '', seq: 0, station: '',
    info: null, plan: null, frame: null, frameAt: 0, linkAt: now, infoAt: now,
    trace: [], traceDirection: '', level: [], marks: new Map(), moments: [], legs: [],
    last: null, lastPlan: null, legsInSeries: 0, series: [], band: null, cues: [], safety: [],
    you: null, watching: null, acted: null, private: false,
  };
}

/** @param {State} state @param {Link} link @returns {State} */
export function withLink(state, link) {
  return { ...state, link };
}

/**
 * The state after a message.
 * @param {State} state
 * @param {Message} message
 * @param {number} now ms since 1970
 * @returns {State}
 */
export function reduce(state, message, now) {
  if (message.type === 'hello') return greet(state, message, now);
  if (message.type === 'frame') {
    return message.station === state.station ? withFrame(state, message, now) : state;
  }
  if (message.station !== state.station) return state;
  const seq = message.seq ?? state.seq;
  if (seq <= state.seq && message.seq !== undefined) return state; // had it before
  return event({ ...state, seq }, message, now);
}

/** @param {State} state @param {Exclude<Message, HelloMessage>} m @param {number} now @returns {State} */
function event(state, m, now) {
  switch (m.type) {
    case 'station':
      return withStation(state, m, now);
    case 'plan':
      return withPlan(state, m);
    case 'callout':
      return withCallout(state, m, now);
    case 'mark':
      return withMark(state, m);
    case 'leg':
      return withLeg(state, m);
    case 'watching':
      return { ...state, watching: company(m) };
    case 'acted':
      return { ...state, acted: { acted: m, at: now } };
    case 'series':
      return {
        ...state,
        series: [...state.series, m].slice(-seriesKept),
        legsInSeries: 0,
        lastPlan: m.maneuver === 'unclear' ? null : state.lastPlan,
      };
    default:
      return state;
  }
}

/**
 * A moment that somebody marks in a leg is kept with it.
 * @param {State} state @param {MarkMessage} m @returns {State}
 */
function withMark(state, { turn, words }) {
  const { frame } = state;
  if (turn === null || frame === null || !inTurn(frame)) return state;
  return { ...state, moments: [...state.moments, { turn, words }] };
}

/** Series kept, the latest. */
export const seriesKept = 6;

/** How far after the latest frame a callout may be, ° of turn. */
const between = 2;

/** @param {State} state @param {HelloMessage} m @param {number} now @returns {State} */
function greet(state, m, now) {
  const callouts = m.callouts ?? [];
  const waits = callouts.filter((c) => waiting(c, m.frame, 1));
  const said = callouts.findLast((c) => shows(c) && !waits.includes(c));
  const fresh = empty(now);
  const { frame } = m;
  const flying = frame !== null && beforeVerdict(frame);
  let marks = fresh.marks;
  if (flying) {
    // What was said before belongs to the leg before, also to one of another maneuver.
    const ends = [m.last, m.series?.at(-1)?.legs?.at(-1)].map((l) => l?.end ?? -Infinity);
    const since = Math.max(...ends.filter((e) => e <= frame.time), -Infinity);
    for (const c of callouts)
      if (c.time > since && c.turn <= frame.turn + between) marks = markCallout(marks, m.plan, c);
  } else if (m.last) {
    marks = markLeg(m.last);
  }
  return {
    ...fresh,
    link: state.link, server: m.server, run: m.run, seq: m.seq ?? 0, station: m.station,
    info: m.info, plan: m.plan, frame: m.frame,
    frameAt: m.frame ? now : 0,
    trace: flying ? m.trace ?? [] : [],
    traceDirection: m.frame?.direction ?? '',
    marks,
    last: m.last,
    legs: [m.other ?? null, m.last].filter((l) => l !== null),
    lastPlan: m.last ? m.lastPlan ?? m.plan : null,
    legsInSeries: m.last && !closed(m) ? m.last.number : 0,
    series: m.series ?? [],
    band: said ? { callout: said, at: now - (m.frame ? Math.max(0, m.frame.time - said.time) * 1000 : 60_000) } : null,
    cues: waits,
    safety: callouts.reduce(stillUnsafe, /** @type {readonly Callout[]} */ ([])),
    you: m.you ?? null,
    watching: company(m.watching),
    acted: m.acted ? { acted: m.acted, at: Date.parse(m.acted.at) || now } : null,
    private: m.private === true,
  };
}

/** @param {Watching | undefined} w @returns {Watching | null} null where nobody else watches */
function company(w) {
  return w && (w.nameless > 0 || (w.watchers ?? []).length > 0) ? w : null;
}

/** Whether the last leg's series has ended. @param {HelloMessage} m */
function closed(m) {
  const ended = m.series?.at(-1)?.legs?.at(-1);
  return ended !== undefined && m.last !== null && ended.start >= m.last.start;
}

/** @param {State} state @param {StationMessage} m @param {number} now @returns {State} */
function withStation(state, m, now) {
  const changed = state.info?.link !== m.link;
  return { ...state, info: m, infoAt: now, linkAt: changed ? now : state.linkAt };
}

/**
 * Marks of another maneuver do not belong on this sheet; its debrief stays to be read, and what is being flown goes
 * on.
 * @param {State} state
 * @param {PlanMessage} m
 * @returns {State}
 */
function withPlan(state, m) {
  if (m.maneuver === state.plan?.maneuver) {
    return { ...state, plan: m, legs: sameChoice(m, state.plan) ? state.legs : [] };
  }
  return { ...state, plan: m, marks: new Map(), moments: [], legs: [], legsInSeries: 0 };
}

/**
 * Whether two plans are of one maneuver, standard and aircraft: of another one the corridor is another.
 * @param {Plan | null} a @param {Plan | null} b
 */
export function sameChoice(a, b) {
  return a?.maneuver === b?.maneuver && a?.standard === b?.standard && a?.aircraft === b?.aircraft;
}

/** The last leg where it is of the maneuver on the sheet. @param {State} state */
export function lastHere(state) {
  return state.lastPlan?.maneuver === state.plan?.maneuver ? state.last : null;
}

/** @param {Frame} f */
export function inTurn(f) {
  return f.state === 'turn' || f.state === 'leg';
}

/** Whether a leg is shown as it is flown: in a turn, and after it until its verdict. @param {Frame} f */
export function beforeVerdict(f) {
  return inTurn(f) || Boolean(f.awaited);
}

/** @param {State} state @param {Frame} frame @param {number} now @returns {State} */
function withFrame(state, frame, now) {
  const next = { ...state, frame, frameAt: now };
  if (state.frame && frame.time < state.frame.time - setBack) next.band = null; // words of another flight
  if (state.cues.length > 0) showCues(next, now);
  if (inTurn(frame) && lastHere(state) === null) next.last = next.lastPlan = null; // of another maneuver, and over
  if (!inTurn(frame)) {
    if (frame.awaited) return next;
    next.level = keepLevel(state.level, frame);
    if (!state.frame || !beforeVerdict(state.frame)) return next;
    const last = lastHere(next); // a viewer who comes in now knows no other
    return { ...next, trace: [], marks: last ? markLeg(last) : new Map() };
  }
  const end = state.trace.at(-1);
  if (!end || frame.direction !== state.traceDirection || frame.turn < end.turn - 15) {
    return {
      ...next,
      trace: [...sinceEntry(state.level, frame), point(frame)],
      level: [],
      traceDirection: frame.direction,
      marks: new Map(),
      moments: [],
    };
  }
  if (frame.turn - end.turn < 0.5) return next;
  return { ...next, trace: [...state.trace, point(frame)] };
}

/** @param {Frame} f @returns {Flown} */
export function point(f) {
  const v = f.values ?? {};
  return {
    turn: f.turn,
    time: f.time,
    bank: v['bank'] ?? 0,
    pitch: v['pitch'] ?? 0,
    airspeed: v['airspeed'] ?? null,
    height: f.climb,
    along: f.ground?.along ?? null,
    across: f.ground?.across ?? null,
    off: f.around?.off ?? f.around?.above ?? null,
    stall: f.stall,
    deck: f.deck,
  };
}

/** @param {State} state @param {CalloutMessage} m @param {number} now @returns {State} */
function withCallout(state, m, now) {
  const safety = stillUnsafe(state.safety, m);
  const marks = markCallout(state.marks, state.plan, m);
  if (ofCue(m)) return { ...state, cues: state.cues.filter((c) => c.id !== m.id) };
  if (waiting(m, state.frame, state.info?.replay?.pace ?? 1, (now - state.frameAt) / 1000)) {
    return { ...state, safety, marks, cues: [...state.cues.filter((c) => c.id !== m.id), m].slice(-8) };
  }
  const band = shows(m) ? { callout: m, at: now } : state.band;
  return { ...state, safety, marks, band };
}

/**
 * Whether a cue is still to be said: it is sent early, and a voice begins it so that it ends with its checkpoint.
 * @param {Callout} c
 * @param {Frame | null} frame
 * @param {number} pace
 * @param {number} [age] of the frame, s
 */
function waiting(c, frame, pace, age = 0) {
  return (
    c.kind === 'cue' &&
    c.due !== undefined &&
    c.words !== '' &&
    decideCue(c, frame, age, lengthOf(c.words, 1, undefined) * pace) === 'wait'
  );
}

/**
 * Shows the cues whose time has come, as a usual voice says them: eye and ear get the same.
 * @param {State} next changed
 * @param {number} now
 */
function showCues(next, now) {
  const { frame } = next;
  const waits = next.cues.filter((c) => waiting(c, frame, next.info?.replay?.pace ?? 1));
  if (waits.length === next.cues.length) return;
  const come = next.cues.findLast(
    (c) =>
      !waits.includes(c) &&
      frame !== null &&
      inTurn(frame) &&
      frame.time >= c.time - setBack &&
      frame.turn < (c.to ?? Infinity),
  );
  if (come) next.band = { callout: come, at: now };
  next.cues = waits;
}

/** Whether the band shows it: what is said, once. @param {Callout} c */
function shows(c) {
  return c.words !== '' && c.kind !== 'clear' && c.kind !== 'again';
}

/** Safety words stand until a clear with the same id. @param {readonly Callout[]} safety @param {Callout} c */
function stillUnsafe(safety, c) {
  if (c.kind !== 'safety' && c.kind !== 'clear') return safety;
  const others = safety.filter((s) => s.id !== c.id);
  return c.kind === 'safety' ? [...others, c] : others;
}

/** @param {State} state @param {LegMessage} m @returns {State} */
function withLeg(state, m) {
  return {
    ...state,
    last: m,
    lastPlan: state.plan,
    legsInSeries: m.number,
    trace: [],
    marks: markLeg(m),
    legs: keepLeg(state.legs, m),
  };
}

/** How many legs are kept to be laid over each other. */
const legsKept = 8;

/** @param {readonly Leg[]} legs @param {Leg} leg */
function keepLeg(legs, leg) {
  return [...legs.filter((l) => l.start < leg.start), leg].slice(-legsKept); // in a replay time may go back
}
