// The first degrees of a turn, found in the level frames before it: a turn is known as one only after three degrees.
// The server does the same for those who join (web/memory.go); testdata/rules/entry.json holds both to one rule. Pure.

/** @import { Flown, Frame } from '../types.d.ts' */

import { wrap180 } from './format.js';

/** Seconds between the level frames that are kept. */
export const levelApart = 0.1;

/** How many level frames are kept. */
export const levelKept = 40;

/**
 * The level frames kept, with the newest.
 * @param {readonly Frame[]} level @param {Frame} frame @returns {readonly Frame[]}
 */
export function keepLevel(level, frame) {
  const last = level.at(-1);
  if (last && frame.time >= last.time && frame.time - last.time < levelApart) return level;
  if (last && frame.time < last.time) return [frame]; // another time
  return [...level.slice(level.length >= levelKept ? 1 : 0), frame];
}

/**
 * The flight from the entry to the first frame of a turn, without that frame, as a trace.
 * @param {readonly Frame[]} level in the order they came
 * @param {Frame} frame the first of the turn
 * @returns {Flown[]} empty where the headings are not known
 */
export function sinceEntry(level, frame) {
  const side = frame.direction === 'left' ? -1 : 1;
  const heading = frame.values?.['heading'];
  const altitude = frame.values?.['altitude'];
  /** @type {Flown[]} */
  const back = [];
  if (heading === undefined) return back;
  let before = frame;
  let turn = frame.turn;
  for (let i = level.length - 1; i >= 0 && turn > 0; i--) {
    const f = /** @type {Frame} */ (level[i]);
    const v = f.values ?? {};
    const there = frame.turn - side * wrap180(heading - (v['heading'] ?? NaN));
    if (!(there < turn) || before.time - f.time > 1 || f.time >= before.time) break; // turned back, or a hole
    before = f;
    turn = there;
    back.unshift({
      turn: Math.max(0, there),
      time: f.time,
      bank: side * (v['bank'] ?? 0),
      pitch: v['pitch'] ?? 0,
      airspeed: v['airspeed'] ?? null,
      height:
        frame.climb === null || altitude === undefined || v['altitude'] === undefined
          ? null
          : v['altitude'] - altitude + frame.climb,
      along: null,
      across: null,
      stall: f.stall,
      deck: f.deck,
    });
  }
  return back;
}
