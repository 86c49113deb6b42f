// What is wrong now: lanes outside their corridor, limits that are passed, and the way back. Pure.

/** @import { Callout, Check, Flown, Lane, LaneChannel, Plan } from '../types.d.ts' */
/** @import { Box } from './geometry.js' */
/** @import { State } from '../view.d.ts' */

import { allowed, laneValue } from './geometry.js';
import { inTurn } from './store.js';
import { t } from './text.js';

/** @typedef {'left' | 'right' | 'up' | 'down'} Way */
/**
 * @typedef {object} Outside
 * @property {'high' | 'low'} side
 * @property {number} by how far past the edge, in the lane's unit
 * @property {number} low what is allowed here
 * @property {number} high
 */

/**
 * How a value stands outside its corridor; null inside.
 * @param {Lane} lane @param {number} turn @param {number | null} value
 * @returns {Outside | null}
 */
export function outside(lane, turn, value) {
  const edge = value === null ? null : allowed(lane, turn);
  if (value === null || !edge) return null;
  if (value > edge.high) return { side: 'high', by: value - edge.high, ...edge };
  return value < edge.low ? { side: 'low', by: edge.low - value, ...edge } : null;
}

/** The lane a limit belongs to; a load has none. @type {Readonly<Record<string, LaneChannel>>} */
const laneOfLimit = { 'bank-limit': 'bank', stall: 'airspeed', 'hard-deck': 'height', 'never-exceed': 'airspeed' };

/** On which side of its lane a limit lies. @type {Readonly<Record<string, 'high' | 'low'>>} */
const sideOfLimit = { 'bank-limit': 'high', stall: 'low', 'hard-deck': 'low', 'never-exceed': 'high' };

/**
 * Which lane is in trouble, one at most: the one the safety words name, else the one farthest outside its corridor,
 * in widths of it.
 * @param {State} state @param {Plan} plan @param {Flown} now where the flight is
 * @param {boolean} judged whether the corridor is that of what is flown
 * @returns {{ named: string, side: 'high' | 'low' | '', out: ReadonlyMap<string, Outside> }}
 */
export function trouble(state, plan, now, judged) {
  /** @type {Map<string, Outside>} */ const out = new Map();
  let named = '';
  let worst = 0;
  for (const lane of judged ? plan.lanes ?? [] : []) {
    const is = outside(lane, now.turn, laneValue(now, lane.channel));
    if (!is) continue;
    out.set(lane.channel, is);
    const far = is.by / Math.max(is.high - is.low, 1e-9);
    if (far > worst) [worst, named] = [far, lane.channel];
  }
  const limit = state.safety.at(-1)?.id;
  if (limit !== undefined) named = laneOfLimit[limit] ?? '';
  const side = limit === undefined ? out.get(named)?.side : sideOfLimit[limit];
  return { named, side: named === '' ? '' : side ?? '', out };
}

/** The most lanes at a time: where there is one more, of a turn about a point, the nose gives way. */
const most = 4;

/**
 * The lanes to show where there is room for a number of them: the first ones; in an alarm the one it names,
 * alone, where not all have room. After a leg, the lane of the missed check with the most weight is among them.
 * @param {readonly Lane[]} all @param {number} room
 * @param {{ named: string, alarm: boolean, missed: readonly Check[] }} is
 * @returns {readonly Lane[]}
 */
export function shownLanes(all, room, { named, alarm, missed }) {
  const lanes = all.length > most ? all.filter((l) => l.channel !== 'pitch') : all;
  if (room >= lanes.length) return lanes;
  if (alarm && lanes.some((l) => l.channel === named)) return lanes.filter((l) => l.channel === named);
  const worst = missed
    .filter((c) => c.verdict === 'missed' && lanes.some((l) => l.channel === c.channel))
    .sort((a, b) => b.weight * (1 - b.score) - a.weight * (1 - a.score))[0]?.channel;
  const first = lanes.slice(0, room);
  if (!worst || first.some((l) => l.channel === worst)) return first;
  return [...lanes.slice(0, room - 1), ...lanes.filter((l) => l.channel === worst)];
}

/** Beside the pen: what is wrong with a value, by channel and side. @type {Readonly<Record<string, string>>} */
const faults = {
  'bank high': '{by} too steep', 'bank low': '{by} too shallow',
  'pitch high': '{by} too high', 'pitch low': '{by} too low',
  'airspeed high': '{by} too fast', 'airspeed low': '{by} too slow',
  'height high': '{by} too high', 'height low': '{by} too low',
  'radius high': '{by} too far', 'radius low': '{by} too near',
  'pivotal high': '{by} too high', 'pivotal low': '{by} too low',
};

/** @param {string} channel @param {'high' | 'low'} side @param {string} by with its unit */
export function faultWords(channel, side, by) {
  return t(faults[`${channel} ${side}`] ?? '{by}', { by });
}

/**
 * What the safety words ask of the stick: 'roll' is toward level wings.
 * @type {Readonly<Record<string, 'roll' | 'up' | 'down'>>}
 */
export const asked = {
  'Push, unload': 'down',
  'Ease the pull': 'down',
  'Ease the push': 'up',
  'Less bank': 'roll',
  'Unload, less bank': 'roll',
  'Hard deck! Wings level': 'roll',
  'Hard deck! Nose up': 'up',
  'Power back, wings level': 'roll',
  'Power back, nose up gently': 'up',
  'Less bank first': 'roll',
};

/**
 * The way the stick goes, '' where the words name another control or the bank is not known.
 * @param {Callout} safety @param {State['frame']} frame
 * @returns {Way | ''}
 */
export function wayBack(safety, frame) {
  const way = asked[safety.words] ?? '';
  if (way !== 'roll') return way;
  const bank = frame?.values?.['bank'] ?? 0;
  if (bank === 0 || !frame) return '';
  // in a turn the bank is counted toward its side
  const right = inTurn(frame) && frame.direction === 'left' ? bank < 0 : bank > 0;
  return right ? 'left' : 'right';
}

/** Until when the words of a limit stand and the cues wait. @param {string} limit its id */
export function untilWords(limit) {
  switch (limit) {
    case 'bank-limit': return t('until the bank is back inside its limit');
    case 'stall': return t('until there is speed over the stall again');
    case 'hard-deck': return t('until the flight is above the hard deck again');
    case 'load': return t('until the load is back inside its limits');
    case 'knock-off': return t('until it has been read');
    case 'never-exceed': return t('until the speed is back under its limit');
    default: return t('until it is over');
  }
}

/** A letter of the words beside the pen, and what their arrow takes, in the drawing's unit. */
const letter = 9.6;
const before = 34;

/** How far words may reach past the chart, in the drawing's unit: into the column of values, or where there is none. */
const into = { column: 30, edge: 14 };

/**
 * On which side of the pen words have room; '' for none, as on a phone in a language of long words: the value beside
 * the lane is inverted all the same.
 * @param {string} words @param {number} pen its x @param {Box} box @param {number} k pixels of the drawing's unit
 * @param {boolean} [column] whether the values stand at the right
 * @returns {'left' | 'right' | ''}
 */
export function sideFor(words, pen, box, k, column = true) {
  const wide = (words.length * letter + before) * k;
  const right = pen + wide <= box.right + (column ? into.column : into.edge) * k;
  const left = pen - wide >= box.left;
  if (right && left) return pen < (box.left + box.right) / 2 ? 'right' : 'left';
  return right ? 'right' : left ? 'left' : '';
}
