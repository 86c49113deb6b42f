// The leg in space: over the ground from above, or seen from outside, from behind or from the side. One cursor.

/** @import { View } from '../sessions.d.ts' */

import { attr, h, show } from '../dom.js';
import { t } from '../pure/text.js';
import { GroundTrack } from './ground.js';
import { OutsideView } from './outside.js';

if (!customElements.get('ht-ground')) customElements.define('ht-ground', GroundTrack);
if (!customElements.get('ht-outside')) customElements.define('ht-outside', OutsideView);

/** @typedef {'above' | 'behind' | 'side'} From */
/** @type {readonly [From, string][]} */
const ways = [['above', 'From above'], ['behind', 'From behind'], ['side', 'From the side']];

export class FlightViews extends HTMLElement {
  ground = /** @type {GroundTrack} */ (document.createElement('ht-ground'));
  #outside = /** @type {OutsideView} */ (document.createElement('ht-outside'));
  #buttons = h('div', { class: 'view-row', role: 'group' });
  /** @type {From} */ #from = 'above';
  /** @type {View | null} */ #view = null;
  #i = 0;
  #j = 0;

  connectedCallback() {
    if (this.firstChild) return;
    attr(this.#buttons, 'aria-label', t('Seen from'));
    for (const [from, words] of ways) {
      const button = h('button', { type: 'button', 'data-from': from }, t(words));
      button.addEventListener('click', () => {
        this.#from = from;
        this.#show();
      });
      this.#buttons.append(button);
    }
    this.append(this.#buttons, this.ground, this.#outside);
    this.#show();
  }

  /** @param {View} view */
  update(view) {
    this.#view = view;
    this.ground.update(view);
    this.#show();
  }

  /** @param {number} i @param {number} j sample of the leg laid over */
  cursor(i, j) {
    this.#i = i;
    this.#j = j;
    if (this.#from === 'above') this.ground.cursor(i, j);
    else this.#outside.cursor(i);
  }

  #show() {
    const above = this.#from === 'above';
    for (const b of this.#buttons.querySelectorAll('button')) {
      attr(b, 'aria-pressed', String(b.dataset['from'] === this.#from));
    }
    show(this.ground, above);
    show(this.#outside, !above);
    if (!above && this.#view) this.#outside.update(this.#view, this.#from === 'behind' ? 'behind' : 'side');
    if (this.#view) this.cursor(this.#i, this.#j);
  }
}
