// Joins keys, joystick buttons and what button boxes send to what the page does.

/** @import { Act } from './pure/acts.js' */
/** @import { Keys } from './elements/keys.js' */

import { text } from './dom.js';
import { Buttons } from './gamepad.js';
import { actOf, actOfButton } from './pure/acts.js';

/** How long it is told what was done, ms. */
const toldFor = 4000;

/**
 * @typedef {object} HandsHooks
 * @property {(act: Act) => void} act
 * @property {() => Readonly<Record<string, string>>} buttons of joysticks, by act
 */

export class Hands {
  #keys;
  #hooks;
  #told;
  /** @type {ReturnType<typeof setTimeout> | undefined} */ #timer;

  /** @param {Keys} keys @param {HTMLElement} told where it says what was done @param {HandsHooks} hooks */
  constructor(keys, told, hooks) {
    this.#keys = keys;
    this.#told = told;
    this.#hooks = hooks;
    addEventListener('keydown', (e) => {
      if (!plain(e)) return;
      const act = actOf(e.key);
      if (act === '') return;
      e.preventDefault();
      this.do(act);
    });
    new Buttons((name) => {
      if (keys.take(name)) return;
      const act = actOfButton(hooks.buttons(), name);
      if (act !== '') this.do(act);
    });
  }

  /** @param {Act} act */
  do(act) {
    if (act === 'keys') this.#keys.open();
    else this.#hooks.act(act);
  }

  /** Says what was done, for a while. @param {string} words */
  tell(words) {
    text(this.#told, words);
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => text(this.#told, ''), toldFor);
  }
}

/** Whether a key is pressed by itself, and not typed into a field or a dialog. @param {KeyboardEvent} e */
function plain(e) {
  const at = e.target instanceof HTMLElement ? e.target : null;
  const typed = at?.matches('input:not([type="range"]), select, textarea') || at?.closest('dialog');
  return !typed && !e.ctrlKey && !e.metaKey && !e.altKey && !e.repeat && !e.defaultPrevented;
}
