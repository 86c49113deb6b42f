// The colors of the page as canvases take them. They are read once for each look, not once for each drawing.

import { h } from '../dom.js';

const tokens = /** @type {const} */ ([
  'ink', 'soft', 'rule', 'corridor', 'edge', 'now', 'sheet', 'pale',
]);

/** @typedef {Record<(typeof tokens)[number], string> & { hatched: boolean }} Inks hatched: corridors are not filled */

const queries = ['(prefers-color-scheme: dark)', '(prefers-contrast: more)', '(forced-colors: active)'];

/** @type {Inks | null} */ let known = null;

/** The colors of now. @returns {Inks} */
export function inks() {
  return (known ??= read());
}

/** @returns {Inks} */
function read() {
  const probe = h('span', { hidden: '' });
  document.body.append(probe);
  const colors = Object.fromEntries(tokens.map((name) => {
    probe.style.color = `var(--${name})`;
    return [name, getComputedStyle(probe).color];
  }));
  probe.remove();
  const hatched = document.documentElement.dataset['theme'] === 'contrast'
    || queries.slice(1).some((query) => matchMedia(query).matches);
  return { .../** @type {Record<(typeof tokens)[number], string>} */ (colors), hatched };
}

/** Calls when the colors have changed. @param {() => void} changed */
export function onLook(changed) {
  const again = () => {
    known = null;
    changed();
  };
  new MutationObserver(again).observe(document.documentElement, { attributeFilter: ['data-theme'] });
  for (const query of queries) matchMedia(query).addEventListener('change', again);
}
