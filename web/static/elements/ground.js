// The way over the ground from above, the entry heading upward: the flight, a second one, the
// line, the point it was flown about, the wind, and where the cursor is.

/** @import { FlownLeg, View } from '../sessions.d.ts' */

import { attr, h, s, show, text } from '../dom.js';
import { isAbout } from '../pure/around.js';
import { value } from '../pure/flight.js';
import { capital, number, withUnit } from '../pure/format.js';
import { told } from '../pure/phrase.js';
import { t } from '../pure/text.js';
import { inUnits, unitOf } from '../pure/units.js';

/**
 * The drawing is so wide and tall in its own units; ruler and wind stand in a strip at its foot, where nothing is
 * flown.
 */
const size = { w: 320, h: 300, edge: 22, foot: 38 };
const floor = size.h - size.foot;

export class GroundTrack extends HTMLElement {
  /** @type {View | null} */ #view = null;
  #svg = s('svg', { class: 'picture', viewBox: `0 0 ${size.w} ${size.h}`, role: 'img' });
  #words = h('p', { class: 'small soft' });
  #key = h('p', { class: 'small soft ground-key' });
  #plane = s('g', { class: 'little-plane' });
  #other = s('circle', { class: 'other-dot', r: 5 });
  /** @type {(along: number, across: number) => { x: number, y: number }} */ #to = () => ({ x: 0, y: 0 });

