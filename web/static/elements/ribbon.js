// The strip chart, ruled in turn angle: the corridor ahead of the pen, the flight behind it.
//
// Three layers, so that a frame costs little: the paper (SVG) is drawn when plan, size, look or leg
// change; the trace of now (canvas) is only ever added to; the pen and its dots are moved by transforms, which needs
// no layout. The values of now stand in a column at the right, so that the corridor ahead of the pen is free.

/** @import { Flown, Lane, Leg, Plan, Trace } from '../types.d.ts' */
/** @import { State } from '../view.d.ts' */
/** @import { Box, Strip } from '../pure/geometry.js' */

import { attr, h, s, scale, show, text } from '../dom.js';
import { moment } from '../pure/again.js';
import { flag, number, verdictWords, withUnit } from '../pure/format.js';
import * as geo from '../pure/geometry.js';
import { sheetPlan, unclear } from '../pure/mode.js';
import { told } from '../pure/phrase.js';
import { beforeVerdict, lastHere, point, sameChoice } from '../pure/store.js';
import { cardText, language, t } from '../pure/text.js';
import { shownLanes, trouble } from '../pure/trouble.js';
import { units } from '../pure/units.js';
import { Again } from './again.js';
import { excursionHatch, hatch } from './hatch.js';
import { LaneNow } from './lanenow.js';
import { LiveTrace, onStall } from './livetrace.js';
import { markShape } from './mark.js';
import { Moments } from './moments.js';
import { flownPaths, gutter, paper, written } from './paper.js';

if (!customElements.get('ht-again')) customElements.define('ht-again', Again);

/**
 * How a lane names its peak, how far the flight must have left it, and whether the name stands under it: speed
 * and height turn about the same place, and between them there is room for one.
 * @type {Record<string, { words: string, margin: number, way: 1 | -1, under: boolean }>}
 */
const peaks = {
  bank: { words: 'steepest {value} at {turn}°', margin: 3, way: 1, under: false },
  pitch: { words: 'highest {value} at {turn}°', margin: 2, way: 1, under: false },
  airspeed: { words: 'slowest {value} at {turn}°', margin: 3, way: -1, under: true },
  height: { words: 'top {value} at {turn}°', margin: 30, way: 1, under: true },
};

/** Lanes that fit a name in the margin; narrower ones have it above, where there is height for it. */
const narrow = 620;
const low = { width: 440, height: 300 };

/** What a lane needs of the height to show its corridor, and what the rest takes, in the drawing's unit. */
const lanes = { least: 64, rest: 92 };

/** What the words for those who do not see are brought up to date by, ms. */
const summaryEvery = 1000;

/**
 * @typedef {object} LaneNodes
 * @property {Strip} strip
 * @property {SVGGElement} peak
 * @property {SVGTextElement} peakText
 * @property {{ left: number, right: number }} named what the peak's name takes of the width
 * @property {LaneNow} now
 */

export class Ribbon extends HTMLElement {
  /** @type {State | null} */ #state = null;
  /** What the paper was drawn for. @type {unknown[]} */ #built = [];
  /** @type {Plan | null} The plan with room for what was flown */ #plan = null;
  /** @type {AbortController | null} */ #listening = null;
  #sheet = h('div', { class: 'ribbon-sheet' });
  #svg = s('svg', { class: 'sheet', role: 'img' });
  #title = s('title');
  #paper = s('g');
  #marks = s('g', { class: 'marks' });
  #moments = new Moments();
  #hold = s('path', { class: 'hold' });
  #live = new LiveTrace();
  #now = h('div', { class: 'now', 'aria-hidden': 'true' });
  #pen = h('div', { class: 'pen-line' });
  #penText = h('div', { class: 'pen-words' });
  #nowHead = h('div', { class: 'now-head' });
  #again = /** @type {Again} */ (document.createElement('ht-again'));
  /** @type {LaneNodes[]} */ #lanes = [];
  /** @type {Map<number, SVGTextElement>} */ #posts = new Map();
  /** @type {Box} */ #box = { left: 0, right: 1, top: 0, bottom: 1 };
  #k = 1;
  #slim = false;
  #markKey = '';
  #penAt = '';
  #said = 0;

