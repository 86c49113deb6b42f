// What is spoken and sounded, and what gives way to what. The server speaks by the same rules (web/speech/rule.go);
// testdata/rules holds both to them. Pure.
//
// Safety cancels everything. A person waits for safety only, and for a moment. A growing error is said at once, over a
// cue too; a cue takes the place of what is between legs. How a leg went, what to do next time and the set-up wait for
// each other.

/** @import { Callout, CalloutKind } from '../types.d.ts' */
/** @import { Wordiness } from '../view.d.ts' */

import { told } from './phrase.js';
import { cardText, t } from './text.js';

/** A callout older than this, s, is of no use: it arrived late. */
export const late = 1.5;

/** From the one that interrupts everything to the one that waits. @type {readonly CalloutKind[]} */
export const kinds = ['safety', 'clear', 'said', 'watch', 'cue', 'after', 'result', 'next', 'set-up', 'done', 'again'];

/** @param {CalloutKind} kind */
const rank = (kind) => kinds.indexOf(kind);

/** Whether a cue may take the place of what is being said. @param {CalloutKind} kind */
export const yields = (kind) => rank(kind) >= rank('result');

/** Whether a clear takes back a cue that waits. @param {Callout} callout */
export const ofCue = (callout) => callout.kind === 'clear' && callout.id.startsWith('cue-');

/**
 * What is said of a callout, in the chosen language: what is for the next leg begins with that.
 * @param {Callout} callout
 */
export function wordsOf(callout) {
  const { kind, id } = callout;
  const person = kind === 'said' || (kind === 'again' && id === 'said');
  const words = person ? callout.words : callout.phrase ? told(callout.phrase) : cardText(callout.words);
  const next = kind === 'next' || (kind === 'again' && id === 'next');
  return next && words !== '' ? t('Next time: {words}', { words }) : words;
}

/**
 * The same as it is read: the figures of a heading stand together, "Level on 360"; what a person says is as they wrote
 * it, after their name.
 * @param {Callout} callout
 */
export function readOf(callout) {
  const { by } = callout;
  const words = wordsOf(callout);
  return by ? t('{by}: {words}', { by: whoWords(by), words }) : words.replace(/\b(\d) (\d) (\d)\b/g, '$1$2$3');
}

/** How somebody is called. The owner of the machine may have no name. @param {string} name */
export function whoWords(name) {
  return name === 'owner' ? t('the owner') : name;
}

/** What a person says waits no longer than this, s. */
export const patience = 4;

/**
 * @typedef {object} Order what the sound machine has to do
 * @property {boolean} cancel stop what is being said
 * @property {string} say the words, '' for none
 * @property {'met' | 'missed' | 'safety' | ''} tone
 * @property {boolean} wait say it when what is being said has ended
 */

/** @type {Order} */
const silence = { cancel: false, say: '', tone: '', wait: false };

/**
 * @param {Callout} callout
 * @param {object} now
 * @param {Wordiness} now.words
 * @param {number} now.age seconds since the callout was due
 * @param {CalloutKind | null} now.speaking what is being said
 * @param {boolean} now.voice whether this machine can speak
 * @returns {Order}
 */
export function decide(callout, now) {
  const { kind, words } = callout;
  if (kind === 'safety') {
    return { cancel: true, say: now.voice ? words : '', tone: now.voice ? '' : 'safety', wait: false };
  }
  if (kind === 'clear') {
    return now.speaking === 'safety' && !ofCue(callout) ? { ...silence, cancel: true } : silence;
  }
  if (now.age > late) return silence;
  const wanted = wants(now.words, kind) && now.voice && words !== '';
  const order = { ...silence, say: wanted ? words : '', tone: toneOf(callout, wanted) };
  if (now.speaking === null) return order;
  if (waits(kind, now.speaking)) return { ...order, wait: true };
  if (kind === 'again') return { ...order, cancel: wanted };
  if (now.speaking === 'safety') return silence;
  if (kind === 'after') return { ...order, say: '' };
  return rank(kind) <= rank(now.speaking) ? { ...order, cancel: wanted } : { ...order, say: '' };
}

/** Whether it is said after what is being said. @param {CalloutKind} kind @param {CalloutKind} speaking */
function waits(kind, speaking) {
  if (kind === 'said') return speaking === 'safety' || speaking === 'said';
  if (kind === 'again') return speaking === 'safety' || speaking === 'said' || speaking === 'watch';
  return kind === 'result' || kind === 'next' || kind === 'set-up' || kind === 'done';
}

/** What was asked for is said, and what a person says. @param {Wordiness} words @param {CalloutKind} kind */
function wants(words, kind) {
  if (kind === 'again' || kind === 'done' || kind === 'said' || words === 'ear') return true;
  if (words === 'tones' || kind === 'set-up') return false;
  return words === 'full' || kind === 'cue' || kind === 'result';
}

/** Words already say what the tone would. @param {Callout} c @param {boolean} spoken @returns {Order['tone']} */
function toneOf(c, spoken) {
  if (c.tone === '' || c.tone === 'safety') return '';
  return spoken ? '' : c.tone;
}

/**
 * @typedef {object} Note
 * @property {number} at seconds from the start
 * @property {number} length seconds
 * @property {number} from hertz
 * @property {number} to hertz
 */

/**
 * The tones. Each differs from the others within its first half second (MIL-STD-1472E
 * 5.3.4.3.3: the first 0.5 s of a signal must be unlike that of any other): met rises once,
 * missed falls twice, safety is a fast row of glides. All lie within 500 to 3,000 Hz, where
 * the same standard, 5.3.3.1.1, has tones heard best. The pitches themselves are ours.
 * @type {Record<'met' | 'missed' | 'safety', readonly Note[]>}
 */
export const tones = {
  met: [
    { at: 0, length: 0.1, from: 880, to: 880 },
    { at: 0.1, length: 0.2, from: 1320, to: 1320 },
  ],
  missed: [
    { at: 0, length: 0.16, from: 700, to: 560 },
    { at: 0.24, length: 0.16, from: 700, to: 560 },
  ],
  safety: [
    { at: 0, length: 0.1, from: 1200, to: 2000 },
    { at: 0.15, length: 0.1, from: 1200, to: 2000 },
    { at: 0.3, length: 0.1, from: 1200, to: 2000 },
    { at: 0.45, length: 0.1, from: 1200, to: 2000 },
  ],
};
