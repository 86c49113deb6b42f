// What is done with a station between legs: what is flown, who flies, its session, a demonstration.

/** @import { Cards } from '../types.d.ts' */
/** @import { State } from '../view.d.ts' */

import { attr, h, show, text } from '../dom.js';
import { inTurn } from '../pure/store.js';
import { cardText, language, t } from '../pure/text.js';
import { WhoFlies } from './student.js';

if (!customElements.get('ht-student')) customElements.define('ht-student', WhoFlies);

/** @typedef {'choose' | 'student' | 'start' | 'end' | 'demonstrate'} Command */

export class StationOrders extends HTMLElement {
  #sheet = h('details', { class: 'orders' });
  #summary = h('summary');
  #maneuver = h('select', { id: 'desk-maneuver' });
  #standard = h('select', { id: 'desk-standard' });
  #aircraft = h('select', { id: 'desk-aircraft' });
  #who = /** @type {WhoFlies} */ (document.createElement('ht-student'));
  #start = h('button', { type: 'button' });
  #end = h('button', { type: 'button' });
  #show = h('button', { type: 'button' });
  #wait = h('p', { class: 'small soft' });
  #error = h('p', { class: 'control-error', role: 'alert' });
  #built = '';
  /** @type {(command: Command, body: object) => Promise<string>} returns why not, '' when it is done */
  onorder = async () => '';

  connectedCallback() {
    if (this.firstChild) return;
    for (const select of [this.#maneuver, this.#standard, this.#aircraft]) {
      select.addEventListener('change', () => this.#do('choose', {
        maneuver: this.#maneuver.value, standard: this.#standard.value, aircraft: this.#aircraft.value,
      }));
    }
    this.#who.addEventListener('student', (e) => this.#do('student', /** @type {CustomEvent} */ (e).detail));
    this.#start.addEventListener('click', () => this.#do('start', {}));
    this.#end.addEventListener('click', () => this.#do('end', {}));
    this.#show.addEventListener('click', () =>
      this.#do('demonstrate', { maneuver: '', standard: '', aircraft: '' }));
    this.append(this.#sheet);
  }

  #name() {
    this.#built = language();
    text(this.#summary, t('What is flown, and who flies'));
    text(this.#start, t('Start a new session'));
    text(this.#end, t('End the session'));
    text(this.#show, t('Show it: the built-in aircraft flies one'));
    text(this.#wait, t('In a leg nothing is changed here.'));
    this.#sheet.replaceChildren(this.#summary,
      h('div', { class: 'orders-fields' },
        field(t('Maneuver'), this.#maneuver), field(t('Standard'), this.#standard),
        field(t('Aircraft'), this.#aircraft)),
      this.#who,
      h('div', { class: 'orders-touch' }, this.#start, this.#end, this.#show),
      this.#wait, this.#error);
  }

  /** @param {State} state @param {Cards | null} cards @param {readonly string[]} students */
  update(state, cards, students) {
    if (this.#built !== language()) this.#name();
    const { info, frame, plan } = state;
    const flying = frame !== null && inTurn(frame);
    const able = info !== null && info.link !== 'gone' && !flying;
    show(this.#wait, flying);
    const auto = cards?.auto;
    fill(this.#maneuver, [...(cards?.maneuvers ?? []), ...(auto ? [auto] : [])],
      (info?.auto ? auto?.name : info?.maneuver) ?? '');
    fill(this.#standard, cards?.standards ?? [], plan?.standard ?? '');
    fill(this.#aircraft, [{ name: '', title: t('none chosen') }, ...(cards?.aircraft ?? [])], info?.aircraft ?? '');
    for (const control of [this.#maneuver, this.#standard, this.#aircraft, this.#start, this.#end, this.#show]) {
      control.disabled = !able;
    }
    show(this.#end, info !== null && info.session !== '');
    show(this.#start, info !== null && info.recording !== '');
    show(this.#who, !flying && info !== null && info.recording !== '');
    this.#who.update(info?.student ?? '', students);
    attr(this.#sheet, 'data-flying', String(flying));
  }

  /** @param {Command} command @param {object} body */
  async #do(command, body) {
    text(this.#error, await this.onorder(command, body));
  }

  /** Another station was opened. */
  clear() {
    text(this.#error, '');
  }
}

/** @param {string} label @param {HTMLSelectElement} select */
function field(label, select) {
  return h('label', { class: 'field', for: select.id }, h('span', { class: 'soft' }, label), select);
}

/**
 * @param {HTMLSelectElement} select @param {readonly { name: string, title: string }[]} cards @param {string} value
 */
function fill(select, cards, value) {
  const key = language() + cards.map((c) => `${c.name} ${c.title}`).join('\n');
  if (select.dataset['key'] !== key) {
    select.dataset['key'] = key;
    select.replaceChildren(...cards.map((c) => h('option', { value: c.name }, cardText(c.title))));
  }
  if (select.value !== value && document.activeElement !== select) select.value = value;
}

customElements.define('ht-orders', StationOrders);
