// The words of the page in the chosen language. English is the key; a word without an entry stays English.

import { de, texts } from '../text/de.js';

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

/** Whether there is an entry for words of the page in German. @param {string} key */
export function known(key) {
  return Object.hasOwn(de, key);
}

/** @param {Readonly<Record<string, string>>} table @param {string} key */
function entry(table, key) {
  return chosen === 'de' && Object.hasOwn(table, key) ? table[key] ?? key : key;
}

/**
 * Words of the page, with {name} replaced.
 * @param {string} key the English words
 * @param {Record<string, string | number>} [values]
 */
export function t(key, values = {}) {
  return entry(de, key).replace(/\{(\w+)\}/g, (all, name) => String(values[name] ?? all));
}

/**
 * A text of a shipped card, guide or table, looked up whole; that of a user's own card stays as it is written.
 * @param {string} text
 */
export function cardText(text) {
  return entry(texts, text);
}
