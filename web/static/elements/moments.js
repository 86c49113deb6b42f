// Moments that somebody marked or remarked on, as diamonds on the foot of a chart.

/** @import { Box } from '../pure/geometry.js' */
/** @import { Moment } from '../pure/moments.js' */

import { s } from '../dom.js';
import * as geo from '../pure/geometry.js';
import { markWords } from '../pure/moments.js';

export class Moments {
  node = s('g', { class: 'moments' });
  /** @type {readonly unknown[]} */ #drawn = [];

  /**
   * @param {readonly Moment[]} moments @param {Box} box @param {number} full degrees of the whole turn
   * @param {number} k pixels of the drawing's unit
   */
  draw(moments, box, full, k) {
    const of = [moments, box, full, k];
    if (of.every((part, i) => part === this.#drawn[i])) return;
    this.#drawn = of;
    this.node.replaceChildren(...moments.map(({ turn, words }) =>
      s('g', { transform: `translate(${geo.x(box, full, turn)} ${box.bottom + 6 * k})` },
        s('path', { class: 'moment-mark', d: `M0 ${-7 * k}L${6 * k} 0L0 ${7 * k}L${-6 * k} 0Z` }),
        s('title', {}, markWords(words)))));
  }
}
