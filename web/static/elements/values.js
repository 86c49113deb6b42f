// What is read at the cursor: each quantity here, as aimed at, and of the leg laid over.

/** @import { View } from '../sessions.d.ts' */

import { h, text } from '../dom.js';
import { aimAt, value } from '../pure/flight.js';
import { digitsOf, flag, withUnit } from '../pure/format.js';
import { t } from '../pure/text.js';

/** @typedef {{ row: string, title: string, unit: string, lane: string }} Quantity */

/** In the order of the ribbon's lanes, then the rest. @type {readonly Quantity[]} */
const quantities = [
  { row: 'bank', title: 'Bank', unit: '°', lane: 'bank' },
  { row: 'pitch', title: 'Nose', unit: '°', lane: 'pitch' },
  { row: 'airspeed', title: 'Speed', unit: 'kt', lane: 'airspeed' },
  { row: 'climb', title: 'Height', unit: 'ft', lane: 'height' },
  { row: 'normal-load', title: 'Load', unit: 'g', lane: '' },
  { row: 'ball', title: 'Ball', unit: 'balls', lane: '' },
  { row: 'stall', title: 'Above stall', unit: 'kt', lane: '' },
];

export class CursorValues extends HTMLElement {
  /** @type {View | null} */ #view = null;
  /** @type {{ q: Quantity, now: HTMLElement, aim: HTMLElement, over: HTMLElement }[]} */ #cells = [];

  /** @param {View} view */
  update(view) {
    this.#view = view;
    this.#cells = quantities
      .filter((q) => view.main.samples[q.row])
      .map((q) => ({
        q,
        now: h('dd', { class: 'now' }),
        aim: h('dd', { class: 'soft small' }),
        over: h('dd', { class: 'soft small over' }),
      }));
    this.replaceChildren(
      h('dl', { class: 'values', 'aria-label': t('Values at the cursor') },
        ...this.#cells.map(({ q, now, aim, over }) =>
          h('div', { 'data-row': q.row },
            h('dt', { class: 'soft' }, t(q.title)),
            now,
            aim,
            ...(view.over ? [over] : []),
          ),
        ),
      ),
    );
  }

  /** @param {number} i @param {number} j sample of the leg laid over */
  cursor(i, j) {
    const view = this.#view;
    if (!view) return;
    const { main, over } = view;
    const turn = value(main.samples, 'turn', i) ?? 0;
    const before = (value(main.samples, 'time', i) ?? main.leg.start) < main.leg.start - 0.2;
    for (const { q, now, aim, over: other } of this.#cells) {
      const read = reading(q, value(main.samples, q.row, i));
      const [figures = '', unit = ''] = q.unit === 'balls' ? read.split('\u00a0') : [read]; // a unit of several words
      text(now, figures);
      const wanted = q.lane === '' || before ? null : aimAt(main.plan, q.lane, turn);
      text(aim, wanted === null ? unit : t('target {value}', { value: reading(q, wanted) }));
      const there = over ? value(over.samples, q.row, j) : null;
      text(other, there === null ? '' : t('other {value}', { value: reading(q, there) }));
    }
  }
}

/** @param {Quantity} q @param {number | null} v */
function reading(q, v) {
  if (v === null) return '';
  return q.lane === '' ? withUnit(v, q.unit, digitsOf(q.unit)) : flag(q.lane, q.unit, v);
}
