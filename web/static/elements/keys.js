// The keys, in a dialog, and the joystick buttons that do the same: press "choose" and then the button.

import { attr, h, show, text } from '../dom.js';
import { acts, buttoned } from '../pure/acts.js';
import { language, t } from '../pure/text.js';

/** @import { Act } from '../pure/acts.js' */

export class Keys extends HTMLElement {
  #dialog = h('dialog', { class: 'keys', 'aria-labelledby': 'keys-title' });
  #title = h('h2', { id: 'keys-title' });
  #list = h('dl');
  #help = h('p', { class: 'soft small' });
  #close = h('button', { type: 'button' });
  #built = '';
  /** What the next button is for. @type {Act | ''} */ #wanted = '';
  /** @type {Readonly<Record<string, string>>} */ #buttons = {};

  connectedCallback() {
    if (this.firstChild) return;
    this.#dialog.append(this.#title, this.#list, this.#help, this.#close);
    this.append(this.#dialog);
    this.#close.addEventListener('click', () => this.#dialog.close());
    this.#dialog.addEventListener('close', () => {
      this.#wanted = '';
      this.#draw();
    });
  }

  open() {
    if (!this.#dialog.open) this.#dialog.showModal();
  }

  /** @param {Readonly<Record<string, string>>} buttons by act */
  update(buttons) {
    if (buttons === this.#buttons && this.#built === language()) return;
    this.#buttons = buttons;
    this.#draw();
  }

  /**
   * Takes a button for the act that waits for one, and tells whether one did.
   * @param {string} name
   */
  take(name) {
    if (this.#wanted === '') return false;
    const buttons = Object.fromEntries(Object.entries(this.#buttons).filter(([, is]) => is !== name));
    this.dispatchEvent(new CustomEvent('buttons', { detail: { ...buttons, [this.#wanted]: name } }));
    this.#wanted = '';
    this.#draw();
    return true;
  }

  #draw() {
    this.#built = language();
    text(this.#title, t('Keys and buttons'));
    text(this.#close, t('Close'));
    text(this.#help, `${t('A joystick is seen once one of its buttons was pressed here.')} ` +
      t('A button box can send POST /do/mark, or the line halfturn mark to the UDP port.'));
    this.#list.replaceChildren(...acts.map(({ act, key, words }) => {
      const row = h('div', { class: 'key-row' }, h('dt', {}, h('kbd', {}, key)), h('dd', {}, t(words)));
      if (!buttoned.some((b) => b.act === act)) return row;
      const choose = h('button', { type: 'button', 'data-act': act });
      const has = this.#buttons[act];
      text(choose, this.#wanted === act ? t('press a button') : has ? has.replace(/^.* #/, '#') : t('choose a button'));
      attr(choose, 'aria-label', `${t(words)}: ${choose.textContent}`);
      choose.addEventListener('click', () => {
        this.#wanted = this.#wanted === act ? '' : act;
        this.#draw();
        const again = this.querySelector(`[data-act="${act}"]`);
        if (again instanceof HTMLElement) again.focus();
      });
      const off = h('button', { type: 'button', 'aria-label': t('{act}: no button', { act: t(words) }) }, '×');
      show(off, has !== undefined);
      off.addEventListener('click', () => {
        const { [act]: _, ...rest } = this.#buttons;
        this.dispatchEvent(new CustomEvent('buttons', { detail: rest }));
      });
      row.append(h('dd', { class: 'key-button' }, choose, off));
      return row;
    }));
  }
}
