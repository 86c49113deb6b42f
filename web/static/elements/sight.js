// The sight picture, from above: the airplane, the ground line it entered along, and the
// reference point, filled where it is and hollow where it should be at the next checkpoint.

/** @import { State } from '../view.d.ts' */

import { attr, h, s, show, text } from '../dom.js';
import { bearing, withUnit } from '../pure/format.js';
import { around } from '../pure/geometry.js';
import { t } from '../pure/text.js';

const center = 160;
const radius = 144;

/** A small peak about its place. */
const peak = 'M0 -13L12 9H-12Z';

export class Sight extends HTMLElement {
  #ground = s('g', { class: 'ground' },
    s('line', { x1: center, y1: center - radius, x2: center, y2: center + radius, class: 'ground-band' }),
    s('line', { x1: center, y1: center - radius, x2: center, y2: center + radius, class: 'ground-line' }));
  #sightLine = s('line', { x1: center, y1: center, class: 'sight-line' });
  #now = s('path', { d: peak, class: 'point-now' });
  #then = s('path', { d: peak, class: 'point-then' });
  #nose = s('text', { x: center + 8, y: center - radius + 30 });
  #thenText = s('text', { class: 'small', 'text-anchor': 'middle' });
  #svg = s('svg', { viewBox: '0 0 320 320', class: 'picture', 'aria-hidden': 'true' });
  #head = h('h2');
  #words = h('p', { class: 'strong' });
  #wanted = h('p', { class: 'soft' });
  #margins = h('p', { class: 'soft small margins' });

  connectedCallback() {
    this.#svg.replaceChildren(
      s('circle', { cx: center, cy: center, r: radius, class: 'horizon' }),
      this.#ground, this.#sightLine,
      s('line', { x1: center, y1: center - radius + 8, x2: center, y2: center + 44, class: 'plane thin' }),
      s('line', { x1: center - 76, y1: center, x2: center + 76, y2: center, class: 'plane wing' }),
      s('line', { x1: center - 24, y1: center + 40, x2: center + 24, y2: center + 40, class: 'plane' }),
      this.#nose,
      this.#thenText, this.#then, this.#now,
    );
    this.replaceChildren(this.#head, this.#svg, this.#words, this.#wanted, this.#margins);
  }

  /** @param {State} state */
  update(state) {
    const { frame } = state;
    if (!frame) return;
    text(this.#head, t('Where the point stands'));
    text(this.#nose, t('nose'));
    const entry = frame.direction === 'left' ? frame.turn : -frame.turn;
    attr(this.#ground, 'transform', `rotate(${number1(entry)} ${center} ${center})`);
    const known = frame.point !== null;
    show(this.#now, known);
    show(this.#sightLine, known);
    if (frame.point !== null) {
      const p = around(center, center, radius, frame.point);
      attr(this.#now, 'transform', `translate(${p.x} ${p.y})`);
      attr(this.#sightLine, 'x2', p.x);
      attr(this.#sightLine, 'y2', p.y);
      text(this.#words, t('Point {where}.', { where: bearing(frame.point) }));
    } else {
      text(this.#words, t('No reference point yet.'));
    }
    this.#drawThen(state);
    text(this.#margins, [
      frame.stall === null ? '' : t('{speed} over the stall', { speed: withUnit(frame.stall, 'kt') }),
      frame.deck === null ? '' : t('{height} over the hard deck', { height: withUnit(frame.deck, 'ft') }),
    ].filter(Boolean).join(' · '));
  }

  /** @param {State} state */
  #drawThen(state) {
    const next = state.frame?.next ?? null;
    show(this.#then, next !== null);
    show(this.#thenText, next !== null);
    show(this.#nose, next === null || Math.abs(next.point) > 25); // the two would stand on each other
    if (!next) {
      text(this.#wanted, '');
      return;
    }
    const p = around(center, center, radius, next.point);
    const at = around(center, center, radius - 40, next.point);
    attr(this.#then, 'transform', `translate(${p.x} ${p.y})`);
    attr(this.#thenText, 'x', at.x);
    attr(this.#thenText, 'y', at.y + 5);
    text(this.#thenText, next.label === 'out' ? t('out') : t('at {post}', { post: next.label }));
    text(this.#wanted, next.label === 'out' ? t('At the exit it is {where}.', { where: bearing(next.point) }) : t('At {post} it is {where}.', { post: next.label, where: bearing(next.point) }));
  }
}

/** @param {number} n */
function number1(n) {
  return Math.round(n * 10) / 10;
}