  connectedCallback() {
    if (!this.firstChild) {
      this.#svg.append(this.#title, this.#paper, this.#hold, this.#marks, this.#moments.node);
      this.#now.append(this.#pen, this.#penText);
      this.#sheet.append(this.#svg, this.#live.node, this.#now);
      this.append(this.#sheet, this.#again);
      this.#again.addEventListener('again', () => this.#redraw());
    }
    this.#listening = new AbortController();
    const { signal } = this.#listening;
    const redo = () => {
      this.#built = [];
      this.#redraw();
    };
    const size = new ResizeObserver(redo);
    size.observe(this.#sheet);
    const look = new MutationObserver(redo);
    look.observe(document.documentElement, { attributeFilter: ['data-theme'] });
    signal.addEventListener('abort', () => {
      size.disconnect();
      look.disconnect();
    });
    for (const query of ['(prefers-color-scheme: dark)', '(prefers-contrast: more)', '(forced-colors: active)']) {
      matchMedia(query).addEventListener('change', redo, { signal });
    }
  }

  disconnectedCallback() {
    this.#listening?.abort();
    this.#again.stop();
  }

  #redraw() {
    if (this.#state) this.update(this.#state);
  }

  /** @param {State} state */
  update(state) {
    this.#state = state;
    const { frame } = state;
    const plan = sheetPlan(state);
    if (!plan) return;
    const flying = frame !== null && beforeVerdict(frame);
    this.#again.update(state, flying);
    const last = lastHere(state);
    const { over, time } = this.#again;
    const again = time !== null && last !== null;
    const open = unclear(state);
    const key = [plan, last, over, flying, again, open, language() + units()];
    const shown = this.#choose(state, plan, flying).map((l) => l.channel).join();
    key.push(shown);
    if (key.some((part, i) => part !== this.#built[i]) || this.#outgrown(state, flying)) {
      if (this.#sheet.clientWidth === 0) return;
      this.#built = key;
      this.#build(state, plan, flying, again ? null : over, again);
    }
    if (flying) this.#follow(state.trace, !open);
    else if (again && last?.trace) this.#follow(last.trace.slice(0, moment(last.trace, time).index + 1), true);
    const banks = this.#lanes.find((l) => l.strip.lane.channel === 'bank')?.strip;
    attr(this.#hold, 'd', geo.holdPath(this.#box, plan.turn, banks, flying ? frame?.around : null));
    this.#drawPen(state, flying, again ? last : null, time ?? 0);
    this.#drawMarks(state, plan);
    this.#moments.draw(state.moments, this.#box, plan.turn, this.#k);
    this.#tell(state, plan, flying);
  }

  /**
   * Whether the flight has left a lane so that it must be drawn with more room.
   * @param {State} state
   * @param {boolean} flying
   */
  #outgrown(state, flying) {
    if (!flying || !state.frame) return false;
    const values = point(state.frame);
    const stall = geo.stallOf(values);
    for (const { strip } of this.#lanes) {
      const planned = state.plan?.lanes?.find((l) => l.channel === strip.lane.channel);
      const v = geo.laneValue(values, strip.lane.channel);
      if (planned && v !== null && geo.leaves(strip.lane, planned, v)) return true;
      if (planned?.channel !== 'airspeed' || stall === null) continue;
      if (stall > geo.floorShown(planned) && stall < strip.lane.low) return true;
    }
    return false;
  }

  /**
   * The lanes there is room for: all, two, or the one in trouble.
   * @param {State} state @param {Plan} plan @param {boolean} flying @returns {readonly Lane[]}
   */
  #choose(state, plan, flying) {
    const { clientWidth: wide, clientHeight: tall } = this.#sheet;
    const room = Math.max(1, Math.floor((tall / scale() - lanes.rest) / lanes.least));
    const named = flying && state.frame ? trouble(state, plan, point(state.frame), !unclear(state)) : null;
    return shownLanes(plan.lanes ?? [], wide < narrow * scale() ? Math.min(room, 2) : room, {
      named: named?.named ?? '',
      alarm: state.safety.length > 0,
      missed: flying ? [] : lastHere(state)?.checks ?? [],
    });
  }

  /**
   * Draws the paper and all on it that does not move.
   * @param {State} state
   * @param {Plan} plan
   * @param {boolean} flying
   * @param {Leg | null} over
   * @param {boolean} again whether the leg is played again
   */
  #build(state, plan, flying, over, again) {
    const k = (this.#k = scale());
    const w = this.#sheet.clientWidth;
    const tall = this.#sheet.clientHeight;
    const slim = (this.#slim = w < narrow * k && !(w > low.width * k && tall < low.height * k));
    const last = lastHere(state);
    // the shadow of a leg in another aircraft would lie in a corridor that was not its own
    const before = flying && !sameChoice(state.lastPlan, plan) ? [] : last?.trace ?? [];
    const lanes = [...this.#choose(state, plan, flying)];
    const roomy = (this.#plan = geo.roomFor({ ...plan, lanes }, [
      before,
      over?.trace ?? [],
      flying ? state.trace : [],
      flying && state.frame ? [point(state.frame)] : [],
    ]));
    this.#svg.classList.toggle('slim', slim);
    this.#now.classList.toggle('slim', slim);
    attr(this.#svg, 'viewBox', `0 0 ${w} ${tall}`);
    this.#box = {
      left: (slim ? 46 : gutter(roomy) + 6) * k,
      right: w - this.#beside(state, flying || again) * k,
      top: (slim ? 84 : 58) * k,
      bottom: tall - 34 * k,
    };
    const { paper: sheet, strips } = paper(roomy, this.#box, slim, k);
    this.#posts = new Map(
      [...sheet.querySelectorAll('text')].filter((n) => n.dataset['turn']).map((n) => [Number(n.dataset['turn']), n]),
    );
    const old = new Map(this.#lanes.map((l) => [l.strip.lane.channel, l.now]));
    const pale = flying || this.#again.time !== null;
    const judged = !unclear(state);
    this.#lanes = strips.map((strip) => {
      const drawn = (/** @type {readonly Trace[]} */ trace) => geo.tracePath(this.#box, roomy.turn, strip, trace);
      sheet.append(
        s('path', { class: 'trace pale', d: pale ? drawn(before) : '' }),
        s('path', { class: 'trace over', d: over ? drawn(over.trace ?? []) : '' }),
        ...flownPaths(this.#box, roomy.turn, judged ? strip : bare(strip), pale ? [] : before),
      );
      const peakText = s('text', { class: 'note', 'text-anchor': 'middle' });
      const peak = s('g', { class: 'peak', hidden: '' }, s('circle', { class: 'peak-ring', r: 4 * k }), peakText);
      sheet.append(peak);
      const now = old.get(strip.lane.channel) ?? new LaneNow();
      now.place(strip, slim);
      return { strip, peak, peakText, named: { left: NaN, right: NaN }, now };
    });
    if (!pale && last) sheet.append(written(last.checks ?? [], before, roomy, this.#box, strips, k));
    this.#now.replaceChildren(this.#pen, ...this.#lanes.flatMap((l) => l.now.nodes), this.#penText, this.#nowHead);
    this.#pen.style.height = `${this.#box.bottom - 38 * k}px`;
    this.#pen.style.top = `${46 * k}px`;
    this.#penText.style.top = `${this.#box.bottom + 12 * k}px`;
    this.#paper.replaceChildren(hatch(), excursionHatch(k), sheet);
    this.#markKey = '';
    this.#penAt = '';
    this.#said = 0;
    this.#live.clear(w, tall, k);
    if (!flying) for (const l of this.#lanes) this.#drawPeak(l, before, last);
  }

  /**
   * What stands at the right of the chart: the column of values, while there is a pen.
   * @param {State} state
   * @param {boolean} pen
   */
  #beside(state, pen) {
    if (!pen && lastHere(state) !== null) return this.#slim ? 20 : 30;
    if (this.#slim && state.safety.length > 0) return 20; // the value stands on top, large
    return this.#slim ? 112 : 166;
  }

  /** @param {readonly Flown[]} trace @param {boolean} judged whether the corridor is that of what is flown */
  #follow(trace, judged) {
    const strips = this.#lanes.map((l) => (judged ? l.strip : bare(l.strip)));
    if (!this.#live.follow(trace, this.#box, this.#plan?.turn ?? 180, strips)) return;
    for (const l of this.#lanes) this.#drawPeak(l, trace, null);
  }

  /** @param {LaneNodes} l @param {readonly Trace[]} trace @param {Leg | null} leg whose judged values are written in */
  #drawPeak(l, trace, leg) {
    const { channel, unit } = l.strip.lane;
    const kind = peaks[channel];
    const top = kind ? geo.peak(trace, channel, kind.margin, kind.way) : null;
    show(l.peak, top !== null);
    if (!top || !kind) return;
    const at = geo.x(this.#box, this.#plan?.turn ?? 180, top.turn);
    attr(l.peak, 'transform', `translate(${at} ${geo.y(l.strip, top.value)})`);
    const first = l === this.#lanes[0]; // over it are the marks on the posts
    const onFloor = leg === null && onStall(l.strip, trace, top, 30 * this.#k);
    const under = (kind.under && !onFloor) || (first && geo.y(l.strip, top.value) < l.strip.top + 10 * this.#k);
    attr(l.peakText, 'y', (under ? 21 : -11) * this.#k);
    const crowded =
      this.#slim ||
      (leg?.checks ?? []).some(
        (c) => c.channel === channel && c.turn !== undefined && Math.abs(c.turn - top.turn) < 35,
      );
    const words = crowded ? '' : t(kind.words, { value: withUnit(top.value, unit), turn: number(top.turn) });
    if (l.peakText.textContent === words) return;
    text(l.peakText, words);
    show(l.peakText, true);
    const half = l.peakText.getComputedTextLength() / 2;
    const middle = Math.min(Math.max(at, this.#box.left + half + 4), this.#box.right - half); // between the outer posts
    attr(l.peakText, 'x', Math.round(middle - at));
    l.named = { left: middle - half - 6, right: middle + half + 6 };
  }

  /**
   * @param {State} state
   * @param {boolean} flying
   * @param {Leg | null} again the leg that is played again
   * @param {number} time of it
   */
  #drawPen(state, flying, again, time) {
    const { frame } = state;
    const trace = again?.trace ?? [];
    const on = trace.length > 0 || (frame !== null && (flying || lastHere(state) === null));
    show(this.#now, on);
    const column = !(this.#slim && state.safety.length > 0);
    attr(this.#now, 'data-column', String(column));
    attr(this.#now, 'data-pen', String(trace.length > 0 || flying)); // before a leg nothing is flown: only values
    for (const [turn, label] of this.#posts) {
      label.classList.toggle(
        'next',
        flying && state.safety.length === 0 && frame !== null && frame.next !== null &&
          Math.abs(frame.next.turn - turn) < 0.5,
      );
    }
    if (!on) return;
    const now = trace.length > 0 ? moment(trace, time).point : frame ? point(frame) : null;
    if (!now) return;
    const moving = trace.length > 0 || flying;
    if (!moving) now.turn = now.height = 0; // the height is counted from here
    const pen = geo.x(this.#box, this.#plan?.turn ?? 180, now.turn);
    const at = `translateX(${pen - 1}px)`;
    if (at !== this.#penAt) {
      this.#penAt = at;
      this.#pen.style.transform = at;
      const edge = Math.max(68, 62 * this.#k);
      const middle = Math.min(Math.max(pen, edge), this.#sheet.clientWidth - edge);
      this.#penText.style.transform = `translateX(${middle}px) translateX(-50%)`;
    }
    text(this.#penText, moving ? t('{turn}° turned', { turn: number(now.turn) }) : t('before the leg'));
    text(this.#nowHead, t('now'));
    if (!this.#plan) return;
    const { named, side, out } = trouble(state, sheetPlan(state) ?? this.#plan, now, moving && !unclear(state));
    const direction = again ? again.direction : frame?.direction ?? '';
    for (const l of this.#lanes) {
      const { channel } = l.strip.lane;
      const is = { out: out.get(channel), side, named: channel === named, column };
      l.now.draw(this.#box, l.strip, pen, geo.laneValue(now, channel), direction, is, this.#k);
      const inWay = l.named.left < pen + 4 && pen - 4 < l.named.right; // the pen goes before
      show(l.peakText, !inWay && channel !== named);
    }
  }

  /** @param {State} state @param {Plan} plan */
  #drawMarks(state, plan) {
    let key = 'of';
    for (const [turn, v] of state.marks) key += ` ${turn} ${v}`;
    if (key === this.#markKey) return;
    this.#markKey = key;
    const k = this.#k;
    this.#marks.replaceChildren(...[...state.marks].map(([turn, verdict]) => {
      const shape = markShape(verdict, geo.x(this.#box, plan.turn, turn), 36 * k, 8 * k);
      shape.append(s('title', {}, verdictWords(verdict)));
      return shape;
    }));
  }

  /**
   * The picture in words, for those who do not see it; now and then, as nobody can hear sixty a second.
   * @param {State} state
   * @param {Plan} plan
   * @param {boolean} flying
   */
  #tell(state, plan, flying) {
    const { frame } = state;
    if (state.frameAt - this.#said < summaryEvery) return;
    this.#said = state.frameAt;
    const parts = [t('{title}: the flight over the turn', { title: cardText(plan.title) })];
    if (flying && frame) {
      const now = point(frame);
      parts.push(t('{turn}° turned', { turn: number(frame.turn) }));
      for (const { strip: { lane } } of this.#lanes) {
        const v = geo.laneValue(now, lane.channel);
        if (v !== null) parts.push(`${told(lane.title)} ${flag(lane.channel, lane.unit, v)}`);
      }
    }
    for (const [turn, verdict] of state.marks) {
      parts.push(
        `${t((plan.checkpoints ?? []).find((c) => c.turn === turn)?.label ?? `${turn}°`)}: ${verdictWords(verdict)}`,
      );
    }
    text(this.#title, `${parts.join('. ')}.`);
  }
}

/** A lane without a corridor: which maneuver's it would be is not known. @param {Strip} strip @returns {Strip} */
function bare(strip) {
  return { ...strip, lane: { ...strip.lane, corridor: [] } };
}
