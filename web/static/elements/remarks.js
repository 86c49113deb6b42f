// Remarks on a session, a leg, or a moment of it: those there are, and a new one.

/** @import { Remark } from '../sessions.d.ts' */

import { post, shared } from '../api.js';
import { attr, h, text } from '../dom.js';
import { minutes, number } from '../pure/format.js';
import { markWords } from '../pure/moments.js';
import { longestInput } from '../pure/names.js';
import { dayShort, timeWords } from '../pure/sessions.js';
import { t } from '../pure/text.js';

/** @typedef {{ leg: number, time: number | null, turn: number }} Here where the cursor is */

const byKey = 'halfturn-by';
const longest = 2000; // characters

export class Remarks extends HTMLElement {
  #list = h('ol', { class: 'rows remarks' });
  #words = h('textarea', { id: 'remark', rows: 2, maxlength: longest });
  #by = h('input', { type: 'text', id: 'remark-by', maxlength: longestInput, autocomplete: 'name' });
  #on = h('select', { id: 'remark-on' });
  #write = h('button', { type: 'submit' }, t('Add the remark'));
  #error = h('p', { class: 'control-error', role: 'alert' });
  #session = '';
  /** @type {Remark[]} */ #all = [];
  /** @type {(r: Remark) => number | null} */ #turn = () => null;
  /** @type {Here} */ #here = { leg: 0, time: null, turn: 0 };
  /** @type {HTMLOptionElement[]} */ #options = ['moment', 'leg', 'session'].map((v) => h('option', { value: v }));

  connectedCallback() {
    if (this.firstChild) return;
    this.#by.value = remembered();
    this.#on.append(...this.#options);
    const form = h('form', { class: 'remark-form' },
      h('label', { class: 'wide', for: 'remark' }, h('span', { class: 'soft small' }, t('New remark')), this.#words),
      h('label', { for: 'remark-on' }, h('span', { class: 'soft small' }, t('On')), this.#on),
      h('label', { for: 'remark-by' }, h('span', { class: 'soft small' }, t('By')), this.#by), this.#write);
    this.append(h('h2', { id: 'remarks-title' }, t('Remarks')), this.#list, ...(shared ? [] : [form, this.#error]));
    form.addEventListener('submit', (e) => {
      e.preventDefault();
      void this.#add();
    });
  }

  /**
   * @param {string} session
   * @param {Remark[]} all
   * @param {(r: Remark) => number | null} turn the turn angle of a moment, null where it is not known
   */
  update(session, all, turn) {
    this.#session = session;
    this.#all = all;
    this.#turn = turn;
    this.#draw();
  }

  /** @param {Here} here */
  cursor(here) {
    this.#here = here;
    const [moment, leg, session] = this.#options;
    if (!moment || !leg || !session) return;
    text(moment, t('leg {n} at {turn}°', { n: here.leg, turn: number(here.turn) }));
    text(leg, t('leg {n}', { n: here.leg }));
    text(session, t('the session'));
  }

  async #add() {
    const words = this.#words.value.trim();
    if (words === '') {
      text(this.#error, t('The remark is empty: write what was seen.'));
      this.#words.focus();
      return;
    }
    const { leg, time } = this.#here;
    const on = this.#on.value;
    this.#write.disabled = true;
    /** @type {Awaited<ReturnType<typeof post<Remark>>>} */
    const got = await post(`api/sessions/${encodeURIComponent(this.#session)}/remarks`,
      { leg: on === 'session' ? 0 : leg, time: on === 'moment' ? time : null, by: this.#by.value.trim(), words });
    this.#write.disabled = false;
    text(this.#error, got.error);
    if (!got.value) return;
    remember(this.#by.value.trim());
    this.#words.value = '';
    this.#all = [...this.#all, got.value];
    this.#draw();
    this.dispatchEvent(new CustomEvent('remarks', { detail: this.#all }));
  }

  /** @param {Remark} r */
  #place(r) {
    if (r.leg === 0 && r.time !== null) return t('{place} from the start', { place: minutes(r.time) });
    if (r.leg === 0) return t('the session');
    if (r.time === null) return t('leg {n}', { n: r.leg });
    const turn = this.#turn(r);
    return turn === null
      ? t('leg {n}, a moment', { n: r.leg })
      : t('leg {n} at {turn}°', { n: r.leg, turn: number(turn) });
  }

  #draw() {
    attr(this.#list, 'hidden', this.#all.length === 0 ? '' : null);
    this.#list.replaceChildren(
      ...this.#all.map((r) => {
        const where = h('button', { type: 'button', class: 'moment' }, this.#place(r));
        where.disabled = r.leg === 0;
        where.addEventListener('click', () =>
          this.dispatchEvent(new CustomEvent('go', { detail: { leg: r.leg, time: r.time } })),
        );
        const who = [r.by, `${dayShort(r.at)} ${timeWords(r.at)}`.trim()].filter((w) => w !== '').join(', ');
        return h('li', { class: 'remark' },
          where,
          h('p', { class: 'remark-words' }, markWords(r.words)),
          h('p', { class: 'soft small' }, who),
        );
      }),
    );
  }
}

/** The name last written under a remark. */
function remembered() {
  try {
    return (localStorage.getItem(byKey) ?? '').slice(0, 60);
  } catch {
    return ''; // storage is off
  }
}

/** @param {string} by */
function remember(by) {
  try {
    localStorage.setItem(byKey, by);
  } catch {
    // storage is off: it is asked for again
  }
}
