// The words of the page in the chosen language. English is the key; a word without an entry stays English.

import { knows, vocabulary } from '../text/languages.js';

/** @import { Language, Table } from '../text/languages.js' */

/** @type {Language} */ let chosen = 'en';

/** Chooses a language; English where its words were not fetched. @param {Language} language */
export function setLanguage(language) {
  chosen = knows(language) ? language : 'en';
}

/** @returns {Language} */
export function language() {
  return chosen;
}

/** How the chosen language writes numbers and dates. */
export function form() {
  return vocabulary(chosen).form;
}

/** The server's sentence of a code, with its places. @param {string} code @returns {string | undefined} */
export function coded(code) {
  return vocabulary(chosen).coded[code] ?? vocabulary('en').coded[code];
}

/** @param {Table} table @param {string} key */
function entry(table, key) {
  return Object.hasOwn(table, key) ? table[key] ?? key : key;
}

/**
 * Words of the page, with {name} replaced.
 * @param {string} key the English words
 * @param {Record<string, string | number>} [values]
 */
export function t(key, values = {}) {
  return entry(vocabulary(chosen).pages, key).replace(/\{(\w+)\}/g, (all, name) => String(values[name] ?? all));
}

/**
 * A text of a shipped card, guide or table, looked up whole; that of a user's own card stays as it is written.
 * @param {string} text
 */
export function cardText(text) {
  return entry(vocabulary(chosen).texts, text);
}
