// What the desk says of a station whose sound is on. Pure.

/** @import { Callout } from '../types.d.ts' */

import { told } from './phrase.js';
import { cardText } from './text.js';

/**
 * A callout as it is heard at the desk: at once, also a cue that the student’s own voice begins later; and where
 * several stations are heard, with whose it is.
 * @param {Callout} callout @param {string} whose '' where one station is heard
 * @returns {Callout}
 */
export function heardAs(callout, whose) {
  const { due, phrase, ...rest } = callout;
  if (callout.words === '' || whose === '') return phrase ? { ...rest, phrase } : rest;
  return { ...rest, words: `${whose}: ${phrase ? told(phrase) : cardText(callout.words)}` };
}
