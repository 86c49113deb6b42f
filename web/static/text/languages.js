// The languages of the pages. A language is one module beside this one and two lines here; the tests name what it
// lacks. Beside the English only the words of the chosen one are fetched: with all of them a page opens a fifth later.

import { en } from './en.js';

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

/** What each calls itself, by their codes (ISO 639-1), in the order of the menu. */
export const languages = { en: 'English', de: 'Deutsch', es: 'Español' };

/** @typedef {keyof typeof languages} Language */

/** @type {Record<Language, () => Promise<Words>>} */
const sources = {
  en: async () => english,
  de: () => import('./de.js'),
  es: () => import('./es.js'),
};

/** @type {Map<Language, Words>} */
const learned = new Map([['en', english]]);

/** Fetches the words of a language; rejects where the server is away. @param {Language} language */
export async function learn(language) {
  if (!learned.has(language)) learned.set(language, await sources[language]());
}

/** Whether its words are there. @param {Language} language */
export const knows = (language) => learned.has(language);

/** Its words; English until they are there. @param {Language} language @returns {Words} */
export const vocabulary = (language) => learned.get(language) ?? english;

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
