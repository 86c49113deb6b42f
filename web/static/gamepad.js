// The buttons of joysticks, as the browser sees them: it tells of them only when asked, so it is asked while one is
// plugged in.

import { buttonName, pressed } from './pure/acts.js';

/** How often the buttons are looked at, ms: a press takes longer. */
const every = 40;

export class Buttons {
  /** @type {Map<number, boolean[]>} by the number of the joystick */ #before = new Map();
  /** @type {ReturnType<typeof setInterval> | undefined} */ #timer;
  #pressed;

  /** @param {(name: string) => void} pressed told of each press */
  constructor(pressed) {
    this.#pressed = pressed;
    addEventListener('gamepadconnected', () => this.#look());
    addEventListener('gamepaddisconnected', () => this.#look());
    this.#look();
  }

  #look() {
    const pads = (navigator.getGamepads?.() ?? []).filter((p) => p !== null);
    clearInterval(this.#timer);
    if (pads.length === 0) return this.#before.clear();
    this.#timer = setInterval(() => this.#ask(), every);
  }

  #ask() {
    for (const pad of navigator.getGamepads()) {
      if (!pad) continue;
      const now = pad.buttons.map((b) => b.pressed);
      const before = this.#before.get(pad.index) ?? now; // what is held when it is plugged in is no press
      this.#before.set(pad.index, now);
      for (const button of pressed(before, now)) this.#pressed(buttonName(pad.id, button));
    }
  }
}
