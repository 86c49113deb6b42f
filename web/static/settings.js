// The user's settings, kept in this browser.

import { bestOf, isLanguage, learn } from './text/languages.js';

/** @import { Settings } from './view.d.ts' */

import { buttoned } from './pure/acts.js';

const key = 'halfturn';

/** @type {Settings} */
const defaults = {
  sound: false,
  words: 'full',
  theme: 'auto',
  language: 'en',
  units: 'aviation',
  voice: '',
  rate: 1.1,
  volume: 1,
  measured: {},
  buttons: {},
};

/** @returns {Settings} */
export function load() {
  /** @type {unknown} */
  let kept = null;
  try {
    kept = JSON.parse(localStorage.getItem(key) ?? 'null');
  } catch {
    // storage may be disabled, or hold something else
  }
  return clean(kept);
}

/** Takes the valid settings from a value of any kind. @param {unknown} value @returns {Settings} */
export function clean(value) {
  const v = /** @type {Record<string, unknown>} */ (typeof value === 'object' && value !== null ? value : {});
  const words = v['words'];
  const theme = v['theme'];
  return {
    sound: v['sound'] === true,
    words: words === 'tones' || words === 'checkpoints' || words === 'full' || words === 'ear' ? words : defaults.words,
    theme: theme === 'light' || theme === 'dark' || theme === 'auto' || theme === 'contrast' ? theme : defaults.theme,
    language: isLanguage(v['language']) ? v['language'] : bestOf(globalThis.navigator?.languages ?? []),
    units: v['units'] === 'metric' ? 'metric' : 'aviation',
    voice: typeof v['voice'] === 'string' ? v['voice'].slice(0, 200) : '',
    rate: within(v['rate'], 0.5, 2, defaults.rate),
    volume: within(v['volume'], 0, 1, defaults.volume),
    measured: measures(v['measured']),
    buttons: buttons(v['buttons']),
  };
}

/** @param {unknown} value @param {number} low @param {number} high @param {number} other */
function within(value, low, high, other) {
  return typeof value === 'number' && value >= low && value <= high ? value : other;
}

/** @param {unknown} value */
function measures(value) {
  const entries = typeof value === 'object' && value !== null ? Object.entries(value) : [];
  return Object.fromEntries(entries.filter(([, v]) => typeof v === 'number' && v > 0.03 && v < 2).slice(0, 100));
}

/** @param {unknown} value @returns {Record<string, string>} */
function buttons(value) {
  const all = typeof value === 'object' && value !== null ? Object.entries(value) : [];
  return Object.fromEntries(
    all.filter(([act, name]) => buttoned.some((b) => b.act === act) && typeof name === 'string' && name.length < 300),
  );
}

/** Keeps them. Returns whether the browser did. @param {Settings} settings */
export function save(settings) {
  try {
    localStorage.setItem(key, JSON.stringify(settings));
    return true;
  } catch {
    return false; // storage is disabled: the settings last until the page is closed
  }
}

await learn(load().language).catch(() => {}); // no page draws before the words are there; away, it is in English
