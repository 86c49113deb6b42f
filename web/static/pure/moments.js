// Moments of a flight that somebody marked or remarked on: in which leg they are, and where on its chart. Pure.

/** @import { FlownSheet, Remark } from '../sessions.d.ts' */
/** @import { Trace } from '../types.d.ts' */

import { t } from './text.js';

/** @typedef {{ turn: number, words: string }} Moment a mark without words has '' */

/** Times are rounded, s. */
const slack = 0.5;

/** What a button writes in place of a remark. */
const marked = 'Marked';

/** The words of a mark: those of a remark stay as they were written. @param {string} words */
export function markWords(words) {
  return words === '' || words === marked ? t('Marked') : words;
}

/**
 * A remark with the leg that its moment lies in, where only the moment was told: a button box knows no legs.
 * @param {Remark} remark @param {readonly Pick<FlownSheet, 'n' | 'start' | 'end' | 'place'>[]} legs
 * @returns {Remark}
 */
export function inLeg(remark, legs) {
  const { leg, time } = remark;
  if (leg !== 0 || time === null) return remark;
  const its = legs.find((l) => time >= l.place - slack && time <= l.place + l.end - l.start + slack);
  return its ? { ...remark, leg: its.n } : remark;
}

/**
 * The turn angle of a moment of the stream, null before the entry or where there is no trace.
 * @param {readonly Pick<Trace, 'turn' | 'time'>[]} trace @param {number} time of the stream, s
 */
export function turnAt(trace, time) {
  const first = trace[0];
  if (first === undefined || time < first.time - slack) return null;
  return (trace.findLast((p) => p.time <= time) ?? first).turn;
}

/**
 * The remarked moments of a replayed flight that it has come to.
 * @param {readonly Pick<Remark, 'time' | 'words'>[]} remarks
 * @param {readonly Pick<Trace, 'turn' | 'time'>[]} trace of the leg so far
 * @param {{ time: number, place: number }} now in the stream and in the recording, s
 * @returns {Moment[]}
 */
export function reached(remarks, trace, now) {
  return remarks.flatMap(({ time, words }) => {
    if (time === null || time > now.place) return [];
    const turn = turnAt(trace, now.time - (now.place - time));
    return turn === null ? [] : [{ turn, words }];
  });
}
