// A flown leg on the ribbon: chosen lanes with the corridor, the flight, a second one laid under it, the ideal over it,
// the marks written in, and a cursor. The small one has two lanes and no writing.

/** @import { Plan, Trace } from '../types.d.ts' */
/** @import { Rows, View } from '../sessions.d.ts' */
/** @import { DrawnLane, Kind } from '../pure/lanes.js' */
/** @import { Box, Strip } from '../pure/geometry.js' */
/** @import { Moment } from '../pure/moments.js' */

import { attr, s, scale, text } from '../dom.js';
import { spent } from '../pure/energy.js';
import { value, widened } from '../pure/flight.js';
import { number, verdictWords, withUnit } from '../pure/format.js';
import * as geo from '../pure/geometry.js';
import { cursorRow, decidedIn, drawnLanes, excursions, kinds, most, tracesOf } from '../pure/lanes.js';
import { cardText, t } from '../pure/text.js';
import { excursionHatch, hatch } from './hatch.js';
import { markShape } from './mark.js';
import { Moments } from './moments.js';
import { gutter, paper, written } from './paper.js';

/**
 * Printed, the window's size says nothing: so wide, a rem so large, and so tall for each lane and the rest, in
 * pixels of the paper.
 */
const onPaper = { w: 500, rem: 10.5, lane: 62, rest: 58 };

/** @typedef {{ strip: Strip, row: string, dot: SVGCircleElement, other: SVGCircleElement }} LaneNodes */

export class FlownSheetElement extends HTMLElement {
  /** @type {View | null} */ #view = null;
  /** @type {readonly Kind[]} */ #chosen = [];
  /** @type {Rows} */ #rows = {};
  /** @type {Rows | null} */ #overRows = null;
  /** @type {ResizeObserver | null} */ #watch = null;
  #svg = s('svg', { class: 'sheet', role: 'img' });
  #title = s('title');
  #paper = s('g');
  #cursor = s('line', { class: 'pen', x1: 0, x2: 0 });
  #label = s('text', { class: 'pen-text', 'text-anchor': 'middle' });
  /** @type {LaneNodes[]} */ #lanes = [];
  /** @type {Box} */ #box = { left: 0, right: 1, top: 0, bottom: 1 };
  #notes = new Moments();
  /** @type {readonly Moment[]} */ #moments = [];
  #i = 0;
  #j = 0;
  #k = 1;
  #printing = false;
  /** @type {AbortController | null} */ #listening = null;

