// What the user likes, kept in this browser.

/** @import { Settings } from './view.d.ts' */

const key = 'halfturn';

/** @type {Settings} */
const defaults = { sound: false, words: 'full', theme: 'auto' };

/** @returns {Settings} */
export function load() {
  /** @type {unknown} */
  let kept = null;
  try {
    kept = JSON.parse(localStorage.getItem(key) ?? 'null');
  } catch {
    // storage may be off, or hold what is not ours
  }
  return clean(kept);
}

/** Takes what is of use from a value of any kind. @param {unknown} value @returns {Settings} */
export function clean(value) {
  const v = /** @type {Record<string, unknown>} */ (typeof value === 'object' && value !== null ? value : {});
  const words = v['words'];
  const theme = v['theme'];
  return {
    sound: v['sound'] === true,
    words: words === 'tones' || words === 'checkpoints' || words === 'full' ? words : defaults.words,
    theme: theme === 'light' || theme === 'dark' || theme === 'auto' ? theme : defaults.theme,
  };
}

/** @param {Settings} settings */
export function save(settings) {
  try {
    localStorage.setItem(key, JSON.stringify(settings));
  } catch {
    // storage is off: it holds until the page is closed
  }
}
