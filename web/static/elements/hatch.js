// Hatching: of the corridor in high contrast, and of what lies past a limit. Each stands once on a page.

import { s } from '../dom.js';

export function hatch() {
  return s('defs', {},
    s('pattern', { id: 'hatch', width: 7, height: 7, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)' },
      s('line', { x1: 0, y1: 0, x2: 0, y2: 7, class: 'hatch' }),
    ),
  );
}

/** Ink, for what has left its corridor. @param {number} k pixels of the drawing's unit */
export function excursionHatch(k) {
  const apart = 7 * k;
  return s('defs', {},
    s('pattern', {
      id: 'past', width: apart, height: apart, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)',
    }, s('line', { x1: 0, y1: 0, x2: 0, y2: apart, class: 'past-line', 'stroke-width': 5.2 * k })),
  );
}
