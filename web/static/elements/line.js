// The ground line and its reference point: "This heading" takes the one flown now; side and distance are chosen
// with one touch more.

/** @import { Direction, Frame, Line, LineChoice as Wanted } from '../types.d.ts' */

import { attr, h, show, text } from '../dom.js';
import { lineWords } from '../pure/point.js';
import { withUnit } from '../pure/format.js';
import { language, t } from '../pure/text.js';
import { units } from '../pure/units.js';

/** The distances offered, NM; the server takes any from 0.1 to 50. */
const distances = [1, 2, 3, 5, 10];

/** @type {readonly { side: Direction, key: string }[]} */
const sides = [{ side: 'left', key: 'left' }, { side: '', key: 'turn side' }, { side: 'right', key: 'right' }];

export class LineChoice extends HTMLElement {
  /** @type {Line | null} */ #line = null;
  /** @type {Direction} */ #side = '';
  /** @type {number | null} */ #distance = null;
  #built = '';
  #head = h('h3');
  #words = h('p', { class: 'line-words', role: 'status' });
  #here = h('button', { type: 'button', id: 'line-here' });
  #clear = h('button', { type: 'button', id: 'line-clear' });
  #sides = h('span', { class: 'sides', role: 'group' });
  #label = h('label', { class: 'visually-hidden', for: 'line-distance' });
  #far = h('select', { id: 'line-distance' });
  #point = h('div', { class: 'line-point' });
  #error = h('p', { class: 'control-error', role: 'alert' });

  connectedCallback() {
    if (this.firstChild) return;
    this.#point.append(this.#sides, this.#label, this.#far);
    this.append(
      h('div', { class: 'line-head' }, this.#head, this.#words),
      h('div', { class: 'line-touch' }, this.#here, this.#clear),
      this.#point,
      this.#error,
    );
    this.#here.addEventListener('click', () =>
      this.#tell({ heading: null, side: this.#side, distance: this.#distance }),
    );
    this.#clear.addEventListener('click', () => this.#tell({ clear: true }));
    this.#far.addEventListener('change', () => {
      this.#distance = this.#far.value === '' ? null : Number(this.#far.value);
      this.#again();
    });
  }

  /** A line that is chosen already is changed at once. */
  #again() {
    this.#press();
    if (this.#line) this.#tell({ heading: this.#line.heading, side: this.#side, distance: this.#distance });
  }

  /** @param {Wanted} detail */
  #tell(detail) {
    this.dispatchEvent(new CustomEvent('line', { detail, bubbles: true }));
  }

  #build() {
    const key = `${language()} ${units()}`;
    if (this.#built === key) return;
    this.#built = key;
    text(this.#head, t('Ground line'));
    text(this.#here, t('This heading'));
    text(this.#clear, t('No line'));
    text(this.#label, t('Distance of the point'));
    attr(this.#sides, 'aria-label', t('Side of the reference point'));
    this.#sides.replaceChildren(
      ...sides.map(({ side, key: word }) => {
        const button = h('button', { type: 'button', 'data-side': side }, t(word));
        button.addEventListener('click', () => {
          this.#side = side;
          this.#again();
        });
        return button;
      }),
    );
    this.#far.replaceChildren(
      h('option', { value: '' }, t('usual distance')),
      ...distances.map((d) => h('option', { value: d }, withUnit(d, 'NM'))),
    );
    this.#press();
  }

  #press() {
    for (const b of this.#sides.children) attr(b, 'aria-pressed', String(b.getAttribute('data-side') === this.#side));
    const value = this.#distance === null ? '' : String(this.#distance);
    if (value !== '' && !distances.includes(Number(value)) && ![...this.#far.options].some((o) => o.value === value)) {
      this.#far.append(h('option', { value }, withUnit(Number(value), 'NM', 1))); // chosen elsewhere
    }
    if (document.activeElement !== this.#far) this.#far.value = value;
  }

  /**
   * @param {Frame} frame
   * @param {{ brief: boolean, error: string }} context brief leaves out what refines the choice
   */
  update(frame, { brief, error }) {
    this.#build();
    const { line } = frame;
    if (line && (line.side !== this.#line?.side || line.distance !== this.#line?.distance)) {
      this.#side = line.side;
      this.#distance = line.distance;
      this.#press();
    }
    this.#line = line;
    attr(this, 'data-brief', String(brief));
    attr(this, 'data-short', String(brief && line === null)); // nothing chosen: only the way to choose
    text(this.#words, brief && line === null ? '' : lineWords(line));
    show(this.#clear, line !== null);
    show(this.#point, !brief);
    text(this.#error, error);
  }
}
