// Where a replay stands, and what may be heard of it. Pure.

/** @import { Replaying, Station } from '../types.d.ts' */
/** @import { Wordiness } from '../view.d.ts' */

/**
 * The place of a replay so long after it was told.
 * @param {Replaying} replay
 * @param {number} since seconds
 */
export function place(replay, since) {
  const run = replay.paused || replay.over ? 0 : Math.max(0, since) * replay.pace;
  return Math.min(replay.position + run, replay.duration);
}

/** Above this pace words would come too late, and below the least they would stand alone: tones only. */
const spoken = { from: 0.5, to: 1.5 };

/**
 * The wish for words as it holds for what is shown now.
 * @param {Wordiness} words
 * @param {Station | null} info
 * @returns {Wordiness}
 */
export function heard(words, info) {
  const pace = info?.replay?.pace ?? 1;
  return pace < spoken.from || pace > spoken.to ? 'tones' : words;
}
