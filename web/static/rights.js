// Who looks at the pages: asked for once, and what they may not press is not shown.

/** @import { Me } from './people.d.ts' */

import { call, shared } from './api.js';
import { has, kept } from './pure/rights.js';

/** @type {Me | null} */ let me = null;
/** @type {Promise<Me | null> | null} */ let asked = null;
let station = '';
let applied = '';

/** Who looks; null where nobody can be asked. @returns {Promise<Me | null>} */
export function looking() {
  asked ??= ask();
  return asked;
}

/** Who looks, null until that is known. */
export const self = () => me;

/** Whether whoever looks has a right, at the station that is watched. @param {string} right */
export const may = (right) => has(me, right, station);

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
  apply();
  return me;
}

const sheet = globalThis.CSSStyleSheet && 'adoptedStyleSheets' in document ? new CSSStyleSheet() : null;

/** Leaves out what would be refused. Nothing is changed on the pages themselves: they draw as for everybody. */
function apply() {
  const all = kept(me, station);
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
