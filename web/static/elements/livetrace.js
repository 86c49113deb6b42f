// The trace of now, on a canvas that is only ever added to: the flight, heavier and hatched where it has left its
// corridor, and the stall as the floor of the speed lane.

/** @import { Flown, Trace } from '../types.d.ts' */
/** @import { Box, Strip } from '../pure/geometry.js' */

import { h } from '../dom.js';
import * as geo from '../pure/geometry.js';

/** Widths and distances in the drawing's unit. */
const weight = { trace: 3.4, outside: 7, hatch: 2.6, floor: 1.4 };
const apart = { hatch: 7, floor: 6 };

export class LiveTrace {
  node = h('canvas', { class: 'live-trace', 'aria-hidden': 'true' });
  /** @type {readonly Trace[]} */ #trace = [];
  #drawn = 0;
  #k = 1;
  #wide = 0;
  #tall = 0;

  /** An empty canvas in the ink of now. @param {number} wide @param {number} tall px @param {number} k */
  clear(wide, tall, k) {
    const dense = devicePixelRatio || 1;
    [this.#wide, this.#tall, this.#k] = [wide, tall, k];
    this.node.width = Math.round(wide * dense);
    this.node.height = Math.round(tall * dense);
    this.#trace = [];
    this.#drawn = 0;
    const ink = this.node.getContext('2d');
    if (!ink) return;
    ink.scale(dense, dense);
    ink.strokeStyle = getComputedStyle(this.node).color;
    ink.lineCap = ink.lineJoin = 'round';
  }

  /**
   * Adds what is new of a trace; another one, or less of it, is redrawn.
   * @param {readonly Flown[]} trace @param {Box} box @param {number} full degrees of the whole turn
   * @param {readonly Strip[]} strips
   * @returns {boolean} whether anything was drawn
   */
  follow(trace, box, full, strips) {
    if (trace === this.#trace) return false;
    if (trace.length < this.#drawn || trace[0] !== this.#trace[0]) this.clear(this.#wide, this.#tall, this.#k);
    const news = trace.slice(Math.max(0, this.#drawn - 1));
    const ink = this.node.getContext('2d');
    if (ink) for (const strip of strips) this.#add(ink, box, full, strip, news);
    this.#trace = trace;
    this.#drawn = trace.length;
    return true;
  }

  /**
   * @param {CanvasRenderingContext2D} ink @param {Box} box @param {number} full @param {Strip} strip
   * @param {readonly Flown[]} news the last point that was drawn, and what came since
   */
  #add(ink, box, full, strip, news) {
    if (strip.lane.channel === 'airspeed') this.#floor(ink, box, full, strip, news);
    const { area, line } = geo.excursions(box, full, strip, news);
    if (area !== '') {
      ink.fillStyle = this.#hatching(weight.hatch, apart.hatch, 1) ?? ink.strokeStyle;
      ink.fill(new Path2D(area));
    }
    ink.lineWidth = weight.trace * this.#k;
    ink.stroke(new Path2D(geo.tracePath(box, full, strip, news)));
    if (line === '') return;
    ink.lineWidth = weight.outside * this.#k;
    ink.stroke(new Path2D(line));
  }

  /**
   * The stall at the load factor of the moment, hatched below.
   * @param {CanvasRenderingContext2D} ink @param {Box} box @param {number} full @param {Strip} strip
   * @param {readonly Flown[]} news
   */
  #floor(ink, box, full, strip, news) {
    const { area, line } = geo.floorPaths(box, full, strip, news);
    if (area === '') return;
    ink.fillStyle = this.#hatching(weight.floor, apart.floor, 0.75) ?? ink.strokeStyle;
    ink.fill(new Path2D(area));
    ink.lineWidth = 1.5 * this.#k;
    ink.stroke(new Path2D(line));
  }

  /** @param {number} line @param {number} apart @param {number} alpha */
  #hatching(line, apart, alpha) {
    const size = Math.round(apart * Math.SQRT2 * this.#k * (devicePixelRatio || 1));
    const tile = document.createElement('canvas');
    tile.width = tile.height = size;
    const pen = tile.getContext('2d');
    const ink = this.node.getContext('2d');
    if (!pen || !ink) return null;
    pen.strokeStyle = ink.strokeStyle;
    pen.globalAlpha = alpha;
    pen.lineWidth = line * this.#k * (devicePixelRatio || 1);
    pen.beginPath();
    for (const shift of [-size, 0, size]) {
      pen.moveTo(shift - 2, size + 2);
      pen.lineTo(shift + size + 2, -2);
    }
    pen.stroke();
    const pattern = ink.createPattern(tile, 'repeat');
    pattern?.setTransform(new DOMMatrix().scale(1 / (devicePixelRatio || 1)));
    return pattern;
  }
}

/**
 * Whether the stall, which is drawn while a leg is flown, leaves less than so much under the peak of the speed.
 * @param {Strip} strip @param {readonly Trace[]} trace @param {{ turn: number, value: number }} peak
 * @param {number} room
 */
export function onStall(strip, trace, peak, room) {
  const at = strip.lane.channel === 'airspeed' ? trace.find((p) => p.turn === peak.turn) : undefined;
  const stall = at ? geo.stallOf(at) : null;
  return stall !== null && geo.y(strip, stall) - geo.y(strip, peak.value) < room;
}
