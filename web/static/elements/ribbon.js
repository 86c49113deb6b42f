// The strip chart, ruled in turn angle: the corridor ahead of the pen, the flight behind it.

/** @import { Check, Lane, Leg, Plan } from '../types.d.ts' */
/** @import { State } from '../view.d.ts' */
/** @import { Box, Strip } from '../pure/geometry.js' */

import { attr, s, scale, show, text } from '../dom.js';
import { flag, number, verdictWords, withUnit } from '../pure/format.js';
import * as geo from '../pure/geometry.js';
import { inTurn, lastHere, point } from '../pure/store.js';
import { language, said, t } from '../pure/text.js';
import { laneTicks, units } from '../pure/units.js';
import { markShape } from './mark.js';

/**
 * @typedef {object} LaneNodes
 * @property {Strip} strip
 * @property {SVGPathElement} pale
 * @property {SVGPathElement} trace
 * @property {SVGCircleElement} dot
 * @property {SVGGElement} flag
 * @property {SVGRectElement} box
 * @property {SVGTextElement} value
 * @property {SVGGElement} peak
 * @property {SVGTextElement} peakText
 */

/** How a lane names its greatest value. @type {Record<string, { words: string, margin: number }>} */
const peaks = {
  bank: { words: 'steepest {value} at {turn}°', margin: 3 }, pitch: { words: 'highest {value} at {turn}°', margin: 2 },
};

/** Lanes that fit a name in the margin; narrower ones have it above. */
const narrow = 620;

export class Ribbon extends HTMLElement {
  /** @type {State | null} */ #state = null;
  /** @type {Plan | null} */ #plan = null;
  /** What the words and ticks were drawn in. */
  #built = '';
  /** @type {Leg | null} */ #drawn = null;
  /** @type {ResizeObserver | null} */ #watch = null;
  #svg = s('svg', { class: 'sheet', role: 'img' });
  #title = s('title');
  #paper = s('g');
  #marks = s('g', { class: 'marks' });
  #notes = s('g', { class: 'notes' });
  #pen = s('line', { class: 'pen' });
  #penText = s('text', { class: 'pen-text', 'text-anchor': 'middle' });
  /** @type {LaneNodes[]} */ #lanes = [];
  /** @type {Map<number, SVGTextElement>} */ #posts = new Map();
  /** @type {Box} */ #box = { left: 0, right: 1, top: 0, bottom: 1 };
  #k = 1;
  #slim = false;
  #markKey = '';

  connectedCallback() {
    this.#svg.append(this.#title, this.#paper, this.#marks);
    this.replaceChildren(this.#svg);
    this.#watch = new ResizeObserver(() => {
      this.#plan = null; // drawn anew at the new size
      if (this.#state) this.update(this.#state);
    });
    this.#watch.observe(this);
  }

  disconnectedCallback() {
    this.#watch?.disconnect();
  }

