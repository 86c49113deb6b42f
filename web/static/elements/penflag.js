// A value at the pen: a dot on the trace and a flag beside it. Both are moved, never laid out again.

/** @import { Box, Strip } from '../pure/geometry.js' */

import { h } from '../dom.js';
import { flagX, flagY, y } from '../pure/geometry.js';

/** The wider flag, in the drawing's unit. */
const wide = 120;

/** Whether words need the wider flag: a sign takes its room too. @param {string} words */
function isWide(words) {
  return words.length > 6 || (words.length === 6 && /^[+\u2212]/.test(words));
}

export class PenFlag {
  #dot = h('div', { class: 'pen-dot-now' });
  #words = document.createTextNode('');
  #text = h('span', { class: 'flag-text' }, this.#words);
  #flag = h('div', { class: 'pen-flag' }, this.#text);
  #dotAt = '';
  #flagAt = '';

  get nodes() {
    return [this.#dot, this.#flag];
  }

  /**
   * @param {Box} box @param {Strip} strip @param {number} pen its x
   * @param {number | null} value null where the stream lacks it
   * @param {string} words @param {number} k pixels of the drawing's unit
   * @returns {{ left: number, right: number }} what it takes of the width, the pen with it
   */
  draw(box, strip, pen, value, words, k) {
    const at = value === null ? (strip.top + strip.bottom) / 2 : y(strip, value);
    const dotAt = value === null ? '' : `translate(${pen}px, ${at}px)`;
    if (dotAt !== this.#dotAt) {
      this.#dotAt = dotAt;
      this.#dot.hidden = dotAt === '';
      this.#dot.style.transform = dotAt;
    }
    if (words !== this.#words.data) {
      this.#words.data = words;
      const is = String(isWide(words));
      if (this.#flag.dataset['wide'] !== is) this.#flag.dataset['wide'] = is;
    }
    const width = (isWide(words) ? wide : 92) * k;
    const left = flagX(box, pen, width, wide * k);
    const flagAt = `translate(${left}px, ${flagY(strip, at, 32 * k)}px)`;
    if (flagAt !== this.#flagAt) {
      this.#flagAt = flagAt;
      this.#flag.style.transform = flagAt;
    }
    return { left: Math.min(pen, left), right: Math.max(pen, left + width) };
  }
}
