// The hatchings: of the corridor in high contrast, and of what is past a limit.

import { s } from '../dom.js';

export function hatch() {
  return s('defs', {},
    s('pattern', { id: 'hatch', width: 7, height: 7, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)' },
      s('line', { x1: 0, y1: 0, x2: 0, y2: 7, class: 'hatch' }),
    ),
    s('pattern', { id: 'past', width: 7, height: 7, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)' },
      s('line', { x1: 0, y1: 0, x2: 0, y2: 7, class: 'past' }),
    ),
  );
}
