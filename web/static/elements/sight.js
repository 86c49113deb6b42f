// The sight picture, from above: the airplane, the ground line it entered along, and the
// reference point, filled where it is and hollow where it should be at the next checkpoint.

/** @import { Frame } from '../types.d.ts' */
/** @import { State } from '../view.d.ts' */

import { attr, h, s, show, text } from '../dom.js';
import { bearing, wrap180 } from '../pure/format.js';
import { around, chord } from '../pure/geometry.js';
import { aroundWanted, aroundWords, windSide, windWords } from '../pure/around.js';
import { due, groundWords } from '../pure/point.js';
import { t } from '../pure/text.js';
import { WingLine } from './wingline.js';

const center = 160;
const radius = 144;

/** Feet in a nautical mile. */
const feet = 1852 / 0.3048;

/** Degrees the point may stand from where it should before words tell. */
const astray = 5;

/** Degrees of drift from which the way over the ground can be told from the airplane's own line. */
const leastDrift = 3;

/** From the edge of the picture inward. */
const arrow = `M0 ${-radius - 6}V${-radius + 34}M-9 ${-radius + 20}L0 ${-radius + 36}L9 ${-radius + 20}`;

/** A small peak about its place. */
const peak = 'M0 -13L12 9H-12Z';

export class Sight extends HTMLElement {
  #band = s('line', { class: 'ground-band' });
  #dashes = s('line', { class: 'ground-line' });
  #ground = s('g', { class: 'ground' }, this.#band, this.#dashes);
  #track = s('line', { x1: center, y1: center, x2: center, y2: center - radius * 0.72, class: 'track-line' });
  #due = s('line', { x1: center, y1: center - radius - 9, x2: center, y2: center - radius + 9, class: 'point-due' });
  #sightLine = s('line', { x1: center, y1: center, class: 'sight-line' });
  #now = s('path', { d: peak, class: 'point-now' });
  #then = s('path', { d: peak, class: 'point-then' });
  #nose = s('text', { y: center - radius + 30 });
  #thenText = s('text', { class: 'small', 'text-anchor': 'middle' });
  #svg = s('svg', { viewBox: '0 0 320 320', class: 'picture', 'aria-hidden': 'true' });
  #head = h('h2');
  #words = h('p', { class: 'strong' });
  #wanted = h('p', { class: 'soft point-wanted' });
  #over = h('p', { class: 'soft small ground-words' });
  #wing = new WingLine();
  #wind = s('path', { class: 'wind-arrow', d: arrow });

  connectedCallback() {
    this.#svg.replaceChildren(
      s('circle', { cx: center, cy: center, r: radius, class: 'horizon' }),
      this.#ground, this.#track, this.#sightLine,
      s('line', { x1: center, y1: center - radius + 8, x2: center, y2: center + 44, class: 'plane thin' }),
      s('line', { x1: center - 76, y1: center, x2: center + 76, y2: center, class: 'plane wing' }),
      s('line', { x1: center - 24, y1: center + 40, x2: center + 24, y2: center + 40, class: 'plane' }),
      this.#nose,
      this.#due, this.#thenText, this.#then, this.#wind, this.#now,
    );
    this.replaceChildren(this.#head, this.#svg, this.#wing.node, this.#words, this.#wanted, this.#over);
  }

