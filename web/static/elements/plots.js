// What was measured over the time of the leg, one strip per quantity, with one cursor.

/** @import { View } from '../sessions.d.ts' */

import { attr, h, s, text } from '../dom.js';
import { line, span, value } from '../pure/flight.js';
import { digitsOf, number, withUnit } from '../pure/format.js';
import { t } from '../pure/text.js';
import { inUnits } from '../pure/units.js';

/** @typedef {{ row: string, title: string, unit: string, least: number }} Strip */

/** The strips there may be; those without a value are left out. @type {readonly Strip[]} */
const strips = [
  { row: 'bank', title: 'Bank', unit: '°', least: 10 },
  { row: 'pitch', title: 'Nose', unit: '°', least: 10 },
  { row: 'airspeed', title: 'Speed', unit: 'kt', least: 10 },
  { row: 'climb', title: 'Height', unit: 'ft', least: 100 },
  { row: 'normal-load', title: 'Load', unit: 'g', least: 1 },
  { row: 'ball', title: 'Ball', unit: 'balls', least: 1 },
  { row: 'throttle', title: 'Throttle', unit: 'ratio', least: 0.5 },
  { row: 'rpm', title: 'Engine speed', unit: 'rpm', least: 200 },
];

const size = { w: 600, h: 92, left: 64, right: 592, top: 10, bottom: 82 };

export class TimePlots extends HTMLElement {
  /** @type {View | null} */ #view = null;
  #list = h('div', { class: 'plots' });
  /** @type {{ strip: Strip, pen: SVGLineElement, value: HTMLElement }[]} */ #shown = [];
  #from = 0;
  #to = 1;

  connectedCallback() {
    this.replaceChildren(this.#list);
  }

  /** @param {View} view */
  update(view) {
    this.#view = view;
    const { samples, leg } = view.main;
    const time = samples['time'] ?? [];
    this.#from = (time[0] ?? leg.start) - leg.start;
    this.#to = (time.at(-1) ?? leg.end) - leg.start;
    this.#shown = [];
    this.#list.replaceChildren(...strips.map((strip) => this.#strip(strip, view)).filter((n) => n !== null));
  }

  /** @param {Strip} strip @param {View} view */
  #strip(strip, { main, over }) {
    const to = inUnits(1, strip.unit);
    const shownAs = (/** @type {import('../sessions.d.ts').FlownLeg | null} */ f) =>
      f?.samples[strip.row]?.map((v) => (v === null ? null : v * to.value));
    const row = shownAs(main);
    if (!row) return null;
    const beneath = shownAs(over);
    const range = span(beneath ? [row, beneath] : [row], strip.least * to.value);
    if (!range) return null;
    const px = (/** @type {number} */ x) => this.#x(x);
    const py = (/** @type {number} */ y) =>
      size.bottom - ((y - range.low) / (range.high - range.low)) * (size.bottom - size.top);
    const since = (/** @type {import('../sessions.d.ts').FlownLeg} */ f) =>
      (f.samples['time'] ?? []).map((v) => (v === null ? null : v - f.leg.start));
    const svg = s('svg', {
      viewBox: `0 0 ${size.w} ${size.h}`,
      class: 'plot',
      role: 'img',
      'aria-label': t('{title} over time', { title: t(strip.title) }),
    });
    const [first = 0, second = Infinity] = range.ticks;
    const every = py(first) - py(second) < 20 ? 2 : 1; // a number stands clear of the next one
    for (const tick of range.ticks.filter((v) => Math.round(v / (second - first)) % every === 0 || every === 1)) {
      svg.append(
        s('line', { class: 'rule hair', x1: size.left, x2: size.right, y1: py(tick), y2: py(tick) }),
        s('text', { class: 'tick', x: size.left - 6, y: py(tick) + 4, 'text-anchor': 'end' },
          number(tick, tick % 1 === 0 ? 0 : 1),
        ),
      );
    }
    for (const edge of [0, main.leg.end - main.leg.start]) {
      svg.append(s('line', { class: 'rule', x1: px(edge), x2: px(edge), y1: 0, y2: size.h }));
    }
    if (over && beneath) {
      svg.append(
        s('path', {
          class: 'trace pale',
          d: line(
            since(over).map((v) => (v !== null && v > this.#to ? null : v)),
            beneath,
            px,
            py,
          ),
        }),
      );
    }
    const pen = s('line', { class: 'pen', x1: 0, x2: 0, y1: 0, y2: size.h });
    svg.append(s('path', { class: 'trace thin', d: line(since(main), row, px, py) }), pen);
    const shown = h('span', { class: 'plot-value' });
    this.#shown.push({ strip, pen, value: shown });
    return h('figure', {}, h('figcaption', {}, h('span', {}, t(strip.title)), shown), svg);
  }

  /** @param {number} seconds since the entry */
  #x(seconds) {
    return size.left + ((seconds - this.#from) / (this.#to - this.#from)) * (size.right - size.left);
  }

  /** @param {number} i */
  cursor(i) {
    const view = this.#view;
    if (!view) return;
    const x = this.#x((value(view.main.samples, 'time', i) ?? 0) - view.main.leg.start);
    for (const { strip, pen, value: words } of this.#shown) {
      attr(pen, 'transform', `translate(${x.toFixed(1)} 0)`);
      const v = value(view.main.samples, strip.row, i);
      text(words, v === null ? '' : withUnit(v, strip.unit, digitsOf(strip.unit)));
    }
  }

  /** Seconds since the entry under a pixel, null beside the plots. @param {Element} svg @param {number} clientX */
  secondsAt(svg, clientX) {
    const r = svg.getBoundingClientRect();
    const x = ((clientX - r.left) / r.width) * size.w;
    return this.#from + ((x - size.left) / (size.right - size.left)) * (this.#to - this.#from);
  }
}
