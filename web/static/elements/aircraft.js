// The aircraft as tiles: each by its three speeds. One more is to be measured.

/** @import { AircraftCard } from '../types.d.ts' */

import { attr, h } from '../dom.js';
import { number } from '../pure/format.js';
import { cardText, language, t } from '../pure/text.js';
import { inUnits, unitOf } from '../pure/units.js';

export class AircraftTiles extends HTMLElement {
  #tiles = h('div', { class: 'choice-tiles', role: 'group' });
  #measure = h('button', { type: 'button', class: 'choice-tile measure-mine' });
  #drawn = '';

  connectedCallback() {
    if (this.firstChild) return;
    this.append(this.#tiles);
    this.#measure.addEventListener('click', () => this.dispatchEvent(new CustomEvent('measure', { bubbles: true })));
  }

  /** @param {readonly AircraftCard[]} cards @param {string} chosen @param {boolean} live whether one can be measured */
  update(cards, chosen, live) {
    const key = `${language()} ${unitOf('kt')} ${live} ${cards.map((c) => c.name).join(' ')}`;
    if (this.#drawn !== key) {
      this.#drawn = key;
      attr(this.#tiles, 'aria-label', t('Aircraft'));
      this.#measure.replaceChildren(
        h('span', { class: 'choice-name' }, t('Measure mine')),
        h('span', { class: 'soft' },
          live ? t('three minutes of flying, and its numbers are there') : t('as soon as a simulator is heard')),
      );
      this.#measure.disabled = !live;
      this.#tiles.replaceChildren(...cards.map((c) => this.#tile(c)), this.#measure);
    }
    for (const tile of this.#tiles.children) {
      if (tile !== this.#measure) attr(tile, 'aria-pressed', String(tile.getAttribute('data-name') === chosen));
    }
  }

  /** @param {AircraftCard} c */
  #tile(c) {
    const tile = h('button', { type: 'button', class: 'choice-tile', 'data-name': c.name },
      h('span', { class: 'choice-name' }, cardText(c.title)),
      h('span', { class: 'speeds' },
        ...speed(c.entry, t('entry')), ...speed(c.apex, t('slowest')), ...speed(c.stall, t('stall'))));
    tile.addEventListener('click', () => this.dispatchEvent(
      new CustomEvent('wish', { detail: { aircraft: c.name }, bubbles: true })));
    return tile;
  }
}

/** @param {number} knots @param {string} title */
function speed(knots, title) {
  const words = knots > 0 ? number(inUnits(knots, 'kt').value, 0) : '–';
  return [h('span', { class: 'speed' }, h('b', {}, words), ' ', h('span', { class: 'soft' }, title))];
}

/** The unit of the speeds, said once beside the heading. */
export function speedUnit() {
  const unit = unitOf('kt');
  return unit === 'kt' ? t('in knots, indicated') : t('in {unit}, indicated', { unit });
}

/** Puts the number of a measured speed in words. @param {number | null} knots */
export function speedWords(knots) {
  if (knots === null || knots === 0) return '–';
  const { value, unit } = inUnits(knots, 'kt');
  return `${number(value, 0)}\u00a0${unit}`;
}

if (!customElements.get('ht-aircraft')) customElements.define('ht-aircraft', AircraftTiles);
