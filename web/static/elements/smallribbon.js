// A small strip chart on a canvas: two lanes, the corridor, the flight, the marks, the pen. What stands is drawn once
// on a second canvas, which the flight is only ever added to; a new moment costs a copy of it and the pen.

/** @import { Lane, Plan, Trace, Verdict } from '../types.d.ts' */
/** @import { Tile } from '../desk.d.ts' */
/** @import { Box, Strip } from '../pure/geometry.js' */
/** @import { Inks } from './inks.js' */

import { h } from '../dom.js';
import * as geo from '../pure/geometry.js';
import { sheetLanes } from '../pure/sheet.js';
import { flown } from '../pure/wall.js';
import { inks } from './inks.js';

/** Widths in CSS pixels. */
const weight = { trace: 2.4, outside: 5.2, rule: 1, pen: 2 };
const dot = 4.5;

/** The marks over the lanes: how high they stand, and their radius. */
const marks = { at: 8, r: 4.5, room: 17 };

export class SmallRibbon {
  node = h('canvas', { class: 'small-ribbon', 'aria-hidden': 'true' });
  #base = h('canvas');
  /** What the base was drawn for. @type {readonly unknown[]} */ #built = [];
  /** @type {Plan | null} with room for what was flown */ #plan = null;
  /** @type {readonly Strip[]} */ #strips = [];
  /** @type {Box} */ #box = { left: 0, right: 1, top: 0, bottom: 1 };
  #drawn = 0;
  #wide = 0;
  #tall = 0;

  /** @param {number} wide @param {number} tall CSS pixels */
  size(wide, tall) {
    this.#wide = Math.round(wide);
    this.#tall = Math.round(tall);
    this.#built = [];
  }

  /** Draws all again the next time. */
  forget() {
    this.#built = [];
  }

  /** @param {Tile} tile @param {boolean} there whether what is shown is of now */
  draw(tile, there) {
    const { plan } = tile;
    if (this.#wide === 0 || this.#tall === 0) return;
    const lanes = sheetLanes(tile);
    const key = [plan, tile.trace, tile.marks, flown(tile), tile.stage?.unclear, lanes.map((l) => l.channel).join()];
    if (key.some((part, i) => part !== this.#built[i]) || this.#outgrown(tile)) {
      this.#built = key;
      this.#build(tile, lanes);
    }
    this.#follow(tile.trace);
    const ink = this.node.getContext('2d');
    if (!ink) return;
    const dense = devicePixelRatio || 1;
    ink.setTransform(1, 0, 0, 1, 0, 0);
    ink.clearRect(0, 0, this.node.width, this.node.height);
    ink.drawImage(this.#base, 0, 0);
    ink.setTransform(dense, 0, 0, dense, 0, 0);
    if (tile.now && plan) this.#pen(ink, plan, tile.now, there);
  }

  /** Whether the flight has left a lane so that it must be drawn with more room. @param {Tile} tile */
  #outgrown({ now, plan }) {
    if (!now) return false;
    return this.#strips.some(({ lane }) => {
      const planned = plan?.lanes?.find((l) => l.channel === lane.channel);
      const v = geo.laneValue(now, lane.channel);
      return planned !== undefined && v !== null && geo.leaves(lane, planned, v);
    });
  }