  connectedCallback() {
    this.#plane.append(s('path', { class: 'pen', d: 'M0 -10V8M-9 -1H9M-4 7H4' }));
    this.replaceChildren(this.#svg, this.#words, this.#key);
  }

  /** @param {View} view */
  update(view) {
    this.#view = view;
    const { main, over } = view;
    const side = main.leg.direction === 'left' ? -1 : 1;
    text(this.#words, sentence(main));
    text(this.#key, main.path ? t('Dashed: the ideal.') : '');
    const drawn = main.track.from !== '';
    show(this.#svg, drawn);
    if (!drawn) return;
    this.#to = fit([main, ...(over ? [over] : [])], side);
    const path = (/** @type {FlownLeg} */ f) => joined(f.samples['along'] ?? [], f.samples['across'] ?? [], this.#to);
    const start = this.#to(0, 0);
    const lane = main.track.line === null ? null : (main.track.line - main.track.entry) * (Math.PI / 180);
    const far = 60000;
    this.#svg.replaceChildren(s('title', {}, t('The flight from above, the entry heading upward')));
    const clip = s('svg', { width: size.w, height: floor }); // the line ends above the foot
    this.#svg.append(clip);
    if (lane !== null) {
      const [a, b] = [
        this.#to(-far * Math.cos(lane), -far * Math.sin(lane) * side),
        this.#to(far * Math.cos(lane), far * Math.sin(lane) * side),
      ];
      clip.append(s('line', { class: 'ground-line', x1: a.x, y1: a.y, x2: b.x, y2: b.y }));
    } else {
      clip.append(s('line', { class: 'ground-line', x1: start.x, y1: 0, x2: start.x, y2: floor }));
    }
    if (over) this.#svg.append(s('path', { class: 'trace pale', d: path(over) }));
    const [along, across] = idealOf(main);
    this.#svg.append(
      s('path', { class: 'trace', d: path(main) }),
      s('path', { class: 'ideal', d: joined(along, across, this.#to) }),
      s('circle', { class: 'peak-ring', cx: start.x, cy: start.y, r: 5 }),
      s(
        'text',
        {
          x: start.x + 10 * (start.x > size.w / 2 ? -1 : 1),
          y: start.y + 5,
          'text-anchor': start.x > size.w / 2 ? 'end' : 'start',
        },
        t('entry'),
      ),
    );
    if (main.leg.about) this.#svg.append(about(main.leg.about, this.#to));
    if (main.track.wind && main.track.wind.speed >= 1) this.#svg.append(wind(main.track.wind, main.track.entry));
    this.#svg.append(ruler(this.#to), this.#other, this.#plane);
    attr(this.#other, 'visibility', over ? 'visible' : 'hidden');
  }

  /** @param {number} i @param {number} j */
  cursor(i, j) {
    const view = this.#view;
    if (!view || view.main.track.from === '') return;
    const { samples, leg } = view.main;
    const at = place(samples, i, this.#to);
    attr(this.#plane, 'visibility', at ? 'visible' : 'hidden');
    const turn = value(samples, 'turn', i) ?? 0;
    if (at) {
      attr(this.#plane, 'transform', `translate(${at.x} ${at.y}) rotate(${leg.direction === 'left' ? -turn : turn})`);
    }
    const there = view.over ? place(view.over.samples, j, this.#to) : null;
    attr(this.#other, 'visibility', there ? 'visible' : 'hidden');
    if (there) attr(this.#other, 'transform', `translate(${there.x} ${there.y})`);
  }

  /** The sample whose place is nearest to a point of the page. @param {number} clientX @param {number} clientY */
  sampleAt(clientX, clientY) {
    const matrix = this.#svg.getScreenCTM();
    if (!this.#view || !matrix) return null;
    const p = new DOMPoint(clientX, clientY).matrixTransform(matrix.inverse());
    const { samples } = this.#view.main;
    let best = null;
    let off = 60 ** 2;
    for (let i = 0; i < (samples['time']?.length ?? 0); i++) {
      const at = place(samples, i, this.#to);
      if (!at) continue;
      const away = (at.x - p.x) ** 2 + (at.y - p.y) ** 2;
      if (away < off) [best, off] = [i, away];
    }
    return best;
  }

  /** What can be dragged on. */
  get picture() {
    return this.#svg;
  }
}

/**
 * The reference path over the ground: along the entry, and toward the side of the turn.
 * @param {FlownLeg} f @returns {[number[], number[]]}
 */
function idealOf(f) {
  const path = f.path ?? [];
  return [path.map((p) => p.along), path.map((p) => p.across)];
}

/**
 * @param {import('../sessions.d.ts').Rows} samples
 * @param {number} i
 * @param {(a: number, c: number) => { x: number, y: number }} to
 */
function place(samples, i, to) {
  const a = value(samples, 'along', i);
  const c = value(samples, 'across', i);
  return a === null || c === null ? null : to(a, c);
}

/**
 * @param {(number | null)[]} a
 * @param {(number | null)[]} c
 * @param {(a: number, c: number) => { x: number, y: number }} to
 */
function joined(a, c, to) {
  let path = '';
  for (let i = 0; i < a.length; i++) {
    const p = a[i];
    const q = c[i];
    if (p == null || q == null) continue;
    const at = to(p, q);
    path += `${path === '' ? 'M' : 'L'}${at.x.toFixed(1)} ${at.y.toFixed(1)}`;
  }
  return path;
}

/** One scale both ways, all that was flown within the edges. @param {FlownLeg[]} flights @param {number} side */
function fit(flights, side) {
  let [up, down, left, right] = [1, -1, 0, 0];
  for (const { samples } of flights) {
    for (const v of samples['along'] ?? []) if (v !== null) [up, down] = [Math.max(up, v), Math.min(down, v)];
    for (const v of samples['across'] ?? []) {
      if (v !== null) [left, right] = [Math.min(left, v * side), Math.max(right, v * side)];
    }
  }
  for (const flight of flights) {
    const [along, across] = idealOf(flight);
    if (flight.leg.about) {
      along.push(flight.leg.about.along);
      across.push(flight.leg.about.across);
    }
    [up, down] = [Math.max(up, ...along), Math.min(down, ...along)];
    [left, right] = [Math.min(left, ...across.map((v) => v * side)), Math.max(right, ...across.map((v) => v * side))];
  }
  const k = Math.min((size.w - 2 * size.edge) / (right - left), (floor - 2 * size.edge) / (up - down));
  const mid = { x: (left + right) / 2, y: (up + down) / 2 };
  return (/** @type {number} */ along, /** @type {number} */ across) =>
    ({ x: size.w / 2 + (across * side - mid.x) * k, y: floor / 2 - (along - mid.y) * k });
}

/**
 * The point on the ground that was flown about; where it is only about there, with how far off it may be.
 * @param {import('../types.d.ts').About} about
 * @param {(a: number, c: number) => { x: number, y: number }} to
 */
function about(about, to) {
  const at = to(about.along, about.across);
  const group = s('g', { class: 'flown-about', transform: `translate(${at.x.toFixed(1)} ${at.y.toFixed(1)})` },
    s('path', { class: 'point-now', d: 'M0 -8L8 6H-8Z' }));
  if (isAbout(about)) {
    const off = to(about.along, about.across + (about.within ?? 0));
    group.append(s('circle', { class: 'ground-line', r: Math.abs(off.x - at.x).toFixed(1) }));
  }
  const left = at.x > size.w / 2;
  group.append(s('text', { x: left ? -13 : 13, y: 5, 'text-anchor': left ? 'end' : 'start' },
    about.what === 'pylon' ? t('Pylon') : t('Point')));
  return group;
}

/** An arrow the way the wind blows. @param {{ from: number, speed: number }} w @param {number} entry */
function wind(w, entry) {
  return s('g', { transform: `translate(${size.w - 18} ${size.h - 18})` },
    s('path', { class: 'wind', d: 'M0 -15V15M-5 8L0 15L5 8', transform: `rotate(${(w.from - entry).toFixed(0)})` }),
    s('text', { x: -22, y: 6, 'text-anchor': 'end' }, t('wind {speed}', { speed: withUnit(w.speed, 'kt') })));
}

/** A bar of a round length in the chosen unit. @param {(a: number, c: number) => { x: number, y: number }} to */
function ruler(to) {
  const one = inUnits(1, 'ft').value;
  const k = Math.abs(to(0, 1000).x - to(0, 0).x) / 1000 / one; // px for one of the unit shown
  const length = [100, 200, 500, 1000, 2000, 5000, 10000, 20000].findLast((v) => v * k < 100) ?? 100;
  const end = length * k + 2;
  return s('g', {}, s('path', { class: 'scale-bar', d: `M2 ${size.h - 15}v5H${end.toFixed(1)}v-5` }),
    s('text', { x: (end + 7).toFixed(1), y: size.h - 8 }, `${number(length)}\u00a0${unitOf('ft')}`));
}

/** @param {FlownLeg} f */
function sentence(f) {
  const heading = number(((f.track.entry % 360) + 360) % 360).padStart(3, '0');
  switch (f.track.from) {
    case 'position':
      return (
        t('From positions. Entered on heading {heading}°.', { heading }) +
        (f.track.wind !== null && f.track.wind.speed < 1 ? ` ${t('No wind.')}` : '')
      );
    case 'heading':
      return t(
        'Reckoned from heading and airspeed, as if the air stood still: the wind is not in it. Entered on ' +
          'heading {heading}°.',
        { heading },
      );
    default: {
      const why = told(f.track.reason);
      return t('The stream has no position. {reason}', { reason: why === '' ? '' : `${capital(why)}.` });
    }
  }
}
