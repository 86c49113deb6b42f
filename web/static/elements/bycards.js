// Grading again by another aircraft or standard, in place.

/** @import { Cards } from '../types.d.ts' */
/** @import { SessionDetail } from '../sessions.d.ts' */

import { call } from '../api.js';
import { attr, h, text } from '../dom.js';
import { cardText, t } from '../pure/text.js';

export class ByCards extends HTMLElement {
  #details = h('details', { class: 'menu', id: 'by-cards' });
  #aircraft = h('select', { id: 'by-aircraft' });
  #standard = h('select', { id: 'by-standard' });
  #go = h('button', { type: 'button', id: 'by-go' });
  #error = h('p', { class: 'control-error', role: 'alert' });
  /** @type {{ aircraft: string, standard: string }} */ #now = { aircraft: '', standard: '' };
  #asked = false;

  connectedCallback() {
    if (this.firstChild) return;
    text(this.#go, t('Grade again'));
    this.#details.append(h('summary', {}, t('Another aircraft or standard')),
      h('div', { class: 'menu-sheet' },
        h('label', { class: 'field', for: 'by-aircraft' }, h('span', { class: 'soft' }, t('Aircraft')), this.#aircraft),
        h('label', { class: 'field', for: 'by-standard' }, h('span', { class: 'soft' }, t('Standard')), this.#standard),
        h('p', { class: 'small soft' }, t('The first grade stays; the new one is listed beside it.')),
        this.#go, this.#error));
    this.append(this.#details);
    this.#details.addEventListener('toggle', () => {
      if (this.#details.open) void this.#ask();
    });
    for (const s of [this.#aircraft, this.#standard]) s.addEventListener('change', () => this.#ready());
    this.#go.addEventListener('click', () => this.#press());
  }

  /** @param {SessionDetail} detail */
  update(detail) {
    this.#now = { aircraft: detail.aircraft.name, standard: detail.standard };
    this.#details.open = false;
    this.#choose();
  }

  async #ask() {
    if (this.#asked) return;
    /** @type {Awaited<ReturnType<typeof call<Cards>>>} */
    const got = await call('api/cards');
    text(this.#error, got.error);
    if (got.value === null) return;
    this.#asked = true;
    const options = (/** @type {readonly { name: string, title: string }[]} */ cards) =>
      cards.map((c) => h('option', { value: c.name }, cardText(c.title)));
    this.#aircraft.replaceChildren(
      h('option', { value: '' }, t('no aircraft chosen')), ...options(got.value.aircraft ?? []));
    this.#standard.replaceChildren(...options(got.value.standards ?? []));
    this.#choose();
  }

  #choose() {
    this.#aircraft.value = this.#now.aircraft;
    this.#standard.value = this.#now.standard;
    this.#ready();
  }

  /** There is something to do once one of them differs. */
  #ready() {
    const same = this.#aircraft.value === this.#now.aircraft && this.#standard.value === this.#now.standard;
    attr(this.#go, 'disabled', same ? '' : null);
  }

  #press() {
    /** @type {import('./otherwise.js').OtherCards} */ const by = {};
    if (this.#aircraft.value !== this.#now.aircraft) by.aircraft = this.#aircraft.value;
    if (this.#standard.value !== this.#now.standard) by.standard = this.#standard.value;
    this.dispatchEvent(new CustomEvent('cards', { detail: by }));
  }
}
