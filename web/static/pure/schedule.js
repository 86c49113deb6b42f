// When a waiting cue is begun, so that its words end as its checkpoint comes. Pure.

/** @import { Callout, Frame } from '../types.d.ts' */

/** Between two looks at the waiting cues, s. The pilot's own reaction is not taken off: the words are to end as the checkpoint comes. */
export const step = 0.05;

/** Words that would end so long after their checkpoint, s, are not begun. */
export const tolerance = 0.4;

/** A cue that is due at no time, that of the exit, is begun within so long, s, or not at all. */
export const patience = 2.5;

/** A frame older than this, s, tells no time any more: the simulator may be paused. */
export const blind = 1.5;

/**
 * Seconds to a cue's checkpoint.
 * @param {Callout} cue @param {Frame} frame the latest @param {number} age seconds since it came
 */
export function timeTo(cue, frame, age) {
  if (frame.cue && frame.cue.to === cue.to && frame.cue.seconds !== null) return frame.cue.seconds - age;
  if (frame.next && frame.next.turn === cue.to && frame.next.seconds !== null) return frame.next.seconds - age;
  return (cue.due ?? cue.time) - frame.time - age;
}

/**
 * What to do with a cue now: begin it, wait, or drop it (it would end late, or its leg is over).
 * @param {Callout} cue
 * @param {Frame | null} frame
 * @param {number} age seconds since the frame came
 * @param {number} length seconds the voice takes for the words
 * @returns {'start' | 'wait' | 'late' | 'over'}
 */
export function decideCue(cue, frame, age, length) {
  if (!frame || age > blind) return 'wait';
  const flying = frame.state === 'turn' || frame.state === 'leg';
  if (!flying) return frame.time > cue.time ? 'over' : 'wait';
  if (cue.due === undefined) return frame.time + age - cue.time > patience ? 'late' : 'start';
  const left = timeTo(cue, frame, age);
  if (left - length < -tolerance || (cue.to !== undefined && frame.turn > cue.to)) return 'late';
  return left <= length + step ? 'start' : 'wait';
}

/** Syllables, as rows of vowels; a digit is spoken as a word. @param {string} words */
export function syllables(words) {
  const digits = words.match(/\d/g)?.length ?? 0;
  const rows = words.toLowerCase().replace(/e\b/g, '').match(/[aeiouyäöü]+/g)?.length ?? 0;
  const units = (words.match(/°/g)?.length ?? 0) * 2;
  return Math.max(words.trim() === '' ? 0 : words.trim().split(/\s+/).length, rows + digits * 1.5 + units);
}

/** Seconds before the first sound and after the last. */
const edges = 0.15;

/** A syllable of a voice not heard yet, s: 150 words a minute at 1.5 syllables; from memory. */
const usual = 0.26;

/**
 * Seconds a phrase will take.
 * @param {string} words @param {number} rate of the speech @param {number | undefined} measured seconds a syllable, of this voice and rate
 */
export function lengthOf(words, rate, measured) {
  return edges + syllables(words) * (measured ?? usual / rate);
}

/**
 * Seconds a syllable, after one more phrase was heard.
 * @param {number | undefined} before @param {string} words @param {number} seconds it took
 */
export function refined(before, words, seconds) {
  const one = Math.max(0.03, (seconds - edges) / Math.max(1, syllables(words)));
  return before === undefined ? one : before + 0.3 * (one - before);
}
