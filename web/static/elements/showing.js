// Says all along that a demonstration is flown, and ends it.

/** @import { State } from '../view.d.ts' */

import { attr, h, show, text } from '../dom.js';
import { t } from '../pure/text.js';

export class ShowingBar extends HTMLElement {
  #words = h('p');
  #stop = h('button', { type: 'button', id: 'end-showing' });

  connectedCallback() {
    if (this.firstChild) return;
    this.append(this.#words, this.#stop);
    this.#stop.addEventListener('click', () => this.dispatchEvent(new CustomEvent('end')));
  }

  /** @param {State} state */
  update(state) {
    const on = state.info?.demonstration === true;
    show(this, on);
    attr(document.body, 'data-demonstration', on ? '' : null);
    if (!on) return;
    // what the sheet, the band and the debrief are marked with
    document.documentElement.style.setProperty('--mark', JSON.stringify(t('Demonstration')));
    text(this.#words, state.info?.link === 'gone'
      ? t('That was the demonstration, flown by the built-in aircraft. Now you.')
      : t('Demonstration: the built-in aircraft flies, not you. Nothing of it is kept.'));
    text(this.#stop, state.info?.link === 'gone' ? t('Fly yourself') : t('End it and fly yourself'));
  }
}