  /** @param {State} state */
  update(state) {
    this.#state = state;
    const { plan } = state;
    if (!plan || this.clientWidth === 0) return;
    if (plan !== this.#plan || this.#built !== language() + units()) this.#build(plan);
    this.#drawTraces(state, plan);
    this.#drawPen(state, plan);
    this.#drawMarks(state, plan);
  }

  /** Draws what only a new plan or size changes. @param {Plan} plan */
  #build(plan) {
    this.#plan = plan;
    this.#built = language() + units();
    const k = (this.#k = scale());
    const w = this.clientWidth;
    const tall = this.clientHeight;
    const slim = (this.#slim = w < narrow * k);
    this.#svg.classList.toggle('slim', slim);
    attr(this.#svg, 'viewBox', `0 0 ${w} ${tall}`);
    this.#box = { left: (slim ? 40 : 116) * k, right: w - (slim ? 20 : 30) * k, top: (slim ? 84 : 58) * k, bottom: tall - 34 * k };
    this.#paper.replaceChildren(hatch());
    this.#posts.clear();
    this.#lanes = [];
    this.#drawn = null;
    this.#notes.replaceChildren();
    this.#marks.replaceChildren();
    this.#markKey = '';
    const strips = geo.strips(plan, this.#box, (slim ? 30 : 26) * k);
    this.#rule(plan, strips, slim);
    for (const strip of strips) this.#lanes.push(this.#lane(plan, strip));
    this.#paper.append(this.#pen);
    for (const l of this.#lanes) this.#paper.append(l.dot, l.flag);
    this.#paper.append(this.#notes, this.#penText);
    text(this.#title, t('{title}: the flight over the turn', { title: said(plan.title) }));
  }

  /** The rules, posts and names. @param {Plan} plan @param {Strip[]} strips @param {boolean} slim */
  #rule(plan, strips, slim) {
    const { left, right, bottom } = this.#box;
    const k = this.#k;
    const posts = [{ turn: 0, label: t('entry') }, ...(plan.checkpoints ?? [])];
    for (const p of posts) {
      const at = geo.x(this.#box, plan.turn, p.turn);
      const edge = p.turn === 0 || p.turn === plan.turn;
      const label = s('text', { x: at, y: 16 * k, class: 'post', 'text-anchor': 'middle' }, t(p.label));
      this.#paper.append(s('line', { x1: at, x2: at, y1: 26 * k, y2: bottom + 6 * k, class: edge ? 'rule edge' : 'rule' }), label);
      this.#posts.set(p.turn, label);
    }
    for (const { lane, top: up, bottom: down } of strips) {
      const strip = { lane, top: up, bottom: down };
      const ruled = laneTicks(lane.ticks ?? [], lane.unit);
      for (const tick of ruled.ticks) {
        const at = geo.y(strip, tick.at);
        this.#paper.append(
          s('line', { x1: left, x2: right, y1: at, y2: at, class: 'rule hair' }),
          s('text', { x: left - 9 * k, y: at + 4.5 * k, class: 'tick', 'text-anchor': 'end' }, lane.unit === '°' ? withUnit(tick.value, '°') : number(tick.value)),
        );
      }
      const name = s('text', { x: slim ? left + 8 * k : 0, y: slim ? up - 8 * k : up + 14 * k, class: 'lane' }, said(lane.title));
      this.#paper.append(name);
      if (lane.unit === '°') continue; // the ticks have it
      const unit = s('tspan', slim ? { class: 'lane-unit', dx: 5 * k } : { class: 'lane-unit', x: 0, dy: 18 * k }, ruled.unit);
      name.append(unit);
    }
  }

  /** @param {Plan} plan @param {Strip} strip @returns {LaneNodes} */
  #lane(plan, strip) {
    const k = this.#k;
    const { area, aim } = geo.corridorPaths(this.#box, plan.turn, strip);
    const value = s('text', { class: 'flag-text', 'text-anchor': 'middle' });
    const box = s('rect', { class: 'flag-box', rx: 4 * k, height: 32 * k });
    const peakText = s('text', { class: 'note', 'text-anchor': 'middle' });
    const nodes = {
      strip, value, box, peakText,
      pale: s('path', { class: 'trace pale' }),
      trace: s('path', { class: 'trace' }),
      dot: s('circle', { class: 'pen-dot', r: 6 * k }),
      flag: s('g', { class: 'flag' }, box, value),
      peak: s('g', { class: 'peak' }, s('circle', { class: 'peak-ring', r: 4 * k }), peakText),
    };
    this.#paper.append(
      s('path', { class: 'corridor', d: area }), s('path', { class: 'aim', d: aim }),
      nodes.pale, nodes.trace, nodes.peak,
    );
    return nodes;
  }

  /** @param {State} state @param {Plan} plan */
  #drawTraces(state, plan) {
    const flying = state.frame !== null && inTurn(state.frame);
    const live = flying && state.frame ? [...state.trace, point(state.frame)] : [];
    const last = lastHere(state);
    const before = last?.trace ?? [];
    for (const l of this.#lanes) {
      const trace = flying ? live : before;
      attr(l.trace, 'd', geo.tracePath(this.#box, plan.turn, l.strip, trace));
      attr(l.pale, 'd', flying ? geo.tracePath(this.#box, plan.turn, l.strip, before) : '');
      this.#drawPeak(l, plan, flying ? trace : []);
    }
    if (last !== this.#drawn || flying) {
      this.#drawn = flying ? null : last;
      this.#notes.replaceChildren();
      if (!flying && last) this.#writeIn(last, plan);
    }
  }

  /** @param {LaneNodes} l @param {Plan} plan @param {import('../types.d.ts').Trace[]} trace */
  #drawPeak(l, plan, trace) {
    const { channel, unit } = l.strip.lane;
    const kind = peaks[channel];
    const top = kind ? geo.peak(trace, channel, kind.margin) : null;
    show(l.peak, top !== null);
    if (!top || !kind) return;
    const at = { x: geo.x(this.#box, plan.turn, top.turn), y: geo.y(l.strip, top.value) };
    attr(l.peak, 'transform', `translate(${at.x} ${at.y})`);
    attr(l.peakText, 'y', -11 * this.#k);
    text(l.peakText, this.#slim ? '' : t(kind.words, { value: withUnit(top.value, unit), turn: number(top.turn) }));
  }

  /** Writes the judged values beside the finished trace. @param {Leg} leg @param {Plan} plan */
  #writeIn(leg, plan) {
    for (const check of leg.checks ?? []) {
      const l = this.#lanes.find((n) => n.strip.lane.channel === laneOf(check));
      const turn = check.turn;
      if (!l || turn === undefined || check.value === null || check.verdict === 'not-measured') continue;
      const at = { x: geo.x(this.#box, plan.turn, turn), y: geo.y(l.strip, check.value) };
      const k = this.#k;
      const above = geo.bulges(leg.trace ?? [], l.strip.lane.channel, turn, check.value);
      const label = s('text', {
        x: at.x, y: at.y + (above ? -14 : 27) * k, class: 'written', 'text-anchor': turn > plan.turn * 0.9 ? 'end' : 'middle',
      }, flag(l.strip.lane.channel, l.strip.lane.unit, check.value));
      this.#notes.append(markShape(check.verdict, at.x, at.y, 7 * k), label);
    }
  }

  /** @param {State} state @param {Plan} plan */
  #drawPen(state, plan) {
    const { frame } = state;
    const flying = frame !== null && inTurn(frame);
    const on = frame !== null && (flying || lastHere(state) === null);
    show(this.#pen, on);
    show(this.#penText, on);
    for (const l of this.#lanes) {
      show(l.dot, on);
      show(l.flag, on);
    }
    for (const [turn, label] of this.#posts) {
      label.classList.toggle('next', flying && frame.next !== null && Math.abs(frame.next.turn - turn) < 0.5);
    }
    if (!on || !frame) return;
    const now = point(frame);
    const turn = flying ? frame.turn : 0;
    const pen = geo.x(this.#box, plan.turn, turn);
    attr(this.#pen, 'x1', pen);
    attr(this.#pen, 'x2', pen);
    attr(this.#pen, 'y1', 46 * this.#k);
    attr(this.#pen, 'y2', this.#box.bottom + 8 * this.#k);
    const edge = 62 * this.#k;
    attr(this.#penText, 'x', Math.min(Math.max(pen, edge), this.clientWidth - edge));
    attr(this.#penText, 'y', this.#box.bottom + 28 * this.#k);
    text(this.#penText, flying ? t('{turn}° turned', { turn: number(frame.turn) }) : t('before the leg'));
    if (!flying) now.height = 0; // the height is counted from here
    for (const l of this.#lanes) this.#drawFlag(l, pen, geo.laneValue(now, l.strip.lane.channel));
  }

  /** @param {LaneNodes} l @param {number} pen @param {number | null} value */
  #drawFlag(l, pen, value) {
    const k = this.#k;
    const { lane } = l.strip;
    const unset = value === null;
    const at = unset ? (l.strip.top + l.strip.bottom) / 2 : geo.y(l.strip, value);
    show(l.dot, !unset);
    attr(l.dot, 'cx', pen);
    attr(l.dot, 'cy', at);
    const words = unset ? t('no data') : flag(lane.channel, lane.unit, value);
    const size = this.#slim ? 0.8 : 1; // a phone has less paper to cover
    const width = (words.length > 6 ? 112 : 92) * k * size;
    const height = 32 * k * size;
    attr(l.box, 'height', height);
    attr(l.box, 'width', width);
    attr(l.value, 'x', width / 2);
    attr(l.value, 'y', 23 * k * size);
    text(l.value, words);
    attr(l.flag, 'transform', `translate(${geo.flagX(this.#box, pen, width)} ${geo.flagY(l.strip, at, height)})`);
  }

  /** @param {State} state @param {Plan} plan */
  #drawMarks(state, plan) {
    const key = [...state.marks].map(([turn, v]) => `${turn} ${v}`).join();
    if (key === this.#markKey) return;
    this.#markKey = key;
    const k = this.#k;
    this.#marks.replaceChildren(...[...state.marks].map(([turn, verdict]) => {
      const shape = markShape(verdict, geo.x(this.#box, plan.turn, turn), 36 * k, 8 * k);
      shape.append(s('title', {}, verdictWords(verdict)));
      return shape;
    }));
  }
}

/** The lane a check belongs in. @param {Check} check @returns {Lane['channel'] | ''} */
function laneOf(check) {
  switch (check.channel) {
    case 'bank': case 'pitch': case 'airspeed': return check.channel;
    default: return '';
  }
}

/** The hatching of the corridor in high contrast. */
function hatch() {
  return s('defs', {}, s('pattern', { id: 'hatch', width: 7, height: 7, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)' },
    s('line', { x1: 0, y1: 0, x2: 0, y2: 7, class: 'hatch' })));
}
