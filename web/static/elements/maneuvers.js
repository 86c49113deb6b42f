// The maneuvers as tiles, each with a small picture of its corridor: the bank over the turn.

/** @import { BriefSheet, Cards } from '../types.d.ts' */

import { attr, h, s, show } from '../dom.js';
import { sheet } from '../finding.js';
import { offered, picture } from '../pure/first.js';
import { cardText, language, t } from '../pure/text.js';

const size = { w: 160, h: 56 };

export class ManeuverTiles extends HTMLElement {
  #tiles = h('div', { class: 'choice-tiles maneuver-tiles', role: 'group' });
  #more = h('select', { id: 'first-other' });
  #moreLabel = h('label', { class: 'first-other', for: 'first-other' });
  #drawn = '';
  #pictured = '';
  /** @type {Map<string, BriefSheet | null>} */ #sheets = new Map();

  connectedCallback() {
    if (this.firstChild) return;
    this.append(this.#tiles);
    this.#more.addEventListener('change', () => {
      if (this.#more.value !== '') this.#wish(this.#more.value);
    });
  }

  /** The list of the other maneuvers, to stand in a heading. */
  get more() {
    return this.#moreLabel;
  }

  /** @param {string} maneuver */
  #wish(maneuver) {
    this.dispatchEvent(new CustomEvent('wish', { detail: { maneuver }, bubbles: true }));
  }

  /** @param {Cards | null} cards @param {{ maneuver: string, aircraft: string }} chosen */
  update(cards, chosen) {
    const { tiles, others } = offered(cards, chosen.maneuver);
    const key = language() + tiles.map((c) => c.name).join(' ');
    if (this.#drawn !== key) {
      this.#drawn = key;
      this.#pictured = '';
      attr(this.#tiles, 'aria-label', t('Maneuver'));
      this.#moreLabel.replaceChildren(t('another:'), ' ', this.#more);
      this.#tiles.replaceChildren(...tiles.map((c) => {
        const tile = h('button', { type: 'button', class: 'choice-tile', 'data-name': c.name },
          h('span', { class: 'choice-name' }, cardText(c.title)),
          s('svg', { class: 'mini', viewBox: `0 -3 ${size.w} ${size.h + 6}`, 'aria-hidden': 'true' }));
        tile.addEventListener('click', () => this.#wish(c.name));
        return tile;
      }));
      this.#more.replaceChildren(
        h('option', { value: '' }, '–'), ...others.map((c) => h('option', { value: c.name }, cardText(c.title))));
      show(this.#moreLabel, others.length > 0);
    }
    for (const tile of this.#tiles.children) {
      attr(tile, 'aria-pressed', String(tile.getAttribute('data-name') === chosen.maneuver));
    }
    if (this.#more.value !== '' && document.activeElement !== this.#more) this.#more.value = '';
    const of = `${chosen.aircraft} ${this.#drawn}`;
    if (this.#pictured === of || tiles.length === 0) return;
    this.#pictured = of;
    for (const c of tiles) void this.#fetch(c.name, chosen.aircraft, of);
  }

  /** @param {string} maneuver @param {string} aircraft @param {string} of what it is fetched for */
  async #fetch(maneuver, aircraft, of) {
    const key = `${maneuver} ${aircraft}`;
    if (!this.#sheets.has(key)) this.#sheets.set(key, await sheet({ maneuver, aircraft }));
    const brief = this.#sheets.get(key);
    const tile = [...this.#tiles.children].find((n) => n.getAttribute('data-name') === maneuver);
    if (of !== this.#pictured || tile === undefined) return;
    tile.querySelector('svg')?.replaceChildren(...(brief ? drawn(brief) : []));
    if (!brief) this.#sheets.delete(key);
  }
}

/** @param {BriefSheet} brief */
function drawn({ plan }) {
  const lane = plan.lanes?.find((l) => l.channel === 'bank');
  const posts = [0, ...(plan.checkpoints ?? []).map((c) => c.turn), plan.turn].filter((turn) => turn <= plan.turn);
  const rules = [...new Set(posts)].map((turn) => {
    const x = (turn / plan.turn) * size.w;
    return s('line', { class: 'mini-rule', x1: x, x2: x, y1: 0, y2: size.h });
  });
  if (!lane) return rules;
  const { band, aim } = picture(lane.corridor ?? [], plan.turn, lane, size);
  return [...rules, s('path', { class: 'corridor', d: band }), s('path', { class: 'aim', d: aim })];
}

if (!customElements.get('ht-maneuvers')) customElements.define('ht-maneuvers', ManeuverTiles);
