// A leg as seen from outside, from behind or from the side: the own airplane beside the reference path's, each on its
// way through the air. What stands still is drawn once; a picture costs two airplanes and a line.

/** @import { View } from '../sessions.d.ts' */
/** @import { Attitude, Camera, Place3 } from '../pure/perspective.js' */

import { attr, h, show, text } from '../dom.js';
import { value } from '../pure/flight.js';
import { number, withUnit } from '../pure/format.js';
import * as air from '../pure/perspective.js';
import { t } from '../pure/text.js';

/** @typedef {'behind' | 'side'} From */
/** @typedef {{ at: Place3, attitude: Attitude }} Pose */

/** An airplane is drawn this wide, px of a wide picture, wherever it is: at its true size it would be a dot. */
const wide = 56;

/** A line from the way down to the ground, at equal steps of the turn. */
const postEvery = 15;

export class OutsideView extends HTMLElement {
  /** @type {View | null} */ #view = null;
  /** @type {From} */ #from = 'behind';
  #canvas = h('canvas', { class: 'outside-canvas', role: 'img' });
  #words = h('p', { class: 'small soft' });
  #still = document.createElement('canvas');
  /** @type {Camera | null} */ #camera = null;
  /** @type {Place3[]} */ #way = [];
  /** @type {number[]} */ #wayTurns = [];
  /** @type {Record<string, string>} */ #inks = {};
  #dense = 1;
  #i = 0;
  /** @type {AbortController | null} */ #listening = null;

