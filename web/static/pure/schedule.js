// When a waiting cue is begun, so that its words end as its checkpoint comes. Pure.

/** @import { Callout, Frame } from '../types.d.ts' */

/**
 * Between two looks at the waiting cues, s. The pilot's own reaction is not taken off: the words are to end as the
 * checkpoint comes.
 */
export const step = 0.05;

/** Words that would end later than this after their checkpoint, s, are not begun. */
export const tolerance = 0.4;

/** A frame older than this, s, says nothing about the time left: the simulator may be paused. */
export const blind = 1.5;

/** A clock that goes back by more than this, s, was set back: the simulator started again. */
export const setBack = 1;

/**
 * Seconds to a cue's checkpoint.
 * @param {Callout} cue @param {Frame} frame the latest @param {number} age seconds since it came
 */
export function timeTo(cue, frame, age) {
  const next = frame.cues?.find((q) => q.to === cue.to);
  if (next) return next.seconds - age;
  return (cue.due ?? cue.time) - frame.time - age;
}

/**
 * What to do with a cue now: begin it, wait, or drop it (it would end late, or its leg is over or of another flight).
 * @param {Callout} cue
 * @param {Frame | null} frame
 * @param {number} age seconds since the frame came
 * @param {number} length seconds the voice takes for the words
 * @returns {'start' | 'wait' | 'late' | 'over'}
 */
export function decideCue(cue, frame, age, length) {
  if (!frame || age > blind) return 'wait';
  if (frame.time < cue.time - setBack) return 'over';
  const flying = frame.state === 'turn' || frame.state === 'leg';
  if (!flying) return frame.time > cue.time ? 'over' : 'wait';
  const left = timeTo(cue, frame, age);
  if (left - length < -tolerance || (cue.to !== undefined && frame.turn > cue.to)) return 'late';
  return left <= length + step ? 'start' : 'wait';
}

/** Syllables, as rows of vowels and of numbers as they are spoken. @param {string} words */
export function syllables(words) {
  const numbers = words.match(/\d+/g)?.reduce((n, d) => n + ofNumber(Number(d)), 0) ?? 0;
  const rows = words.toLowerCase().replace(/e\b/g, '').match(/[aeiouyäöü]+/g)?.length ?? 0;
  const units = (words.match(/°/g)?.length ?? 0) * 2;
  return Math.max(words.trim() === '' ? 0 : words.trim().split(/\s+/).length, rows + numbers + units);
}

/** @param {number} n @returns {number} */
function ofNumber(n) {
  if (n < 20) return [2, 1, 1, 1, 1, 1, 1, 2, 1, 1, 1, 3, 1, 2, 2, 2, 2, 3, 2, 2][n] ?? 1;
  if (n < 100) return (n < 70 || n >= 80 ? 2 : 3) + (n % 10 === 0 ? 0 : ofNumber(n % 10));
  if (n < 1000) return ofNumber(Math.floor(n / 100)) + 2 + (n % 100 === 0 ? 0 : ofNumber(n % 100));
  return ofNumber(Math.floor(n / 1000)) + 2 + (n % 1000 === 0 ? 0 : ofNumber(n % 1000));
}

/** Pauses within the words: at commas and between sentences. @param {string} words */
export function pauses(words) {
  return words.match(/[,.;:!?]\s/g)?.length ?? 0;
}

/**
 * Seconds of a pause, and those before the first sound and after the last: as espeak-ng 1.51 speaks at 175 words a
 * minute.
 */
const pause = 0.45;
const edges = 0.4;

/** A syllable of a voice not heard yet, s; likewise. */
const usual = 0.2;

/**
 * Seconds a phrase will take.
 * @param {string} words
 * @param {number} rate of the speech
 * @param {number | undefined} measured seconds a syllable, of this voice and rate
 */
export function lengthOf(words, rate, measured) {
  const one = measured ?? usual / rate;
  return syllables(words) * one + (edges + pause * pauses(words)) * one / usual;
}

/**
 * Seconds a syllable, after one more phrase was heard.
 * @param {number | undefined} before @param {string} words @param {number} seconds it took
 */
export function refined(before, words, seconds) {
  const one = Math.max(0.03, seconds / (Math.max(1, syllables(words)) + (edges + pause * pauses(words)) / usual));
  return before === undefined ? one : before + 0.3 * (one - before);
}
