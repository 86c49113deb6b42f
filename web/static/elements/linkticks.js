// How the data of a station came, as a row of ticks on a canvas.

import { h } from '../dom.js';
import { bars } from '../pure/ticks.js';
import { inks } from './inks.js';

/** Of a tick and to the next one, CSS pixels. */
const wide = 2;
const step = 3;
const tall = 11;

export class LinkTicks {
  node = h('canvas', { class: 'link-ticks', 'aria-hidden': 'true' });
  #drawn = '';

  /** Draws all again the next time. */
  forget() {
    this.#drawn = '';
  }

  /** @param {string} ticks */
  draw(ticks) {
    if (ticks === this.#drawn) return;
    this.#drawn = ticks;
    const all = bars(ticks);
    const dense = devicePixelRatio || 1;
    this.node.width = Math.round(all.length * step * dense);
    this.node.height = Math.round(tall * dense);
    this.node.style.width = `${all.length * step}px`;
    this.node.style.height = `${tall}px`;
    const ink = this.node.getContext('2d');
    if (!ink) return;
    ink.scale(dense, dense);
    ink.fillStyle = inks().ink;
    all.forEach((share, i) => {
      if (share !== null) ink.fillRect(i * step, tall - share * tall, wide, share * tall);
    });
  }
}