  connectedCallback() {
    this.replaceChildren(this.#canvas, this.#words);
    this.#listening = new AbortController();
    const { signal } = this.#listening;
    const again = () => this.#build();
    const size = new ResizeObserver(again);
    size.observe(this.#canvas);
    const look = new MutationObserver(again);
    look.observe(document.documentElement, { attributeFilter: ['data-theme'] });
    signal.addEventListener('abort', () => {
      size.disconnect();
      look.disconnect();
    });
    for (const query of ['(prefers-color-scheme: dark)', '(prefers-contrast: more)', '(forced-colors: active)']) {
      matchMedia(query).addEventListener('change', again, { signal });
    }
  }

  disconnectedCallback() {
    this.#listening?.abort();
  }

  /** @param {View} view @param {From} from */
  update(view, from) {
    this.#view = view;
    this.#from = from;
    this.#build();
  }

  /** Draws the moment of a sample. @param {number} i */
  cursor(i) {
    this.#i = i;
    const view = this.#view;
    const ink = this.#canvas.getContext('2d');
    if (!view || !ink || !this.#camera) return;
    ink.setTransform(1, 0, 0, 1, 0, 0);
    ink.clearRect(0, 0, this.#canvas.width, this.#canvas.height);
    ink.drawImage(this.#still, 0, 0);
    ink.setTransform(this.#dense, 0, 0, this.#dense, 0, 0);
    const own = poseOf(view, i);
    const turn = value(view.main.samples, 'turn', i) ?? 0;
    const ideal = idealPose(view, turn);
    const upTo = this.#way.length > 0 ? this.#wayTurns.findLastIndex((at) => at <= i) + 1 : 0;
    this.#line(ink, this.#way.slice(0, upTo), 'ink', 3.2, []);
    if (ideal) this.#plane(ink, ideal, 'ideal', [5, 4], 2.4);
    if (own) this.#plane(ink, own, 'ink', [], 3.4);
    if (own) this.#dot(ink, own.at);
    attr(this.#canvas, 'aria-label', sentence(own, ideal, turn, this.#from));
  }

  #build() {
    const view = this.#view;
    const { clientWidth: w, clientHeight: tall } = this.#canvas;
    if (!view || w === 0 || tall === 0) return;
    this.#dense = Math.min(devicePixelRatio || 1, 2);
    for (const c of [this.#canvas, this.#still]) {
      c.width = Math.round(w * this.#dense);
      c.height = Math.round(tall * this.#dense);
    }
    const style = getComputedStyle(this);
    this.#inks = Object.fromEntries(['ink', 'soft', 'rule', 'ideal', 'now', 'sheet', 'control'].map((name) =>
      [name, resolved(style, `--${name}`)]));
    [this.#way, this.#wayTurns] = wayOf(view);
    const side = sideOf(view);
    const ideal = idealWay(view);
    const places = [...this.#way, ...ideal];
    show(this.#canvas, places.length > 0);
    if (places.length === 0) {
      text(this.#words, t('The stream has neither a position nor heading and speed: there is no way to show.'));
      return;
    }
    this.#camera = this.#from === 'behind' ? air.fromBehind(places, w, tall) : air.fromTheSide(places, w, tall, side);
    const ink = this.#still.getContext('2d');
    if (!ink) return;
    ink.scale(this.#dense, this.#dense);
    this.#background(ink, view, places, ideal);
    text(this.#words, view.main.path
      ? t('Dashed: the ideal, at the same turn angle. Heights to scale; the ground is drawn under the lowest point.')
      : t('Heights to scale; the ground is drawn under the lowest point.'));
    this.cursor(this.#i);
  }

  /**
   * Horizon, ground, ground line and point, the ways with their lines down to the ground.
   * @param {CanvasRenderingContext2D} ink @param {View} view @param {Place3[]} places @param {Place3[]} ideal
   */
  #background(ink, view, places, ideal) {
    const camera = /** @type {Camera} */ (this.#camera);
    const { w, h: tall } = camera;
    const ups = places.map((p) => p.up);
    const floor = Math.min(...ups) - Math.max(60, (Math.max(...ups) - Math.min(...ups)) * 0.12);
    this.#stroke(ink, 'control', 1.2, [], () => {
      ink.moveTo(0, tall / 2);
      ink.lineTo(w, tall / 2);
    });
    const { line, entry } = view.main.track;
    const angle = line === null ? 0 : line - entry;
    const way = air.axes({ heading: angle, pitch: 0, bank: 0 }).nose;
    const from = { ahead: 0, right: 0, up: floor };
    for (const k of [-1, 1]) this.#line(ink, [from, air.moved(from, way, 40000 * k)], 'soft', 1.2, [6, 5]);
    for (const p of posts(places, this.#way, this.#wayTurns, view)) {
      this.#line(ink, [p, { ...p, up: floor }], 'rule', 1, []);
    }
    this.#line(ink, ideal, 'ideal', 2, [5, 4]);
    this.#line(ink, this.#way, 'soft', 1.4, []);
    this.#point(ink, view);
    ink.font = `${Math.max(13, w / 32)}px ${getComputedStyle(this).fontFamily}`;
    ink.fillStyle = this.#inks['soft'] ?? '';
    ink.fillText(t('horizon'), 6, tall / 2 - 6);
  }

  /**
   * The point to look for, on the horizon off the wing at the entry.
   * @param {CanvasRenderingContext2D} ink @param {View} view
   */
  #point(ink, view) {
    const camera = /** @type {Camera} */ (this.#camera);
    const bearing = 90 * sideOf(view) - camera.heading;
    const mid = camera.h / 2;
    const size = 9;
    ink.fillStyle = ink.strokeStyle = this.#inks['now'] ?? '';
    const x = Math.abs(bearing) < 60
      ? camera.w / 2 + camera.focal * Math.tan(bearing * Math.PI / 180)
      : bearing > 0 ? camera.w - 14 : 14; // off the picture: at its edge
    ink.beginPath();
    ink.moveTo(x - size, mid);
    ink.lineTo(x, mid - 1.6 * size);
    ink.lineTo(x + size, mid);
    ink.closePath();
    if (Math.abs(bearing) < 60) ink.fill();
    else {
      ink.lineWidth = 2;
      ink.stroke();
    }
  }

  /**
   * @param {CanvasRenderingContext2D} ink @param {string} color @param {number} width @param {number[]} dash
   * @param {() => void} trace
   */
  #stroke(ink, color, width, dash, trace) {
    ink.strokeStyle = this.#inks[color] ?? '';
    ink.lineWidth = width;
    ink.lineCap = dash.length > 0 ? 'butt' : 'round';
    ink.lineJoin = 'round';
    ink.setLineDash(dash);
    ink.beginPath();
    trace();
    ink.stroke();
    ink.setLineDash([]);
  }

  /**
   * @param {CanvasRenderingContext2D} ink @param {Place3[]} places @param {string} color @param {number} width
   * @param {number[]} dash
   */
  #line(ink, places, color, width, dash) {
    const camera = /** @type {Camera} */ (this.#camera);
    this.#stroke(ink, color, width, dash, () => {
      for (let i = 1; i < places.length; i++) {
        const part = air.segment(camera, /** @type {Place3} */ (places[i - 1]), /** @type {Place3} */ (places[i]));
        if (!part) continue;
        if (i === 1) ink.moveTo(part.from.x, part.from.y);
        ink.lineTo(part.to.x, part.to.y);
      }
    });
  }

  /**
   * @param {CanvasRenderingContext2D} ink @param {Pose} pose @param {string} color @param {number[]} dash
   * @param {number} width
   */
  #plane(ink, pose, color, dash, width) {
    const camera = /** @type {Camera} */ (this.#camera);
    const seen = air.project(camera, pose.at);
    if (!seen) return;
    const length = (wide * Math.max(0.7, camera.w / 420) * seen.depth) / camera.focal;
    for (const [p, q] of air.airplane(pose.at, pose.attitude, length)) this.#line(ink, [p, q], color, width, dash);
  }

  /** Where the own airplane is now. @param {CanvasRenderingContext2D} ink @param {Place3} at */
  #dot(ink, at) {
    const p = air.project(/** @type {Camera} */ (this.#camera), at);
    if (!p) return;
    ink.fillStyle = this.#inks['now'] ?? '';
    ink.beginPath();
    ink.arc(p.x, p.y, 4, 0, 7);
    ink.fill();
  }
}

/**
 * A color as the canvas takes it: light-dark() is none that it knows.
 * @param {CSSStyleDeclaration} style @param {string} name
 */
function resolved(style, name) {
  const probe = h('span', { hidden: '' });
  probe.style.color = `var(${name})`;
  document.body.append(probe);
  const { color } = getComputedStyle(probe);
  probe.remove();
  return color || style.color;
}

/** 1 for a turn to the right, -1 for one to the left. @param {View} view @returns {1 | -1} */
function sideOf(view) {
  return view.main.leg.direction === 'left' ? -1 : 1;
}

/**
 * Where and how the own airplane was; null where that is not known.
 * @param {View} view @param {number} i @returns {Pose | null}
 */
function poseOf(view, i) {
  const { samples } = view.main;
  const at = placeOf(view, i);
  if (!at) return null;
  const side = sideOf(view);
  return {
    at,
    attitude: {
      heading: (value(samples, 'turn', i) ?? 0) * side,
      pitch: value(samples, 'pitch', i) ?? 0,
      bank: (value(samples, 'bank', i) ?? 0) * side,
    },
  };
}

/** @param {View} view @param {number} i @returns {Place3 | null} */
function placeOf(view, i) {
  const { samples } = view.main;
  const [along, across] = [value(samples, 'along', i), value(samples, 'across', i)];
  return along === null || across === null
    ? null
    : { ahead: along, right: across * sideOf(view), up: value(samples, 'climb', i) ?? 0 };
}

/** The way flown, with the samples that its places are of. @param {View} view @returns {[Place3[], number[]]} */
function wayOf(view) {
  /** @type {Place3[]} */ const places = [];
  /** @type {number[]} */ const of = [];
  for (let i = 0; i < (view.main.samples['time']?.length ?? 0); i++) {
    const at = placeOf(view, i);
    if (!at) continue;
    places.push(at);
    of.push(i);
  }
  return [places, of];
}

/** @param {View} view @returns {Place3[]} */
function idealWay(view) {
  return (view.main.path ?? []).map((p) => ({ ahead: p.along, right: p.across * sideOf(view), up: p.height }));
}

/** The reference path's airplane at a turn angle. @param {View} view @param {number} turn @returns {Pose | null} */
function idealPose(view, turn) {
  const path = view.main.path ?? [];
  const i = Math.min(Math.max(Math.round(turn), 0), path.length - 1);
  const p = path[i];
  const side = sideOf(view);
  return p
    ? {
      at: { ahead: p.along, right: p.across * side, up: p.height },
      attitude: { heading: p.turn * side, pitch: p.pitch, bank: p.bank * side },
    }
    : null;
}

/**
 * Places on the way flown from which a line leads down.
 * @param {Place3[]} all @param {Place3[]} way @param {number[]} of @param {View} view
 */
function posts(all, way, of, view) {
  const out = [];
  let next = 0;
  for (const [k, i] of of.entries()) {
    const turn = value(view.main.samples, 'turn', i);
    if (turn === null || turn < next - 0.5) continue;
    const at = way[k];
    if (at) out.push(at);
    next = (Math.floor(turn / postEvery) + 1) * postEvery;
  }
  return out.length > 0 ? out : all.slice(0, 1);
}

/**
 * The picture in words. @param {Pose | null} own @param {Pose | null} ideal @param {number} turn @param {From} from
 */
function sentence(own, ideal, turn, from) {
  const name = from === 'behind' ? t('The leg from behind') : t('The leg from the side');
  const words = (/** @type {Pose} */ p) => t('bank {bank}, nose {nose}, height {height}', {
    bank: withUnit(Math.abs(p.attitude.bank), '°'),
    nose: withUnit(p.attitude.pitch, '°'),
    height: withUnit(p.at.up, 'ft'),
  });
  const parts = [t('{name}, {turn}° turned', { name, turn: number(turn) })];
  if (own) parts.push(t('flown: {what}', { what: words(own) }));
  if (ideal) parts.push(t('ideal: {what}', { what: words(ideal) }));
  return `${parts.join('. ')}.`;
}
