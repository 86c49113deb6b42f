// What is left over the stall and over the hard deck: a bar from a hatched wall to now, with rings where it stood at
// the entry and at the first checkpoint. The number grows where the margin is low or will soon be gone.

/** @import { State } from '../view.d.ts' */
/** @import { Margin, Wall } from '../pure/margin.js' */

import { attr, h, s, show, text } from '../dom.js';
import { withUnit } from '../pure/format.js';
import { margin } from '../pure/margin.js';
import { inTurn } from '../pure/store.js';
import { t } from '../pure/text.js';

/** The bar's drawing: the wall's width and where the scale ends. */
const wall = 24;
const end = 300;

/** Rings nearer than this to each other, or to the dot, have no room for a name. */
const apart = 44;

class MarginBar {
  #kind;
  #label = h('span', { class: 'soft' });
  #trend = h('span', { class: 'margin-trend' });
  #value = h('span', { class: 'margin-value' });
  #bar = s('rect', { x: wall, y: 9, height: 12, width: 0, class: 'solid' });
  #rings = s('g');
  #dot = s('circle', { cy: 15, r: 7, class: 'margin-now' });
  #drawn = '';
  node;

  /** @param {Wall} kind */
  constructor(kind) {
    this.#kind = kind;
    this.node = h('div', { class: 'margin', 'data-wall': kind },
      h('p', { class: 'margin-words' }, h('span', {}, this.#label, this.#trend), this.#value),
      s('svg', { viewBox: '0 0 316 44', class: 'margin-bar', 'aria-hidden': 'true' },
        s('line', { x1: wall, x2: end + 8, y1: 15, y2: 15, class: 'rule' }),
        s('rect', { x: 0, y: 2, width: wall, height: 26, class: 'wall' }),
        this.#bar,
        s('line', { x1: wall, x2: wall, y1: 0, y2: 30, class: 'wall-edge' }),
        this.#rings, this.#dot),
    );
  }

  /** @param {Margin | null} is @param {string} unit @param {boolean} alarm whether the safety words name it */
  update(is, unit, alarm) {
    show(this.node, is !== null);
    if (!is) return;
    text(this.#label, this.#kind === 'stall' ? t('Over the stall') : t('Over the hard deck'));
    text(this.#trend, is.trend === 'closing' ? `, ${t('closing')}` : '');
    text(this.#value, withUnit(is.now, unit));
    attr(this.node, 'data-large', String(is.large || alarm));
    const at = (/** @type {number} */ v) => {
      const share = Math.min(Math.max(v / is.full, 0), 1);
      return Math.round((wall + (end - wall) * share) * 2) / 2;
    };
    const now = at(is.now);
    attr(this.#bar, 'width', Math.max(0, now - wall));
    attr(this.#dot, 'cx', now);
    const rings = is.stood.map(({ turn, value }) => ({ turn, x: at(value) }));
    const key = JSON.stringify([rings, rings.map((r) => r.x < now), t('entry')]);
    if (key === this.#drawn) return;
    this.#drawn = key;
    this.#rings.replaceChildren(...rings.map((r, i) => {
      const crowded = rings.some((o, k) => k > i && Math.abs(o.x - r.x) < apart); // the later one is named
      const name = crowded ? '' : r.turn === 0 ? t('entry') : `${r.turn}°`;
      return s('g', {},
        s('circle', { cx: r.x, cy: 15, r: 5, class: r.x < now ? 'margin-stood on' : 'margin-stood' }),
        s('text', { x: Math.min(r.x, end - 8), y: 42, 'text-anchor': 'middle', class: 'margin-name' }, name));
    }));
  }
}

export class Margins extends HTMLElement {
  #stall = new MarginBar('stall');
  #deck = new MarginBar('deck');

  connectedCallback() {
    this.replaceChildren(this.#stall.node, this.#deck.node);
  }

  /** @param {State} state */
  update(state) {
    const { frame, plan } = state;
    if (!frame) return;
    const trace = inTurn(frame) ? state.trace : [];
    const post = plan?.checkpoints?.[0]?.turn ?? 45;
    const named = state.safety.at(-1)?.id ?? '';
    this.#stall.update(margin('stall', frame.stall, trace, frame.time, post), 'kt', named === 'stall');
    this.#deck.update(margin('deck', frame.deck, trace, frame.time, post), 'ft', named === 'hard-deck');
    show(this, frame.stall !== null || frame.deck !== null);
  }
}
