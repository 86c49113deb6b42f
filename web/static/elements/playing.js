// Lets the cursor run through a leg as it was flown; where no motion is wanted, from checkpoint to checkpoint.

import { text } from '../dom.js';
import { t } from '../pure/text.js';

export class Playing {
  #button;
  #moment;
  #move;
  #stops;
  #playing = 0;

  /**
   * @param {HTMLButtonElement} button
   * @param {object} of
   * @param {() => { now: number, from: number, to: number }} of.moment where the cursor stands, and what is played, s
   * @param {(time: number) => void} of.move
   * @param {() => number[]} of.stops the times of the checkpoints, s
   */
  constructor(button, { moment, move, stops }) {
    this.#button = button;
    this.#moment = moment;
    this.#move = move;
    this.#stops = stops;
    button.addEventListener('click', () => this.#press());
    this.#name();
  }

  /** Stands still where it is. */
  stop() {
    if (this.#playing !== 0) cancelAnimationFrame(this.#playing);
    this.#playing = 0;
    this.#name();
  }

  #press() {
    if (this.#playing !== 0) return this.stop();
    const { now, from, to } = this.#moment();
    if (matchMedia('(prefers-reduced-motion: reduce)').matches) {
      const at = this.#stops().filter((s) => s > now + 0.15);
      return this.#move(at.length > 0 ? Math.min(...at) : from);
    }
    let time = now >= to - 0.2 ? from : Math.max(now, from);
    let before = performance.now();
    /** @param {number} at */
    const step = (at) => {
      time += (at - before) / 1000;
      before = at;
      this.#move(Math.min(time, to));
      if (time >= to) return this.stop();
      this.#playing = requestAnimationFrame(step);
    };
    this.#playing = requestAnimationFrame(step);
    this.#name();
  }

  #name() {
    text(this.#button, this.#playing !== 0 ? t('Pause') : t('See it again'));
  }
}
