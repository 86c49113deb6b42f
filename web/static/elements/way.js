// Small pictures of how data come to Halfturn: from a simulator that sends or is asked, over a bridge; and how a tablet
// stands beside it.

import { s } from '../dom.js';

/** A screen on its foot, at x. @param {number} x */
const screen = (x) => [
  s('rect', { class: 'way-shape', x, y: 4, width: 28, height: 19, rx: 2 }),
  s('path', { class: 'way-line', d: `M${x + 14} 23v5M${x + 8} 28h12` }),
];

/** Halfturn: a half turn that comes back, at x. @param {number} x */
const halfturn = (x) => [
  s('circle', { class: 'way-shape', cx: x, cy: 16, r: 13 }),
  s('path', { class: 'way-line', d: `M${x - 4} 22V13a4.5 4.5 0 0 1 9 0v6m-3.5 -3l3.5 4 3.5 -4` }),
];

/** An arrow to the right, or to the left. @param {number} from @param {number} to @param {number} y */
const arrow = (from, to, y) => {
  const head = to > from ? -4 : 4;
  const tip = `M${to + head} ${y - 4}L${to} ${y}L${to + head} ${y + 4}`;
  return s('path', { class: 'way-line', d: `M${from} ${y}H${to}${tip}` });
};

/** @type {Record<string, () => Element[]>} */
const drawings = {
  sends: () => [...screen(2), arrow(36, 66, 14), ...halfturn(84)],
  asked: () => [...screen(2), arrow(66, 36, 9), arrow(36, 66, 19), ...halfturn(84)],
  bridge: () => [...screen(2), arrow(33, 44, 14), s('rect', { class: 'way-full', x: 47, y: 9, width: 10, height: 10 }),
    arrow(58, 68, 14), ...halfturn(84)],
  tablet: () => [...halfturn(16),
    s('path', { class: 'way-line', d: 'M40 10a9 9 0 0 1 0 12M47 6a15 15 0 0 1 0 20' }),
    s('rect', { class: 'way-shape', x: 68, y: 3, width: 20, height: 26, rx: 3 }),
    s('path', { class: 'way-line', d: 'M76 25h4' })],
};

/** @param {'sends' | 'asked' | 'bridge' | 'tablet'} way */
export function wayPicture(way) {
  return s('svg', { class: 'way-picture', viewBox: '0 0 100 32', 'aria-hidden': 'true' }, ...drawings[way]?.() ?? []);
}
