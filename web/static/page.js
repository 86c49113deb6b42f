// What the pages other than the panel share: language, look, cautions, and links to the other pages.

import { caution } from './caution.js';
import { text } from './dom.js';
import { Nav } from './elements/nav.js';
import { language, setLanguage, t } from './pure/text.js';
import { setUnits } from './pure/units.js';
import { load } from './settings.js';

const settings = load();
setLanguage(settings.language);
setUnits(settings.units);

/** @param {string} name @returns {HTMLElement} */
export function at(name) {
  const node = document.getElementById(name);
  if (!node) throw new Error(`the page has no ${name}`);
  return node;
}

/** Puts the standing words of the page in, in the language of now. @param {string} title */
export function dress(title) {
  document.documentElement.dataset['theme'] = settings.theme;
  document.documentElement.lang = language();
  document.title = `${t(title)} · Halfturn`;
  text(at('title'), t(title));
  caution();
  const nav = document.querySelector('ht-nav');
  if (nav instanceof Nav) nav.update(); // it was made before the language was known
}

const list = 'halfturn.list';

/**
 * Notes where in this tab the list of sessions was left: what was chosen there.
 * @param {string} search of its address
 */
export function leaveList(search) {
  try {
    sessionStorage.setItem(list, search.replace(/^\?/, ''));
  } catch {
    // storage is off: the way back leads to all of them
  }
}

/** Lets the way to the sessions lead back to where the list was left. */
export function backToList() {
  let search = '';
  try {
    search = sessionStorage.getItem(list) ?? '';
  } catch {
    // storage is off
  }
  const nav = document.querySelector('ht-nav');
  if (nav instanceof Nav && search !== '') nav.update({ sessions: search });
}
