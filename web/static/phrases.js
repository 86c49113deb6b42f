// One’s own short texts, kept in this browser.

import { phrasesOf } from './pure/phrases.js';

const key = 'halfturn.phrases';

/** The list; empty where nothing is kept. @returns {string[]} */
export function own() {
  try {
    return phrasesOf(JSON.parse(localStorage.getItem(key) ?? '[]'));
  } catch {
    return []; // storage is off, or holds something else
  }
}

/** Keeps the list. @param {readonly string[]} list */
export function keep(list) {
  try {
    localStorage.setItem(key, JSON.stringify(list));
  } catch {
    // storage is off: the list lasts until the page is closed
  }
}
