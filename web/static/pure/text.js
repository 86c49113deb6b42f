// The words of the page in the chosen language. English is the key; a word without an entry stays English.

import { de } from '../text/de.js';
import { inUnits } from './units.js';

/** @typedef {'en' | 'de'} Language */

/** @type {Language} */ let chosen = 'en';

/** @param {Language} language */
export function setLanguage(language) {
  chosen = language;
}

/** @returns {Language} */
export function language() {
  return chosen;
}

/** Whether there is an entry for a key in German. @param {string} key */
export function known(key) {
  return Object.hasOwn(de, key);
}

/** @param {string} key */
function entry(key) {
  return chosen === 'de' && known(key) ? de[key] ?? key : key;
}

/**
 * Words of the page, with {name} replaced.
 * @param {string} key the English words
 * @param {Record<string, string | number>} [values]
 */
export function t(key, values = {}) {
  return entry(key).replace(/\{(\w+)\}/g, (all, name) => String(values[name] ?? all));
}

/**
 * What the server puts into its words: something in quotes (a name, a file, what a system says), or a number as
 * it writes it, with a unit that may be converted. The hyphen is a minus only at the start of a number.
 */
const putIn =
  /"(?:[^"\\]|\\.)*"|(?<![\w.])[+\u2212-]?\d(?:[\d,]*\d)?(?:\.\d+)?(?:(?:\u00a0|\s)(?:kt|ft\/min|ft|fpm|NM)\b)?/g;

/** After the lower end of a range: the unit of both, at the upper. */
const until = /^ to [+\u2212-]?\d[\d.,]*\s(kt|ft\/min|ft|fpm|NM)\b/;

/**
 * What the server said as a key: # for all in quotes, and for every number, with its unit where it can be
 * converted.
 * @param {string} words
 */
export function keyOf(words) {
  return words.replace(putIn, '#');
}

/**
 * What the server said, in the chosen language and units. What it puts in keeps its order in every language; what
 * is in quotes stays as it is. So the server must quote every name in such words: go test ./web -run Phrases asks
 * for it.
 * @param {string} words
 * @returns {string}
 */
export function said(words) {
  if (words === '') return '';
  const found = [...words.matchAll(putIn)].map((m) => local(m[0], until.exec(words.slice(m.index + m[0].length))?.[1]));
  const put = (/** @type {string} */ s) => s.replace(/#/g, () => found.shift() ?? '#');
  if (chosen === 'en') return put(keyOf(words));
  return put(inner(keyOf(words)));
}

/** What stands around a part that has an entry of its own. @type {readonly [RegExp, string][]} */
const around = [
  [/^was (.+)$/, 'war $'],
  [/^at least (.+)$/, 'mindestens $'],
  [/^at most (.+)$/, 'höchstens $'],
  [/^with it came (.+)$/, 'dazu kam $'],
  [/^(#.*?)() at #° of turn$/, '$ bei #° der Kurve'],
  [/^(.+?)( #°?) at #° of turn$/, '$ bei #° der Kurve'],
  [/^(.+?)( #°?)$/, '$'],
];

/** @param {string} key @returns {string | null} */
function framed(key) {
  for (const [shape, frame] of around) {
    const [, part = '', value = ''] = shape.exec(key) ?? [];
    if (part === '') continue;
    const there = inner(part);
    if (there !== part || known(part) || !/[a-z]{2}/i.test(part)) return frame.replace('$', () => there + value);
  }
  return null;
}

/** Translates whole, else part by part, keeping what joins the parts. @param {string} key @returns {string} */
function inner(key) {
  if (known(key)) return entry(key);
  const high = key.charAt(0).toUpperCase() + key.slice(1);
  if (high !== key && known(high)) return entry(high);
  const low = key.charAt(0).toLowerCase() + key.slice(1);
  if (low !== key && known(low)) {
    const e = entry(low);
    return e.charAt(0).toUpperCase() + e.slice(1);
  }
  const sentences = key.split('. ');
  if (sentences.length > 1) return sentences.map(inner).join('. ');
  if (key.endsWith('.')) return `${inner(key.slice(0, -1))}.`;
  for (const joint of ['; ', ': ', ' · ', ', ']) {
    const parts = key.split(joint);
    if (parts.length > 1) return parts.map(inner).join(joint);
  }
  const [, before, within] = /^(.+?) \((.+)\)$/.exec(key) ?? [];
  if (before !== undefined && within !== undefined) return `${inner(before)} (${inner(within)})`;
  return framed(key) ?? key;
}

/**
 * What the server put in, in the locale's form.
 * @param {string} match
 * @param {string} [of] its unit, when only the number after it bears it
 */
function local(match, of) {
  if (match.startsWith('"')) return match;
  const [, sign = '', digits = '', gap = '', unit = ''] = /^([+\u2212-]?)([\d,.]+)(\s?)(.*)$/.exec(match) ?? [];
  const tail = /,$/.test(digits) ? ',' : '';
  const plain = digits.replaceAll(',', '');
  const to = inUnits(Number(plain), of ?? unit);
  const fixed = to.digits === null ? plain : to.value.toFixed(to.digits);
  const grouped = digits.includes(',') || to.digits !== null;
  const [whole = '', part] = fixed.split('.');
  const head = grouped ? whole.replace(/\B(?=(\d{3})+$)/g, chosen === 'de' ? '.' : ',') : whole;
  const text = part === undefined ? head : `${head}${chosen === 'de' ? ',' : '.'}${part}`;
  return `${sign === '-' ? '\u2212' : sign}${text}${gap === '' ? '' : `\u00a0${to.unit}`}${tail}`;
}
