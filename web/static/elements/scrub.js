// The slider under the lanes: its thumb stands under the pen, as it runs over the same turn angle.

/** @import { FlownSheetElement } from './sheet.js' */

import { attr, h, text } from '../dom.js';
import { number, withUnit } from '../pure/format.js';
import { t } from '../pure/text.js';

/** As wide as in the styles, px. */
const thumb = 24;

export class Scrub {
  input = h('input', { type: 'range', id: 'scrub', min: 0, step: 0.5, 'aria-label': t('Moment of the leg') });
  #when = h('output', { for: 'scrub' });
  row = h('div', { class: 'scrub-row' },
    h('p', { class: 'when' }, h('span', {}, t('Time')), this.#when), this.input);
  #turn = 0;

  /** Its ends are those of the lanes. @param {FlownSheetElement} sheet */
  align(sheet) {
    const { left, right, full } = sheet.axis;
    const degree = (right - left) / full;
    // An overshoot is drawn a little past the full turn, as far as there is room for the thumb.
    const beyond = Math.max(0, Math.min(8, Math.floor((sheet.clientWidth - right - thumb / 2) / degree)));
    attr(this.input, 'max', full + beyond);
    this.input.style.marginLeft = `${left - thumb / 2}px`;
    this.input.style.width = `${(full + beyond) * degree + thumb}px`;
    this.input.value = String(this.#turn);
  }

  /** @param {number} turn degrees @param {number} seconds since the entry */
  draw(turn, seconds) {
    this.#turn = turn;
    if (this.input.valueAsNumber !== turn) this.input.value = String(turn);
    text(this.#when, withUnit(seconds, 's', 1));
    attr(this.input, 'aria-valuetext',
      t('{seconds} s · {turn}° turned', { seconds: number(seconds, 1), turn: number(turn) }));
  }
}