  /** @param {State} state */
  update(state) {
    if (!state.frame) return;
    const { around } = state.frame;
    attr(this, 'data-around', around?.what ?? null);
    show(this.#wing.node, around?.what === 'pylon');
    show(this.#svg, around?.what !== 'pylon');
    show(this.#wind, Boolean(around) && windSide(state.frame) !== null);
    if (!around) {
      this.#drawPoint(state);
      return;
    }
    this.#wing.update(around, state.frame.direction);
    attr(this.#wind, 'transform', `translate(${center} ${center}) rotate(${number1(windSide(state.frame) ?? 0)})`);
    const frame = { ...state.frame, point: around.bearing ?? null, pointDistance: null, next: null };
    this.#drawPoint({ ...state, frame });
    text(this.#head, around.what === 'pylon' ? t('The pylon from the wing') : t('Where the point stands'));
    text(this.#words, aroundWords(around));
    text(this.#wanted, aroundWanted(around));
    text(this.#over, windWords(frame));
  }

  /** The reference point, and where it should be. @param {State} state */
  #drawPoint(state) {
    const { frame } = state;
    if (!frame) return;
    text(this.#head, t('Where the point stands'));
    text(this.#nose, t('nose'));
    this.#drawGround(frame);
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
    // The name of the nose stands where the point is not.
    const right = frame.point !== null && wrap180(frame.point) > 0;
    attr(this.#nose, 'x', center + (right ? -9 : 9));
    attr(this.#nose, 'text-anchor', right ? 'end' : 'start');
    this.#drawThen(state);
  }

  /**
   * The ground line, as far to a side as the flight is from it; the way over the ground where it is not along the
   * nose.
   * @param {Frame} frame
   */
  #drawGround(frame) {
    const { ground, line, pointDistance } = frame;
    const right = frame.direction === 'left' ? -1 : 1;
    const angle = line ? -line.off : -right * frame.turn;
    // The circle is as wide as the point is far. Along a line flown the other way, its far side is its near one.
    const reversed = line !== null && Math.cos(((angle + right * frame.turn) * Math.PI) / 180) < 0;
    const aside = ground && pointDistance ? (-right * ground.across * radius) / (pointDistance * feet) : 0;
    for (const node of [this.#band, this.#dashes]) {
      for (const [name, value] of Object.entries(chord(center, center, radius, reversed ? -aside : aside))) {
        attr(node, name, value);
      }
    }
    attr(this.#ground, 'transform', `rotate(${number1(angle)} ${center} ${center})`);
    const drift = ground?.drift ?? null;
    show(this.#track, drift !== null && Math.abs(drift) >= leastDrift);
    if (drift !== null) attr(this.#track, 'transform', `rotate(${number1(drift)} ${center} ${center})`);
    text(this.#over, groundWords(frame));
  }

  /** @param {State} state */
  #drawThen(state) {
    const next = state.frame?.next ?? null;
    show(this.#then, next !== null);
    show(this.#thenText, next !== null);
    show(this.#nose, next === null || Math.abs(next.point) > 25); // the two would stand on each other
    const should = state.frame ? due(state.frame) : null;
    show(this.#due, should !== null);
    if (should !== null) attr(this.#due, 'transform', `rotate(${number1(should)} ${center} ${center})`);
    if (!next) {
      text(this.#wanted, '');
      return;
    }
    const p = around(center, center, radius, next.point);
    const now = state.frame?.point ?? null;
    attr(this.#then, 'transform', `translate(${p.x} ${p.y})`);
    const at = besidePeak(next.point, now ?? 0);
    for (const [name, v] of Object.entries(at)) attr(this.#thenText, name, v);
    text(this.#thenText, next.label === 'out' ? t('out') : t('at {post}', { post: next.label }));
    const off = should !== null && now !== null && Math.abs(wrap180(now - should)) > astray;
    text(
      this.#wanted,
      off
        ? t('Now it should stand {where}.', { where: bearing(should) })
        : next.label === 'out'
          ? t('At the exit it is {where}.', { where: bearing(next.point) })
          : t('At {post} it is {where}.', { post: next.label, where: bearing(next.point) }),
    );
  }
}

/**
 * Where the name of the hollow peak stands: clear of nose and wing, and away from where the point is now.
 * @param {number} then
 * @param {number} now degrees off the nose
 */
function besidePeak(then, now) {
  const { x, y } = around(center, center, radius - 42, then);
  const side = wrap180(then);
  if (Math.abs(side) < 25) {
    return { x: x + (now > side ? -14 : 14), y: y + 7, 'text-anchor': now > side ? 'end' : 'start' };
  }
  const aside = Math.abs(Math.abs(side) - 90) < 20;
  return { x, y: y + (aside ? (Math.abs(now) < Math.abs(side) ? 34 : -22) : 7), 'text-anchor': 'middle' };
}

/** @param {number} n */
function number1(n) {
  return Math.round(n * 10) / 10;
}
