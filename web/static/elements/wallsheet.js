// A station on the desk: one small sheet, which opens its panel by a touch.

/** @import { Tile } from '../desk.d.ts' */

import { attr, h, show, text } from '../dom.js';
import { sheetSentence, sheetTitle, sheetWords } from '../pure/sheet.js';
import { mark } from './mark.js';
import { LinkTicks } from './linkticks.js';
import { SmallRibbon } from './smallribbon.js';

/** What is read out is brought up to date at most so often, ms. */
const tellEvery = 1000;

export class WallSheet {
  #ribbon = new SmallRibbon();
  #ticks = new LinkTicks();
  #name = [h('span'), h('span')];
  #seat = [h('span'), h('span')];
  #phase = h('span', { class: 'sheet-phase' });
  #chart = h('span', { class: 'sheet-chart' }, this.#ribbon.node);
  #large = h('span', { class: 'sheet-large' });
  #small = h('span', { class: 'sheet-small' });
  #mark = h('span', { class: 'sheet-mark' });
  #post = h('span', { class: 'sheet-post' });
  #markWords = h('span');
  #box = h('span', { class: 'sheet-box' });
  #link = h('span', { class: 'sheet-link' });
  #hears = h('span', { class: 'sheet-hears' });
  button = h('button', { type: 'button', class: 'wall-sheet', tabindex: -1 },
    h('span', { class: 'sheet-head' },
      h('span', { class: 'sheet-name' }, ...this.#name),
      h('span', { class: 'sheet-seat' }, ...this.#seat)),
    this.#phase,
    this.#chart,
    h('span', { class: 'sheet-row' },
      h('span', { class: 'sheet-value' }, this.#large, ' ', this.#small), this.#mark),
    this.#box,
    h('span', { class: 'sheet-foot' }, this.#ticks.node, this.#hears, this.#link),
  );
  node = h('li', {}, this.button);
  #verdict = '';
  #told = 0;

  /** @param {string} name of the station */
  constructor(name) {
    this.name = name;
    this.node.dataset['station'] = name;
  }

  /** The place the chart has, to be measured by whoever watches sizes. */
  get chart() {
    return this.#chart;
  }

  /** @param {number} wide @param {number} tall of the chart, CSS pixels */
  size(wide, tall) {
    this.#ribbon.size(wide, tall);
  }

  /** Draws all again the next time: the look has changed. */
  forget() {
    this.#ribbon.forget();
    this.#ticks.forget();
  }

  /**
   * @param {Tile} tile @param {number} now ms since 1970 @param {number} ahead of the server’s clock, ms
   * @param {{ open: boolean, heard: string, compact: boolean }} is heard: the words for a station whose sound is on,
   *   else ''; compact: there is one line for what is off and what is said
   */
  draw(tile, now, ahead, is) {
    const words = sheetWords(tile, now, ahead);
    const { name, seat } = sheetTitle(tile);
    this.#name.forEach((n, i) => text(n, name[i] ?? ''));
    this.#seat.forEach((n, i) => text(n, seat[i] ?? ''));
    text(this.#phase, words.phase);
    attr(this.#phase, 'data-off', String(words.off));
    text(this.#large, words.large);
    attr(this.#large, 'data-turning', String(words.turning && tile.info?.link === 'live'));
    text(this.#small, words.small);
    if (this.#verdict !== words.verdict) {
      this.#verdict = words.verdict;
      this.#mark.replaceChildren(...(words.verdict === '' ? [] : [mark(words.verdict)]), this.#post, this.#markWords);
    }
    text(this.#post, words.post);
    text(this.#markWords, words.mark);
    attr(this.#mark, 'data-verdict', words.verdict);
    const off = is.compact && words.off && words.boxKind !== 'safety';
    text(this.#box, off ? words.phase : words.box);
    attr(this.#box, 'data-kind', off ? 'said' : words.boxKind);
    text(this.#link, words.link);
    text(this.#hears, is.heard);
    show(this.#hears, is.heard !== '');
    attr(this.button, 'aria-pressed', String(is.open));
    attr(this.node, 'data-private', String(tile.private));
    this.#ribbon.draw(tile, tile.info?.link === 'live');
    this.#ticks.draw(tile.ticks);
    if (Math.abs(now - this.#told) < tellEvery) return;
    this.#told = now;
    attr(this.button, 'aria-label', sheetSentence(tile, words));
  }
}
