// In a leg about a point on the ground: one press chooses the point that the wing is on, another leaves it to the
// flight.

/** @import { AboutChoice } from '../types.d.ts' */
/** @import { State } from '../view.d.ts' */

import { attr, h, show, text } from '../dom.js';
import { inTurn } from '../pure/store.js';
import { t } from '../pure/text.js';

export class WingPoint extends HTMLElement {
  #point = h('button', { type: 'button', id: 'point-wing', 'aria-keyshortcuts': 'P' });
  #find = h('button', { type: 'button', id: 'point-find' });

  connectedCallback() {
    if (this.firstChild) return;
    this.append(this.#point, this.#find);
    attr(this, 'role', 'group');
    this.#point.addEventListener('click', () => this.#tell({ where: 'wing' }));
    this.#find.addEventListener('click', () => this.#tell({ clear: true }));
  }

  /** @param {AboutChoice} detail */
  #tell(detail) {
    this.dispatchEvent(new CustomEvent('about', { detail, bubbles: true }));
  }

  /** @param {State} state */
  update({ frame, info }) {
    const around = frame && inTurn(frame) && info?.link === 'live' && !info.demonstration ? frame.around : null;
    show(this, Boolean(around));
    if (!around) return;
    attr(this, 'aria-label', t('The point to fly about'));
    text(this.#point, around.what === 'pylon' ? t('Pylon off the wing') : t('Point off the wing'));
    text(this.#find, t('Find it'));
    show(this.#find, around.chosen === true);
  }
}

if (!customElements.get('ht-wing')) customElements.define('ht-wing', WingPoint);
