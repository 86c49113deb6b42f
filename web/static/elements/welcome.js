// What to do when no simulator is heard, or what it sends cannot be read.

/** @import { House, State } from '../view.d.ts' */

import { h, show, text } from '../dom.js';
import { told } from '../pure/phrase.js';
import { language, t } from '../pure/text.js';

export class Welcome extends HTMLElement {
  #title = h('h2', { class: 'welcome-title' });
  #advice = h('p', { class: 'strong' });
  #address = h('code', { class: 'address' });
  #steps = h('ol', { class: 'steps' });

  #language = '';

  connectedCallback() {
    this.#build();
  }

  #build() {
    this.#language = language();
    this.#steps.replaceChildren(
      h('li', {},
        t(
          'In the simulator, switch on the output of flight data over UDP. Halfturn’s folder ' +
            'configs/simulators has set-up files, and a page on how to use them.',
        ),
      ),
      h('li', {},
        t(
          'Send it to the address above, 20 to 60 times a second. From another machine, use the address of this one.',
        ),
      ),
      h('li', {}, t('Load a flight. This page fills as soon as the first data arrives.')),
    );
    this.replaceChildren(
      this.#title,
      this.#advice,
      h('p', { class: 'address-line' },
        h('span', { class: 'soft' }, t('Send the flight data, over UDP, to')),
        this.#address,
      ),
      this.#steps,
      h('p', { class: 'soft' },
        t('No simulator at hand? Stop this one and start the built-in aircraft: '),
        h('code', {}, 'halfturn demo'),
        '.',
      ),
      h('p', {},
        h('a', { href: 'setup' }, t('Set-up: what arrives, what is missing, and the steps for each simulator')),
      ),
    );
  }

  /** @param {State} state @param {House} house */
  update(state, house) {
    if (this.#language !== language()) this.#build();
    const unread = state.info !== null && state.info.advice !== '';
    const waiting = state.info !== null && !unread && state.info.link === 'live';
    text(this.#title, unread ? t('Something arrives, but cannot be read')
      : waiting ? t('A simulator is there; waiting for its first flight data')
        : state.link.state === 'lost' ? t('Halfturn does not answer') : t('No simulator is heard yet'));
    show(this.#advice, unread || state.link.state === 'lost');
    text(
      this.#advice,
      unread ? told(state.info?.advice ?? '') : t('Is it still running? This page comes back by itself when it is.'),
    );
    const listen = house.list?.listen ?? [];
    text(this.#address, listen.length === 0 ? '127.0.0.1:7181' : listen.reduce((a, b) => t('{a} or {b}', { a, b })));
  }
}
