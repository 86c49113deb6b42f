// The sight picture of a pylon: out along the wing, its tip in the middle, the pylon where it stands ahead of it or
// behind. Between the hairs it counts as held.

/** @import { Around, Direction } from '../types.d.ts' */

import { attr, s, show, text } from '../dom.js';
import { isAbout } from '../pure/around.js';
import { t } from '../pure/text.js';

const center = 160;
const tip = 150;

/** The wing from where the pilot sits, out to its tip. */
const wing = `M${center - 34} 262L${center - 7} ${tip}H${center + 7}L${center + 34} 262`;

/** Pixels of a degree, and how far from the tip a pylon is shown at most. */
const degree = 9;
const farthest = 138;

/** What counts as held on the card, °. */
const held = 4.8;

export class WingLine {
  #pylon = s('path', { d: 'M0 -30L13 0H-13Z', class: 'point-now' });
  #nose = s('text', { y: 252 });
  #tail = s('text', { y: 252 });
  node = s('svg', { viewBox: '0 84 320 178', class: 'picture wing-line', 'aria-hidden': 'true' },
    s('rect', { x: center - held * degree, y: 92, width: 2 * held * degree, height: 140, class: 'corridor' }),
    s('line', { x1: 8, x2: 312, y1: tip, y2: tip, class: 'horizon-line' }),
    s('path', { d: wing, class: 'plane thin wing-out' }),
    this.#pylon, this.#nose, this.#tail);

  /** @param {Around} around @param {Direction} direction of the turn */
  update(around, direction) {
    const { ahead } = around;
    show(this.#pylon, ahead != null);
    attr(this.#pylon, 'opacity', isAbout(around) ? 0.45 : 1); // pale where it is only about there
    const nose = direction === 'left' ? 1 : -1; // out of the left window the nose is to the right
    if (ahead != null) {
      const x = Math.min(Math.max(ahead * degree, -farthest), farthest) * nose;
      attr(this.#pylon, 'transform', `translate(${Math.round(center + x)} ${tip})`);
    }
    text(this.#nose, t('nose'));
    text(this.#tail, t('tail'));
    for (const [node, side] of /** @type {const} */ ([[this.#nose, nose], [this.#tail, -nose]])) {
      attr(node, 'x', side > 0 ? 312 : 8);
      attr(node, 'text-anchor', side > 0 ? 'end' : 'start');
    }
  }
}
