// The four marks: a filled disc is met, a half disc near, a struck ring missed, a dotted
// ring not measured. The word always goes with it, for those who cannot see it.

/** @import { Verdict } from '../types.d.ts' */

import { s } from '../dom.js';
import { verdictWords } from '../pure/format.js';

/**
 * @param {Verdict} verdict
 * @param {number} x center, px
 * @param {number} y center, px
 * @param {number} r radius, px
 */
export function markShape(verdict, x, y, r) {
  const group = s('g', { class: `mark mark-${verdict}` });
  switch (verdict) {
    case 'met':
      group.append(s('circle', { cx: x, cy: y, r, class: 'solid' }));
      break;
    case 'near':
      group.append(
        s('circle', { cx: x, cy: y, r: r - 1, class: 'ring' }),
        s('path', { d: `M${x - r} ${y}A${r} ${r} 0 0 0 ${x + r} ${y}Z`, class: 'solid' }),
      );
      break;
    case 'missed':
      group.append(
        s('circle', { cx: x, cy: y, r: r - 1, class: 'ring' }),
        s('path', { d: `M${x - r - 2} ${y + r + 2}L${x + r + 2} ${y - r - 2}`, class: 'strike' }),
      );
      break;
    case 'not-measured':
      group.append(s('circle', { cx: x, cy: y, r: r - 1, class: 'ring dotted' }));
      break;
  }
  return group;
}

/** A mark to stand in a line of text. @param {Verdict} verdict */
export function mark(verdict) {
  return s('svg', { viewBox: '-12 -12 24 24', class: 'mark-inline', role: 'img', 'aria-label': verdictWords(verdict) },
    markShape(verdict, 0, 0, 8));
}
