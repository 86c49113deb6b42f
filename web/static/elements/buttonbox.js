// What a button box sends for each act: a request without a body, or a line to the UDP port.

import { h, text } from '../dom.js';
import { boxed } from '../pure/acts.js';
import { language, t } from '../pure/text.js';
import { copyButton } from './copy.js';

export class ButtonBox extends HTMLElement {
  #said = h('p', { class: 'small', role: 'status' });
  #port = h('code');

  #built = '';

  #build() {
    const words = h('p', {});
    this.replaceChildren(
      words,
      h('ul', { class: 'box-acts' }, ...boxed.map(({ act, words }) => h('li', {},
        h('span', { class: 'box-name' }, t(words)),
        this.#way(`POST ${new URL(`do/${act}`, document.baseURI)}`, t('Copy the request: {act}', { act: t(words) })),
        this.#way(`halfturn ${act}`, t('Copy the line: {act}', { act: t(words) }))))),
      h('p', { class: 'soft small' },
        t('Where several simulators send, the request ends in ?station=NAME and the line in NAME.')),
      this.#said);
    words.append(t('A box with buttons and switches sends the request, or the line to the UDP port:'), ' ', this.#port);
  }

  /** @param {string} words @param {string} label */
  #way(words, label) {
    const value = h('code', {}, words);
    return h('span', { class: 'box-way' }, value, copyButton(value, this.#said, label));
  }

  /** @param {string} address that the UDP port is heard on */
  update(address) {
    if (this.#built !== language()) this.#build();
    this.#built = language();
    text(this.#port, address);
  }
}

if (!customElements.get('ht-buttonbox')) customElements.define('ht-buttonbox', ButtonBox);