  /** @param {Tile} tile @param {readonly Lane[]} lanes */
  #build(tile, lanes) {
    const dense = devicePixelRatio || 1;
    for (const canvas of [this.node, this.#base]) {
      canvas.width = Math.round(this.#wide * dense);
      canvas.height = Math.round(this.#tall * dense);
    }
    this.#drawn = 0;
    const ink = this.#base.getContext('2d');
    if (!ink || !tile.plan) return;
    ink.scale(dense, dense);
    ink.lineCap = ink.lineJoin = 'round';
    const colors = inks();
    const plan = (this.#plan = geo.roomFor({ ...tile.plan, lanes: [...lanes] }, [tile.trace]));
    this.#box = { left: 7, right: this.#wide - 10, top: marks.room, bottom: this.#tall - 2 };
    this.#strips = geo.strips(plan, this.#box, this.#tall > 90 ? 6 : 3);
    this.#rules(ink, colors, plan);
    if (!tile.stage?.unclear) for (const strip of this.#strips) this.#corridor(ink, colors, plan, strip);
    for (const [turn, verdict] of tile.marks) {
      drawMark(ink, colors, verdict, geo.x(this.#box, plan.turn, turn), marks.at, marks.r);
    }
    if (!flown(tile)) ink.globalAlpha = tile.stage?.state === 'set-up' ? 0.3 : 1; // what was flown before
  }

  /** @param {CanvasRenderingContext2D} ink @param {Inks} colors @param {Plan} plan */
  #rules(ink, colors, plan) {
    ink.strokeStyle = colors.rule;
    ink.lineWidth = weight.rule;
    ink.beginPath();
    for (const turn of [0, ...(plan.checkpoints ?? []).map((c) => c.turn)]) {
      const at = Math.round(geo.x(this.#box, plan.turn, turn)) + 0.5;
      ink.moveTo(at, this.#box.top);
      ink.lineTo(at, this.#box.bottom);
    }
    for (const strip of this.#strips) {
      if (strip.lane.low > 0 || strip.lane.high < 0) continue;
      const at = Math.round(geo.y(strip, 0)) + 0.5;
      ink.moveTo(this.#box.left, at);
      ink.lineTo(this.#box.right, at);
    }
    ink.stroke();
  }

  /** @param {CanvasRenderingContext2D} ink @param {Inks} colors @param {Plan} plan @param {Strip} strip */
  #corridor(ink, colors, plan, strip) {
    const { area } = geo.corridorPaths(this.#box, plan.turn, strip);
    if (area === '') return;
    const shape = new Path2D(area);
    ink.lineWidth = 1;
    if (colors.hatched) {
      hatch(ink, shape, strip, this.#wide, colors.corridor);
    } else {
      ink.fillStyle = colors.corridor;
      ink.fill(shape);
    }
    ink.strokeStyle = colors.edge;
    ink.stroke(shape);
  }

  /** Adds what is new of the flight. @param {readonly Trace[]} trace */
  #follow(trace) {
    const ink = this.#base.getContext('2d');
    if (!ink || !this.#plan || trace.length === this.#drawn) return;
    const news = trace.slice(Math.max(0, this.#drawn - 1));
    ink.strokeStyle = inks().ink;
    for (const strip of this.#strips) {
      ink.lineWidth = weight.trace;
      ink.stroke(new Path2D(geo.tracePath(this.#box, this.#plan.turn, strip, news)));
      const { line } = geo.excursions(this.#box, this.#plan.turn, strip, news);
      if (line === '' || this.#built[4] === true) continue; // of which corridor is not known
      ink.lineWidth = weight.outside;
      ink.stroke(new Path2D(line));
    }
    this.#drawn = trace.length;
  }

  /** @param {CanvasRenderingContext2D} ink @param {Plan} plan @param {Trace} now @param {boolean} there */
  #pen(ink, plan, now, there) {
    const colors = inks();
    const at = geo.x(this.#box, plan.turn, now.turn);
    ink.lineWidth = weight.pen;
    ink.fillStyle = there ? colors.now : colors.sheet;
    ink.strokeStyle = there ? colors.now : colors.ink;
    if (there) {
      ink.beginPath();
      ink.moveTo(at, marks.room - 9);
      ink.lineTo(at, this.#tall);
      ink.stroke();
    }
    for (const strip of this.#strips) {
      const v = geo.laneValue(now, strip.lane.channel);
      if (v === null) continue;
      ink.beginPath();
      ink.arc(at, geo.y(strip, v), dot, 0, 2 * Math.PI);
      ink.fill();
      if (!there) ink.stroke();
    }
  }
}

/**
 * A corridor in high contrast.
 * @param {CanvasRenderingContext2D} ink @param {Path2D} shape @param {Strip} strip
 * @param {number} wide @param {string} color
 */
function hatch(ink, shape, strip, wide, color) {
  const tall = strip.bottom - strip.top + 20;
  ink.save();
  ink.clip(shape);
  ink.strokeStyle = color;
  ink.beginPath();
  for (let at = -tall; at < wide; at += 6) {
    ink.moveTo(at, strip.bottom + 10);
    ink.lineTo(at + tall, strip.bottom + 10 - tall);
  }
  ink.stroke();
  ink.restore();
}

/**
 * The mark of a verdict: a filled disc is met, a half one near, a struck ring missed, a dotted ring not measured.
 * @param {CanvasRenderingContext2D} ink @param {Inks} colors @param {Verdict} verdict
 * @param {number} x @param {number} y @param {number} r
 */
function drawMark(ink, colors, verdict, x, y, r) {
  ink.fillStyle = ink.strokeStyle = colors.ink;
  ink.lineWidth = 1.4;
  ink.setLineDash(verdict === 'not-measured' ? [1, 2] : []);
  ink.beginPath();
  ink.arc(x, y, r - 0.5, 0, 2 * Math.PI);
  if (verdict === 'met') ink.fill();
  else ink.stroke();
  ink.setLineDash([]);
  ink.beginPath();
  if (verdict === 'near') {
    ink.arc(x, y, r, 0, Math.PI);
    ink.fill();
  } else if (verdict === 'missed') {
    ink.moveTo(x - r - 1.5, y + r + 1.5);
    ink.lineTo(x + r + 1.5, y - r - 1.5);
    ink.stroke();
  }
}
