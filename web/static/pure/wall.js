// The sheets of all stations, and how a message of the wall changes them. Pure: no clock, no page.

/** @import {
 *   Corridor, Lane, Plan, Trace, WallLanes, WallMessage, WallPoint, WallSheet, WallSheetPlan,
 * } from '../types.d.ts' */
/** @import { Tile } from '../desk.d.ts' */

import { markCallout, markLeg } from './marks.js';

/** What a lane is called, by its channel. @type {Record<Lane['channel'], string>} */
const titles = {
  bank: 'Bank', pitch: 'Nose', airspeed: 'Speed', height: 'Height', radius: 'Distance', pivotal: 'Off pivotal',
};

/** The least between two points of a trace, ° of turn. */
const apart = 0.5;

export class Wall {
  /** Of the server’s run; with mark, what this page has. */
  run = '';
  mark = 0;
  /** How much later the server’s clock is than this one, ms. */
  ahead = 0;
  /** @type {string[]} */ names = [];
  /** @type {Map<string, Tile>} */ tiles = new Map();

  /** Whether there is a sheet of each station: where one is missing, the server is asked for all of them again. */
  get whole() {
    return this.names.every((name) => this.tiles.has(name));
  }

  /**
   * Takes a message. Returns the stations that changed; null when the stations themselves did.
   * @param {WallMessage} m @param {number} now ms since 1970
   * @returns {Set<string> | null}
   */
  take(m, now) {
    if (m.run !== this.run) {
      this.tiles = new Map();
      this.names = [];
    }
    this.run = m.run;
    this.mark = m.mark;
    this.ahead = m.time - now;
    /** @type {Set<string>} */ const changed = new Set();
    for (const sheet of m.sheets) {
      this.tiles.set(sheet.name, changedTile(this.tiles.get(sheet.name) ?? empty(sheet.name), sheet, now));
      changed.add(sheet.name);
    }
    if (m.names === null) return changed;
    this.names = m.names;
    for (const name of [...this.tiles.keys()]) if (!m.names.includes(name)) this.tiles.delete(name);
    return null;
  }
}

/** @param {string} name @returns {Tile} */
function empty(name) {
  return {
    name, info: null, plan: null, stage: null, last: null, trace: [], direction: '', marks: new Map(), said: null,
    safety: [], now: null, ticks: '', private: false,
  };
}

/**
 * A tile with what changed. Only the trace is the same array, and grows.
 * @param {Tile} before @param {WallSheet} sheet @param {number} now @returns {Tile}
 */
function changedTile(before, sheet, now) {
  if (sheet.private) return { ...empty(before.name), private: true };
  const tile = { ...before, private: false };
  if (sheet.plan) takePlan(tile, sheet.plan);
  if (sheet.info) tile.info = sheet.info;
  if (sheet.last) {
    tile.last = sheet.last;
    tile.marks = markLeg({ posts: sheet.last.posts ?? [] });
    tile.direction = sheet.last.direction;
  }
  if (sheet.stage) takeStage(tile, sheet.stage);
  if (sheet.trace) {
    tile.trace = sheet.trace.map(pointOf);
    if (flown(tile)) tile.marks = new Map();
  }
  for (const callout of sheet.said ?? []) takeCallout(tile, callout, now);
  if (sheet.now) takeNow(tile, sheet.now);
  if (sheet.ticks) tile.ticks = sheet.ticks;
  return tile;
}

/** @param {Tile} tile @param {WallSheetPlan} plan */
function takePlan(tile, plan) {
  if (tile.plan && plan.maneuver !== tile.plan.maneuver) {
    tile.last = null;
    tile.trace = [];
    tile.marks = new Map();
  }
  tile.plan = planOf(plan);
}

/** @param {Tile} tile @param {NonNullable<Tile['stage']>} stage */
function takeStage(tile, stage) {
  const was = flown(tile);
  tile.stage = stage;
  if (flown(tile)) {
    tile.direction = stage.direction;
    return;
  }
  tile.now = null;
  if (was && !tile.last) tile.trace = []; // a turn that became no leg
}

/** @param {Tile} tile @param {import('../types.d.ts').Callout} c @param {number} now */
function takeCallout(tile, c, now) {
  if (c.kind === 'safety' || c.kind === 'clear') {
    const others = tile.safety.filter((s) => s.id !== c.id);
    tile.safety = c.kind === 'safety' ? [...others, c] : others;
  }
  tile.marks = markCallout(tile.marks, tile.plan, c);
  if (c.words !== '' && c.kind !== 'clear' && c.kind !== 'again') tile.said = { callout: c, at: now };
}

/** @param {Tile} tile @param {NonNullable<WallSheet['now']>} now */
function takeNow(tile, { turn, lanes }) {
  tile.now = trace(turn, lanes);
  const end = tile.trace.at(-1);
  if (end === undefined || turn - end.turn >= apart) tile.trace.push(tile.now);
}

/** Whether a leg is shown as it is flown. @param {Tile} tile */
export function flown(tile) {
  const { stage } = tile;
  return stage !== null && (stage.state === 'turn' || stage.state === 'leg' || stage.awaited);
}

/** @param {WallPoint} p */
function pointOf([turn, ...lanes]) {
  return trace(turn ?? 0, lanes);
}

/** @param {number} turn @param {WallLanes} lanes @returns {Trace} */
function trace(turn, [bank, pitch, airspeed, height]) {
  return { turn, time: 0, bank: bank ?? 0, pitch: pitch ?? 0, airspeed, height, along: null, across: null };
}

/** The plan as the drawings take it. @param {WallSheetPlan} p @returns {Plan} */
function planOf(p) {
  return {
    maneuver: p.maneuver, title: p.title, standard: '', aircraft: '', turn: p.turn, legs: p.legs, cautions: null,
    checkpoints: p.posts.map((k) => ({ ...k, words: '', want: '' })),
    lanes: p.lanes.map((l) => ({
      ...l, title: titles[l.channel], ticks: null, corridor: l.corridor.map(corridorAt),
    })),
  };
}

/** @param {[number, number, number]} at @returns {Corridor} */
function corridorAt([turn, low, high]) {
  return { turn, low, aim: (low + high) / 2, high };
}
