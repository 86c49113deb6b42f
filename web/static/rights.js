// Who looks at the pages: asked for once, and what they may not press is not shown.

/** @import { Me } from './people.d.ts' */

import { call, shared } from './api.js';
import { h } from './dom.js';
import { has, kept, stranger } from './pure/rights.js';
import { t } from './pure/text.js';

/** How long until the server is asked again that did not say who looks, ms. */
const again = 5_000;

/** @type {Me | null} */ let me = null;
/** @type {Promise<Me | null> | null} */ let asked = null;
let silent = false; // the server was asked and did not say
let station = '';
let applied = '';

/** Who looks; null where nobody can be asked. @returns {Promise<Me | null>} */
export function looking() {
  asked ??= ask();
  return asked;
}

/** Who looks, null until the server was asked; a stranger as long as it does not say. */
export const self = () => (silent ? stranger : me);

/** Whether whoever looks has a right, at the station that is watched. @param {string} right */
export const may = (right) => has(self(), right, station);

/** As may, once it is known who looks. @param {string} right */
export const mayOnceKnown = (right) => looking().then(() => may(right));

/** What is pressed from now on is about this station. @param {string} name */
export function watching(name) {
  station = name;
  apply();
}

async function ask() {
  if (shared) return null;
  /** @type {{ value: Me | null }} */
  const { value } = await call('api/me');
  me = value;
  silent = me === null;
  apply();
  tell();
  if (silent) setTimeout(() => void ask(), again);
  return me;
}

/** Says why controls are missing, as long as they are. */
function tell() {
  const said = document.getElementById('who-unknown');
  if (!silent) said?.remove();
  if (!silent || said) return;
  const words = t('Halfturn does not say who looks here: what takes a right is not shown until it does.');
  document.querySelector('main')?.before(h('p', { id: 'who-unknown', class: 'who-unknown', role: 'status' }, words));
}

const sheet = globalThis.CSSStyleSheet && 'adoptedStyleSheets' in document ? new CSSStyleSheet() : null;

/** Leaves out what would be refused. Nothing is changed on the pages themselves: they draw as for everybody. */
function apply() {
  const all = kept(self(), station);
  const key = all.join();
  if (sheet === null || key === applied) return;
  applied = key;
  while (sheet.cssRules.length > 0) sheet.deleteRule(0);
  for (const of of all) {
    try {
      sheet.insertRule(`${of} { display: none !important; }`);
    } catch {
      // a browser that cannot read it shows the control, and the server says that it is not allowed
    }
  }
  if (!document.adoptedStyleSheets.includes(sheet)) document.adoptedStyleSheets.push(sheet);
}
