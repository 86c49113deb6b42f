// All stations as small sheets, the most urgent first. Only sheets in view that changed are drawn.

/** @import { Urgency } from '../desk.d.ts' */
/** @import { Wall } from '../pure/wall.js' */

import { attr, h } from '../dom.js';
import { fit } from '../pure/fit.js';
import { ordered, standing } from '../pure/urgency.js';
import { t } from '../pure/text.js';
import { onLook } from './inks.js';
import { WallSheet } from './wallsheet.js';

/** Sheets change places at most so often, ms; one in trouble does at once. */
const moveEvery = 1000;

/** Words that change by themselves, ages, are brought up to date so often, ms. */
const ageEvery = 1000;

/**
 * The way an arrow key goes: in sheets, or in rows of them.
 * @type {Readonly<Record<string, readonly [number, boolean]>>}
 */
const ways = {
  ArrowLeft: [-1, false], ArrowRight: [1, false], ArrowUp: [-1, true], ArrowDown: [1, true],
};

export class Board extends HTMLElement {
  /** @type {Map<string, WallSheet>} */ #sheets = new Map();
  /** @type {Map<string, Urgency>} */ #ranks = new Map();
  /** Stations whose sheet is to be drawn. @type {Set<string>} */ #stale = new Set();
  /** Those in view. @type {Set<string>} */ #seen = new Set();
  /** @type {string[]} as they stand */ #order = [];
  #list = h('ul', { class: 'board' });
  #at = '';
  #open = '';
  #columns = 1;
  #moved = 0;
  #aged = 0;
  #pressed = false;
  #views = new IntersectionObserver((all) => this.#viewed(all), { rootMargin: '40px' });
  #charts = new ResizeObserver((all) => this.#measured(all));
  #room = new ResizeObserver(() => this.#fit());
  /** Asks for a drawing. */
  onneed = () => {};

