// A lane's value of now: a dot at the pen, moved by transforms, and a cell in the column at the right, where only words
// change. Outside the corridor the cell says what is allowed here, with an arrow back; the one in trouble inverts.

/** @import { Box, Strip } from '../pure/geometry.js' */
/** @import { Outside } from '../pure/trouble.js' */

import { attr, h, s, show, text } from '../dom.js';
import { flag, fromTo, withUnit } from '../pure/format.js';
import { told } from '../pure/phrase.js';
import { y } from '../pure/geometry.js';
import { t } from '../pure/text.js';
import { faultWords, sideFor } from '../pure/trouble.js';

/** An arrow that points down, about its middle. */
const arrow = 'M-2.4 -9H2.4V1H7L0 9L-7 1H-2.4Z';

/** An arrow for a line of text; the attribute data-way turns it. */
export function arrowMark() {
  return s('svg', { viewBox: '-9 -9 18 18', class: 'way', 'aria-hidden': 'true' }, s('path', { d: arrow }));
}

/** More letters than these are written smaller where they are inverted: the box would lie on the corridor. */
const longest = 6;

export class LaneNow {
  #dot = h('div', { class: 'pen-dot-now' });
  #name = h('div', { class: 'cell-name soft' });
  #arrow = arrowMark();
  #value = h('span', { class: 'flag-text' });
  #box = h('div', { class: 'cell-box' }, this.#arrow, this.#value);
  #sub = h('div', { class: 'cell-sub' });
  #cell = h('div', { class: 'lane-cell' }, this.#name, this.#box, this.#sub);
  #fault = h('div', { class: 'pen-fault' }, arrowMark(), h('span'));
  #at = '';
  #faultAt = '';

  get nodes() {
    return [this.#dot, this.#cell, this.#fault];
  }

  /** Puts the cell beside its lane. @param {Strip} strip @param {boolean} named whether the lane has no other name */
  place(strip, named) {
    this.#cell.style.top = `${(strip.top + strip.bottom) / 2}px`;
    attr(this.#cell, 'data-channel', strip.lane.channel);
    text(this.#name, told(strip.lane.title));
    show(this.#name, named);
    this.#at = this.#faultAt = '';
    this.#dot.hidden = true; // until there is a value
  }

  /**
   * @param {Box} box @param {Strip} strip @param {number} pen its x
   * @param {number | null} value null where the stream lacks it
   * @param {'left' | 'right' | ''} direction of the turn
   * @param {{ out: Outside | undefined, side: 'high' | 'low' | '', named: boolean, column: boolean }} is side: of the
   *   trouble, where the lane is the one named; column: whether the values stand at the right
   * @param {number} k pixels of the drawing's unit
   */
  draw(box, strip, pen, value, direction, is, k) {
    const at = value === null ? '' : `translate(${pen}px, ${y(strip, value)}px)`;
    if (at !== this.#at) {
      this.#at = at;
      this.#dot.hidden = at === '';
      this.#dot.style.transform = at;
    }
    const { channel, unit } = strip.lane;
    text(this.#value, value === null ? t('no data') : valueWords(channel, unit, value));
    const side = is.named ? is.side : is.out?.side ?? '';
    attr(this.#cell, 'data-trouble', is.named ? 'named' : side === '' ? '' : 'out');
    attr(this.#cell, 'data-missing', String(value === null));
    attr(this.#cell, 'data-long', String((this.#value.textContent ?? '').length > longest));
    attr(this.#arrow, 'data-way', side === '' ? '' : side === 'high' ? 'down' : 'up');
    attr(this.#dot, 'data-out', String(side !== ''));
    text(this.#sub, is.out
      ? t('allowed here {range}', { range: fromTo(is.out.low, is.out.high, unit, 0) })
      : value === null ? '' : sense(channel, value, direction));
    this.#tellFault(box, strip, pen, value, is, k);
  }

  /**
   * Beside the pen, for the one lane in trouble, where there is room past the corridor.
   * @param {Box} box @param {Strip} strip @param {number} pen @param {number | null} value
   * @param {{ out: Outside | undefined, named: boolean, column: boolean }} is @param {number} k
   */
  #tellFault(box, strip, pen, value, { out, named, column }, k) {
    const edge = out ? y(strip, out.side === 'high' ? out.high : out.low) : 0;
    const room = value === null || !out ? 0 : Math.abs(y(strip, value) - edge);
    const words = out ? faultWords(strip.lane.channel, out.side, withUnit(out.by, strip.lane.unit)) : '';
    const side = sideFor(words, pen, box, k, column);
    const shown = named && out !== undefined && room >= 20 * k && side !== '';
    show(this.#fault, shown);
    if (!shown || value === null) return;
    attr(/** @type {Element} */ (this.#fault.firstChild), 'data-way', out.side === 'high' ? 'down' : 'up');
    text(/** @type {Node} */ (this.#fault.lastChild), words);
    const right = side === 'right';
    const to = `translate(${pen + (right ? 12 : -12) * k}px, ${y(strip, value)}px) translate(${right ? 0 : -100}%, ` +
      `${out.side === 'high' ? -20 : -80}%)`;
    if (to === this.#faultAt) return;
    this.#faultAt = to;
    this.#fault.style.transform = to;
  }
}

/**
 * Bank and nose without a sign: a word beside it says the side.
 * @param {string} channel
 * @param {string} unit
 * @param {number} value
 */
export function valueWords(channel, unit, value) {
  return unit === '°' ? withUnit(Math.abs(value), unit) : flag(channel, unit, value);
}

/** @param {string} channel @param {number} value @param {'left' | 'right' | ''} direction */
function sense(channel, value, direction) {
  if (Math.abs(value) < 0.5) return '';
  if (channel === 'pitch') return value > 0 ? t('up') : t('down');
  if (channel !== 'bank') return '';
  return (direction === 'left') === value > 0 ? t('left') : t('right');
}
