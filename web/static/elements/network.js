// Opens the pages to the local network, and shows how a tablet or a phone gets there.

/** @import { Network } from '../setup.d.ts' */

import { call, post } from '../api.js';
import { h, show, text } from '../dom.js';
import { t } from '../pure/text.js';
import { wayPicture } from './way.js';

export class NetworkCard extends HTMLElement {
  #words = h('p');
  #ways = h('ul', { class: 'ways' });
  #code = h('p', { class: 'code' });
  #open = h('button', { type: 'button', id: 'network-open' });
  #sure = h('p', { class: 'soft' });
  #error = h('p', { role: 'alert' });
  #asked = false;
  /** @type {Network | null} */ #state = null;
  #drawn = '';

  connectedCallback() {
    const head = h('div', { class: 'network-head' }, this.#words, wayPicture('tablet'));
    this.append(head, this.#ways, this.#code, this.#sure, this.#open, this.#error);
    this.#open.addEventListener('click', () => void this.#press());
    void this.refresh();
  }

  async refresh() {
    /** @type {{ value: Network | null }} */
    const { value } = await call('api/network');
    if (value !== null) this.#draw(value);
  }

  /** The first press asks, the second one opens; closing needs no question. */
  async #press() {
    const open = this.#state?.open === true;
    if (!open && !this.#asked) {
      this.#asked = true;
      return this.#name();
    }
    this.#asked = false;
    /** @type {{ value: Network | null, error: string }} */
    const { value, error } = await post('api/network', { open: !open });
    text(this.#error, error);
    if (value === null) return this.#name();
    this.#draw(value);
  }

  /** @param {Network} n */
  #draw(n) {
    this.#state = n;
    text(
      this.#words,
      n.open
        ? t(
          'On the tablet or phone, point the camera at the picture, or type the address. It must be in the same ' +
            'network.',
        )
        : t('The panel can stand on a tablet or a phone beside the simulator, in the same network.'),
    );
    const key = n.addresses.join(' ');
    if (key !== this.#drawn) {
      this.#drawn = key;
      this.#ways.replaceChildren(...n.addresses.map(way));
    }
    show(this.#ways, n.addresses.length > 0);
    show(this.#code, n.open && n.code !== undefined);
    this.#code.replaceChildren(t('It asks for this code, once: '), h('strong', {}, spaced(n.code ?? '')));
    this.#name();
  }

  /** Puts the words of the button in. */
  #name() {
    const n = this.#state;
    show(this.#open, n !== null && n.always !== true);
    text(
      this.#open,
      n?.open ? t('Close it again') : this.#asked ? t('Yes, open it to the network') : t('Use a tablet or a phone'),
    );
    show(this.#sure, this.#asked || n?.always === true);
    text(
      this.#sure,
      n?.always
        ? t('The configuration opens the pages to the network, without a code. Do so only in a network you trust.')
        : t(
          'Everybody in your network who has the code can then see and steer this page. Open it only in a network ' +
            'you trust.',
        ),
    );
  }
}

/** @param {string} address */
function way(address) {
  const picture = `api/network/qr.svg?${new URLSearchParams({ address })}`;
  return h('li', {},
    h('img', { src: picture, alt: t('QR code of {address}', { address }), width: 176, height: 176 }),
    h('code', {}, address));
}

/** Six digits in two groups. @param {string} code */
const spaced = (code) => code.replace(/^(\d{3})(?=\d)/, '$1\u00a0');

if (!customElements.get('ht-network')) customElements.define('ht-network', NetworkCard);