  connectedCallback() {
    if (this.firstChild) return;
    this.append(this.#list);
    this.#room.observe(this);
    this.#list.addEventListener('click', (e) => {
      const name = stationOf(e.target);
      if (name !== null) this.#tell(name);
    });
    this.#list.addEventListener('keydown', (e) => this.#key(e));
    this.#list.addEventListener('focusin', (e) => this.#reach(stationOf(e.target) ?? this.#at));
    this.addEventListener('pointerdown', () => (this.#pressed = true));
    for (const over of ['pointerup', 'pointercancel']) addEventListener(over, () => (this.#pressed = false));
    onLook(() => {
      for (const sheet of this.#sheets.values()) sheet.forget();
      this.all();
    });
  }

  /** Has all sheets drawn again. */
  all() {
    for (const name of this.#sheets.keys()) this.#stale.add(name);
    this.onneed();
  }

  /** @param {string} name the station whose panel is open, '' for none */
  set open(name) {
    for (const n of [name, this.#open]) this.#stale.add(n);
    this.#open = name;
    if (name !== '') this.#reach(name);
  }

  /** Lets a station's sheet have the focus. @param {string} name */
  focusOn(name) {
    this.#sheets.get(name)?.button.focus();
  }

  /** @param {ReadonlySet<string> | null} changed the stations that changed; null: all may have */
  changed(changed) {
    for (const name of changed ?? this.#sheets.keys()) this.#stale.add(name);
  }

  /**
   * @param {Wall} wall @param {number} now ms since 1970
   * @param {(name: string) => string} heard the words for a station whose sound is on, else ''
   */
  draw(wall, now, heard) {
    this.#keep(wall);
    this.#place(wall, now);
    if (now - this.#aged >= ageEvery) {
      this.#aged = now;
      for (const name of this.#sheets.keys()) this.#stale.add(name);
    }
    const compact = this.#list.dataset['size'] === 'compact';
    const is = (/** @type {string} */ name) => ({ open: name === this.#open, heard: heard(name), compact });
    for (const name of this.#stale) {
      if (!this.#seen.has(name)) continue; // drawn when it comes into view
      this.#stale.delete(name);
      const tile = wall.tiles.get(name);
      const sheet = this.#sheets.get(name);
      if (tile && sheet) sheet.draw(tile, now, wall.ahead, is(name));
    }
  }

  /** Has a sheet for each station, and no other. @param {Wall} wall */
  #keep({ tiles }) {
    for (const [name, sheet] of this.#sheets) {
      if (tiles.has(name)) continue;
      this.#views.unobserve(sheet.node);
      this.#charts.unobserve(sheet.chart);
      sheet.node.remove();
      for (const kept of [this.#sheets, this.#ranks, this.#stale, this.#seen]) kept.delete(name);
    }
    const before = this.#sheets.size;
    for (const name of tiles.keys()) {
      if (this.#sheets.has(name)) continue;
      const sheet = new WallSheet(name);
      this.#sheets.set(name, sheet);
      this.#stale.add(name);
      this.#views.observe(sheet.node);
      this.#charts.observe(sheet.chart);
    }
    if (this.#sheets.size !== before || this.#list.childElementCount !== this.#sheets.size) this.#fit();
  }

  /** @param {Wall} wall @param {number} now */
  #place({ tiles }, now) {
    let urgent = this.#list.childElementCount !== this.#sheets.size;
    for (const [name, tile] of tiles) {
      const stood = this.#ranks.get(name);
      const rank = standing(stood, tile);
      urgent ||= rank === 'trouble' && stood !== 'trouble';
      this.#ranks.set(name, rank);
    }
    if (!urgent && (this.#pressed || now - this.#moved < moveEvery)) return;
    this.#moved = now;
    this.#arrange(ordered([...tiles.keys()], this.#ranks));
  }

  /** Moves the sheets that stand elsewhere; the one with the focus keeps it. @param {string[]} order */
  #arrange(order) {
    if (order.length === this.#order.length && order.every((name, i) => name === this.#order[i])) return;
    this.#order = order;
    const focus = document.activeElement;
    order.forEach((name, i) => {
      const node = /** @type {WallSheet} */ (this.#sheets.get(name)).node;
      const there = this.#list.children[i];
      if (there !== node) this.#list.insertBefore(node, there ?? null);
      attr(node, 'data-rank', this.#ranks.get(name) ?? '');
    });
    if (focus instanceof HTMLElement && focus !== document.activeElement && this.#list.contains(focus)) {
      focus.focus({ preventScroll: true });
    }
    if (!this.#sheets.has(this.#at)) this.#reach(order[0] ?? '');
  }

  /** Puts as many sheets into view as there is room for. */
  #fit() {
    const rem = parseFloat(getComputedStyle(document.documentElement).fontSize);
    // where the page itself scrolls, the board is as tall as its sheets
    const tall = getComputedStyle(this).overflowY === 'auto' ? this.clientHeight - 6 : innerHeight * 0.85;
    const room = { wide: this.clientWidth / rem, tall: tall / rem };
    if (room.wide === 0) return;
    const { size, columns, tall: each } = fit(room.wide, room.tall, Math.max(1, this.#sheets.size));
    this.#columns = columns;
    attr(this.#list, 'data-size', size);
    for (const name of this.#sheets.keys()) this.#stale.add(name);
    this.#list.style.setProperty('--columns', String(columns));
    this.#list.style.setProperty('--tall', `${each}rem`);
  }

  /** @param {readonly IntersectionObserverEntry[]} all */
  #viewed(all) {
    for (const { target, isIntersecting } of all) {
      const name = stationOf(target);
      if (name === null) continue;
      if (isIntersecting) this.#seen.add(name);
      else this.#seen.delete(name);
    }
    this.onneed();
  }

  /** @param {readonly ResizeObserverEntry[]} all */
  #measured(all) {
    for (const { target, contentRect } of all) {
      const name = stationOf(target);
      if (name === null) continue;
      this.#sheets.get(name)?.size(contentRect.width, contentRect.height);
      this.#stale.add(name);
    }
    this.onneed();
  }

  /** One sheet can be reached by the tabulator, the others from it by the arrows. @param {string} name */
  #reach(name) {
    this.#at = name;
    for (const [n, { button }] of this.#sheets) attr(button, 'tabindex', n === name ? 0 : -1);
  }

  /** @param {KeyboardEvent} e */
  #key(e) {
    const i = this.#order.indexOf(stationOf(e.target) ?? '');
    if (i < 0 || e.altKey || e.ctrlKey || e.metaKey) return;
    const last = this.#order.length - 1;
    const [way, rows] = ways[e.key] ?? [0, false];
    const to = e.key === 'Home' ? 0 : e.key === 'End' ? last : i + way * (rows ? this.#columns : 1);
    if (to === i || to < 0 || to > last) return;
    e.preventDefault();
    this.focusOn(this.#order[to] ?? '');
  }

  /** @param {string} name */
  #tell(name) {
    this.dispatchEvent(new CustomEvent('open', { detail: name }));
  }

  /** The words for those who hear the page. */
  name() {
    attr(this.#list, 'aria-label', t('Stations, the most urgent first'));
  }
}

/** The station a node of the board belongs to. @param {EventTarget | null} node */
function stationOf(node) {
  return node instanceof Element ? node.closest('[data-station]')?.getAttribute('data-station') ?? null : null;
}

customElements.define('ht-board', Board);
