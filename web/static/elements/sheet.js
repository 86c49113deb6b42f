// A flown leg on the ribbon: the corridor, the flight, a second one laid under it, the marks
// written in, and a cursor. The small one has two lanes and no writing.

/** @import { Plan, Trace } from '../types.d.ts' */
/** @import { View } from '../sessions.d.ts' */
/** @import { Box, Strip } from '../pure/geometry.js' */

import { attr, s, scale, text } from '../dom.js';
import { rowOf, value, widened } from '../pure/flight.js';
import { number } from '../pure/format.js';
import * as geo from '../pure/geometry.js';
import { cardText, t } from '../pure/text.js';
import { hatch } from './hatch.js';
import { paper, written } from './paper.js';

/**
 * Printed, the window's size says nothing: so wide, a rem so large, and so tall for each lane and the rest, in
 * pixels of the paper.
 */
const onPaper = { w: 500, rem: 10.5, lane: 62, rest: 58 };

/** @typedef {{ strip: Strip, dot: SVGCircleElement, other: SVGCircleElement }} LaneNodes */

export class FlownSheetElement extends HTMLElement {
  /** @type {View | null} */ #view = null;
  /** @type {ResizeObserver | null} */ #watch = null;
  #svg = s('svg', { class: 'sheet', role: 'img' });
  #title = s('title');
  #paper = s('g');
  #cursor = s('line', { class: 'pen', x1: 0, x2: 0 });
  #label = s('text', { class: 'pen-text', 'text-anchor': 'middle' });
  /** @type {LaneNodes[]} */ #lanes = [];
  /** @type {Box} */ #box = { left: 0, right: 1, top: 0, bottom: 1 };
  #notes = s('g', { class: 'moments' });
  /** @type {readonly { turn: number, words: string }[]} */ #moments = [];
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

  /** @param {View} view */
  update(view) {
    this.#view = view;
    this.#build();
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
    for (const { strip, dot, other } of this.#lanes) {
      place(dot, x, strip, value(view.main.samples, rowOf(strip.lane.channel), i));
      const there = view.over ? value(view.over.samples, 'turn', j) : null;
      place(
        other,
        geo.x(this.#box, full, there ?? 0),
        strip,
        view.over && there !== null ? value(view.over.samples, rowOf(strip.lane.channel), j) : null,
      );
    }
  }

  /** Marks moments that are remarked on. @param {readonly { turn: number, words: string }[]} moments */
  notes(moments) {
    this.#moments = moments;
    this.#drawNotes();
  }

  #drawNotes() {
    const full = this.#view?.main.plan.turn ?? 180;
    const k = this.#k;
    this.#notes.replaceChildren(
      ...this.#moments.map(({ turn, words }) =>
        s('g', { transform: `translate(${geo.x(this.#box, full, turn)} ${this.#box.bottom + 6 * k})` },
          s('path', { class: 'moment-mark', d: `M0 ${-7 * k}L${6 * k} 0L0 ${7 * k}L${-6 * k} 0Z` }),
          s('title', {}, words),
        ),
      ),
    );
  }

  #build() {
    const view = this.#view;
    if (!view || this.clientWidth === 0) return;
    const { leg } = view.main;
    const plan = widened(view.main.plan, [leg.trace ?? [], view.over?.leg.trace ?? []]);
    const k = this.#printing ? onPaper.rem / 16 : scale();
    const w = this.#printing ? onPaper.w : this.clientWidth;
    const tall = this.#printing ? onPaper.rest + onPaper.lane * (plan.lanes ?? []).length : this.clientHeight;
    this.#k = k;
    const slim = w < 620 * k;
    attr(this.#svg, 'viewBox', `0 0 ${w} ${tall}`);
    this.#svg.classList.toggle('slim', slim);
    this.#box = { left: (slim ? 46 : 116) * k, right: w - 26 * k, top: (slim ? 66 : 52) * k, bottom: tall - 34 * k };
    const nodes = paper(plan, this.#box, slim, k);
    this.#lanes = [];
    const dots = s('g');
    for (const strip of nodes.strips) {
      if (view.over) {
        nodes.paper.append(
          s('path', {
            class: 'trace pale',
            d: geo.tracePath(this.#box, plan.turn, strip, view.over.leg.trace ?? []),
          }),
        );
      }
      nodes.paper.append(
        s('path', { class: 'trace', d: geo.tracePath(this.#box, plan.turn, strip, leg.trace ?? []) }),
      );
      const lane = {
        strip,
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
    this.#paper.replaceChildren(hatch(), nodes.paper, this.#notes, this.#cursor, dots, this.#label);
    text(this.#title, t('{title}: the flight over the turn', { title: cardText(plan.title) }));
    this.cursor(this.#i, this.#j);
  }
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