  connectedCallback() {
    this.#svg.append(this.#title, this.#paper);
    this.replaceChildren(this.#svg);
    this.#watch = new ResizeObserver(() => this.#build());
    this.#watch.observe(this);
    this.#listening = new AbortController();
    for (const [name, printing] of /** @type {const} */ ([['beforeprint', true], ['afterprint', false]])) {
      addEventListener(name, () => {
        this.#printing = printing;
        this.#build();
      }, { signal: this.#listening.signal });
    }
  }

  disconnectedCallback() {
    this.#watch?.disconnect();
    this.#listening?.abort();
  }

  /**
   * @param {View} view @param {readonly Kind[]} [chosen] the lanes; the plan's own where they are left out
   * @param {Rows} [rows] of the leg @param {Rows | null} [over] of the one laid over it
   */
  update(view, chosen = kinds.slice(0, most), rows = view.main.samples, over = view.over?.samples ?? null) {
    this.#view = view;
    this.#chosen = chosen;
    this.#rows = rows;
    this.#overRows = over;
    this.#build();
  }

  /** From where to where the turn runs, in pixels of the sheet, and how many degrees that is. */
  get axis() {
    return { left: this.#box.left, right: this.#box.right, full: this.#view?.main.plan.turn ?? 180 };
  }

  /** The turn angle under a pixel of the page. @param {number} clientX */
  turnAt(clientX) {
    const { left, right } = this.#box;
    const full = this.#view?.main.plan.turn ?? 180;
    return ((clientX - this.getBoundingClientRect().left - left) / (right - left)) * full;
  }

  /** Moves the cursor to a sample, that of the other leg to one of its own. @param {number} i @param {number} j */
  cursor(i, j) {
    this.#i = i;
    this.#j = j;
    const view = this.#view;
    if (!view || this.#lanes.length === 0) return;
    const turn = value(view.main.samples, 'turn', i) ?? 0;
    const full = view.main.plan.turn;
    const x = geo.x(this.#box, full, turn);
    attr(this.#cursor, 'transform', `translate(${x} 0)`);
    const edge = 50 * this.#k;
    attr(this.#label, 'x', Math.min(Math.max(x, edge), this.#box.right));
    text(this.#label, t('{turn}° turned', { turn: number(turn) }));
    for (const { strip, row, dot, other } of this.#lanes) {
      place(dot, x, strip, value(this.#rows, row, i));
      const there = view.over ? value(view.over.samples, 'turn', j) : null;
      place(
        other,
        geo.x(this.#box, full, there ?? 0),
        strip,
        this.#overRows && there !== null ? value(this.#overRows, row, j) : null,
      );
    }
  }

  /** Marks moments that are remarked on. @param {readonly Moment[]} moments */
  notes(moments) {
    this.#moments = moments;
    this.#drawNotes();
  }

  #drawNotes() {
    this.#notes.draw(this.#moments, this.#box, this.#view?.main.plan.turn ?? 180, this.#k);
  }

  #build() {
    const view = this.#view;
    if (!view || this.clientWidth === 0) return;
    const { leg } = view.main;
    const drawn = drawnLanes(view, this.#chosen, this.#rows, this.#overRows);
    const plan = { ...view.main.plan, lanes: drawn.map((l) => l.lane) };
    const k = this.#printing ? onPaper.rem / 16 : scale();
    const w = this.#printing ? onPaper.w : this.clientWidth;
    const tall = this.#printing ? onPaper.rest + onPaper.lane * (plan.lanes ?? []).length : this.clientHeight;
    this.#k = k;
    const slim = w < 620 * k;
    attr(this.#svg, 'viewBox', `0 0 ${w} ${tall}`);
    this.#svg.classList.toggle('slim', slim);
    this.#box = {
      left: (slim ? 46 : gutter(plan)) * k,
      right: w - 26 * k,
      top: (slim ? 88 : 76) * k,
      bottom: tall - 34 * k,
    };
    const nodes = paper(plan, this.#box, slim, k);
    this.#lanes = [];
    const dots = s('g');
    for (const aim of nodes.paper.querySelectorAll('.aim')) aim.remove(); // the ideal is drawn over the flight
    nodes.paper.append(postMarks(view, this.#box, k));
    for (const [n, strip] of nodes.strips.entries()) {
      const of = /** @type {DrawnLane} */ (drawn[n]);
      this.#traces(nodes.paper, of, strip, view, k);
      const lane = {
        strip,
        row: cursorRow(of.kind),
        dot: s('circle', { class: 'pen-dot', r: 5 * k }),
        other: s('circle', { class: 'other-dot', r: 4 * k }),
      };
      dots.append(lane.other, lane.dot);
      this.#lanes.push(lane);
    }
    nodes.paper.append(written(leg.checks ?? [], leg.trace ?? [], plan, this.#box, nodes.strips, k));
    attr(this.#cursor, 'y1', 26 * k);
    attr(this.#cursor, 'y2', this.#box.bottom + 8 * k);
    attr(this.#label, 'y', this.#box.bottom + 27 * k);
    this.#drawNotes();
    this.#paper.replaceChildren(
      hatch(), excursionHatch(1), nodes.paper, this.#notes.node, this.#cursor, dots, this.#label);
    text(this.#title, t('{title}: the flight over the turn', { title: cardText(plan.title) }));
    this.cursor(this.#i, this.#j);
    this.dispatchEvent(new Event('layout'));
  }

  /**
   * The leg laid under, the flight with what is past the corridor, and the ideal over it.
   * @param {SVGGElement} onto @param {DrawnLane} of @param {Strip} strip @param {View} view @param {number} k
   */
  #traces(onto, of, strip, view, k) {
    const { turn: full } = view.main.plan;
    const path = (/** @type {readonly { turn: number, value: number | null }[]} */ points) =>
      geo.path(points.map(({ turn, value: v }) => (
        { x: geo.x(this.#box, full, turn), y: v === null ? null : geo.y(strip, v) })));
    if (view.over && this.#overRows) {
      for (const { points } of tracesOf(of, view.over, this.#overRows)) {
        onto.append(s('path', { class: 'trace pale', d: path(points) }));
      }
    }
    const decided = decidedIn(of.kind, view.main.leg.checks ?? []);
    for (const { points, stroke, title } of tracesOf(of, view.main, this.#rows)) {
      const line = s('path', { class: `trace ${stroke === 'solid' ? '' : `stroke-${stroke}`}`, d: path(points) });
      if (title !== '') line.append(s('title', {}, t(title)));
      onto.append(line);
      if (!decided) continue; // no limit was passed, whatever the corridor between the posts
      for (const out of excursions(points, strip.lane.corridor ?? [])) {
        const edge = [...out].reverse().map((p) => ({ turn: p.turn, value: p.edge }));
        onto.append(s('path', { class: 'excursion-area', d: `${path([...out, ...edge])}Z` }),
          s('path', { class: 'trace excursion', d: path(out) }));
      }
    }
    onto.append(s('path', { class: 'ideal', d: path(of.ideal) }));
    if (of.kind.id === 'energy') onto.append(this.#spent(of, strip, view, k));
    if (of.kind.traces.length > 1) onto.append(strokeKey(of, strip, this.#rows, this.#box, k));
  }

  /**
   * What each stretch of the turn took or gave, and in brackets what it does on the reference path.
   * @param {DrawnLane} of @param {Strip} strip @param {View} view @param {number} k
   */
  #spent(of, strip, { main }, k) {
    const notes = s('g', { class: 'spent' });
    const [points] = tracesOf(of, main, this.#rows).map((trace) => trace.points);
    const turns = [0, ...(main.plan.checkpoints ?? []).map((c) => c.turn)];
    for (const { from, to, flown, path } of spent(points ?? [], of.ideal, turns)) {
      const [left, right] = [geo.x(this.#box, main.plan.turn, from), geo.x(this.#box, main.plan.turn, to)];
      const told = path === null ? signed(flown) : `${signed(flown)} (${signed(path)})`;
      const fits = (told.length + 1) * letter * k < right - left;
      const at = { x: (left + right) / 2, y: strip.bottom - 5 * k };
      const words = s('text', { class: 'tick', ...at, 'text-anchor': 'middle' }, fits ? told : signed(flown));
      const args = { from: number(from), to: number(to), flown: withUnit(tens(flown), 'ft') };
      words.append(s('title', {}, path === null
        ? t('Energy height from {from}° to {to}°: {flown}', args)
        : t('Energy height from {from}° to {to}°: {flown}, on the reference path {path}',
          { ...args, path: withUnit(tens(path), 'ft') })));
      notes.append(words);
    }
    return notes;
  }
}

/** What a figure takes of the width, in the drawing's unit. */
const letter = 8.3;

/** @param {number} ft */
const tens = (ft) => 10 * Math.round(ft / 10) + 0;

/** A change of energy height, ft, to tens. @param {number} ft */
function signed(ft) {
  return tens(ft) > 0 ? `+${number(tens(ft))}` : number(tens(ft));
}

/**
 * Which line of a lane is which.
 * @param {DrawnLane} of @param {Strip} strip @param {Rows} rows @param {Box} box @param {number} k
 */
function strokeKey(of, strip, rows, box, k) {
  const key = s('g', { class: 'stroke-key' });
  const there = of.kind.traces.filter((trace) => rows[trace.row]);
  let at = box.right;
  for (const { title, stroke } of [...there].reverse()) {
    const words = t(title);
    at -= (words.length * 7.5 + 44) * k;
    key.append(
      s('path', { class: `trace thin ${stroke === 'solid' ? '' : `stroke-${stroke}`}`,
        d: `M${at} ${strip.top - 7 * k}h${26 * k}` }),
      s('text', { class: 'tick', x: at + 31 * k, y: strip.top - 3 * k }, words),
    );
  }
  return key;
}

/**
 * The verdicts at the posts, as graded; what is not met has its word under it.
 * @param {View} view @param {Box} box @param {number} k
 */
function postMarks({ main: { leg, plan } }, box, k) {
  const marks = s('g', { class: 'post-marks' });
  for (const { turn, verdict } of leg.posts ?? []) {
    if (turn === null) continue;
    const at = geo.x(box, plan.turn, turn);
    const shape = markShape(verdict, at, 35 * k, 8 * k);
    shape.append(s('title', {}, verdictWords(verdict)));
    marks.append(shape);
    if (verdict === 'met' || verdict === 'not-measured') continue;
    const anchor = turn === 0 ? 'start' : turn >= plan.turn ? 'end' : 'middle';
    marks.append(s('text', { class: 'post-word', x: turn === 0 ? at - 8 * k : turn >= plan.turn ? at + 8 * k : at,
      y: 60 * k, 'text-anchor': anchor }, verdictWords(verdict)));
  }
  return marks;
}

/** @param {SVGCircleElement} dot @param {number} x @param {Strip} strip @param {number | null} v */
function place(dot, x, strip, v) {
  attr(dot, 'visibility', v === null ? 'hidden' : 'visible');
  if (v !== null) attr(dot, 'transform', `translate(${x} ${geo.y(strip, v)})`);
}

/**
 * A leg as a small picture: bank and nose over the turn.
 * @param {Plan} plan
 * @param {readonly Trace[]} trace
 */
export function smallSheet(plan, trace) {
  const box = { left: 2, right: 158, top: 4, bottom: 76 };
  const wide = widened(plan, [trace]);
  const lean = { ...wide, lanes: wide.lanes?.filter((l) => l.channel === 'bank' || l.channel === 'pitch') ?? [] };
  const svg = s('svg', { class: 'small-sheet', viewBox: '0 0 160 80', 'aria-hidden': 'true' });
  for (const p of [0, ...(plan.checkpoints ?? []).map((c) => c.turn)]) {
    const at = geo.x(box, plan.turn, p);
    svg.append(s('line', { x1: at, x2: at, y1: 0, y2: 80, class: 'rule hair' }));
  }
  for (const strip of geo.strips(lean, box, 6)) {
    svg.append(s('path', { class: 'corridor', d: geo.corridorPaths(box, plan.turn, strip).area }),
      s('path', { class: 'trace thin', d: geo.tracePath(box, plan.turn, strip, trace) }));
  }
  return svg;
}
