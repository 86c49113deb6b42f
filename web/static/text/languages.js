// The languages of the pages. A language is one module beside this one and a line here; the tests name what it lacks.

import * as de from './de.js';
import { en } from './en.js';
import * as es from './es.js';

/**
 * @typedef {Readonly<Record<string, string>>} Table
 * @typedef {object} Form how a language writes numbers and dates
 * @property {string} name in its own words
 * @property {string} locale of dates and of the voice
 * @property {string} point before the decimals
 * @property {string} group between thousands
 * @property {number} ungrouped the most figures that stand together
 *
 * @typedef {object} Words
 * @property {Form} form
 * @property {Table} pages the words of the pages by the English
 * @property {Table} texts those of shipped cards, guides and tables by the English
 * @property {Table} coded the sentences of the server by their codes
 */

/** @type {Words} */
const english = {
  form: { name: 'English', locale: 'en-US', point: '.', group: ',', ungrouped: 3 },
  pages: {},
  texts: {},
  coded: en,
};

/** By their codes (ISO 639-1), in the order of the menu. */
export const languages = { en: english, de, es };

/** @typedef {keyof typeof languages} Language */

/** @param {unknown} code @returns {code is Language} */
export function isLanguage(code) {
  return typeof code === 'string' && Object.hasOwn(languages, code);
}

/**
 * The first of the wanted languages that there is; English where there is none.
 * @param {readonly string[]} wanted tags, such as es-MX
 * @returns {Language}
 */
export function bestOf(wanted) {
  for (const tag of wanted) {
    const code = tag.toLowerCase().split('-')[0];
    if (isLanguage(code)) return code;
  }
  return 'en';
}
