// After a leg, under the ribbon: the leg played again, and the other way round laid over it.

/** @import { Leg } from '../types.d.ts' */
/** @import { State } from '../view.d.ts' */

import { attr, h, s, show, text } from '../dom.js';
import { against, nextPost, timeAt } from '../pure/again.js';
import { number } from '../pure/format.js';
import { lastHere } from '../pure/store.js';
import { language, t } from '../pure/text.js';

export class Again extends HTMLElement {
  #play = h('button', { type: 'button', id: 'again-play' });
  #scrub = h('input', { type: 'range', id: 'again-turn', min: 0, max: 180, step: 1, value: 0 });
  #over = h('button', { type: 'button', id: 'again-over', 'aria-pressed': 'false' });
  #line = h('span', { class: 'again-line' }, sample('trace'), h('span'));
  #dash = h('span', { class: 'again-line' }, sample('trace over'), h('span'));
  /** @type {State | null} */ #state = null;
  /** @type {Leg | null} */ #leg = null;
  /** @type {Leg | null} */ #other = null;
  /** @type {number | null} Where it stands, s as in the trace */ #time = null;
  #laid = false;
  #playing = 0;
  #built = '';

  /** The moment that is shown, s as in the trace; null when none is. */
  get time() {
    return this.#time;
  }

  /** The leg that is laid over the last one. @returns {Leg | null} */
  get over() {
    return this.#laid ? this.#other : null;
  }

  connectedCallback() {
    if (this.firstChild) return;
    this.append(h('div', { class: 'again-legend' }, this.#line, this.#dash), this.#play, this.#scrub, this.#over);
    attr(this, 'role', 'group');
    this.#play.addEventListener('click', () => this.#press());
    this.#scrub.addEventListener('input', () => {
      this.stop();
      if (this.#leg) this.#show(timeAt(this.#leg.trace ?? [], Number(this.#scrub.value)));
    });
    this.#over.addEventListener('click', () => {
      this.#laid = !this.#laid;
      this.#finish();
    });
    show(this, false);
  }

  /** @param {State} state @param {boolean} flying a new leg ends what is shown of the old one */
  update(state, flying) {
    const last = lastHere(state);
    const leg = !flying && (last?.trace?.length ?? 0) > 1 ? last : null;
    if (leg === this.#leg && this.#built === language() && state.legs === this.#state?.legs) return;
    this.#state = state;
    if (leg !== this.#leg) {
      this.stop();
      this.#time = null;
      this.#laid = false;
    }
    this.#leg = leg;
    this.#other = leg ? against(state.legs, leg) : null;
    this.#built = language();
    show(this, leg !== null);
    this.#name();
  }

  /** Stands still where it is. */
  stop() {
    if (this.#playing !== 0) cancelAnimationFrame(this.#playing);
    this.#playing = 0;
    this.#name();
  }

  #press() {
    const trace = this.#leg?.trace ?? [];
    const end = trace.at(-1)?.time ?? 0;
    if (this.#playing !== 0) return this.stop();
    const from = this.#time === null || this.#time >= end ? trace[0]?.time ?? 0 : this.#time;
    this.#laid = false;
    if (still()) { // no motion is wanted: from post to post
      if (this.#time !== null && this.#time >= end) return this.#finish();
      return this.#show(nextPost(this.#state?.lastPlan?.checkpoints ?? [], trace, from));
    }
    let before = performance.now();
    let time = from;
    /** @param {number} now */
    const step = (now) => {
      time += (now - before) / 1000;
      before = now;
      if (time >= end) return this.#finish();
      this.#playing = requestAnimationFrame(step);
      this.#show(time);
    };
    this.#playing = requestAnimationFrame(step);
    this.#show(from);
    this.#name();
  }

  /** The whole leg again, with what is written in. */
  #finish() {
    this.stop();
    this.#time = null;
    this.#scrub.value = '0';
    this.#name();
    this.dispatchEvent(new CustomEvent('again'));
  }

  /** @param {number} time */
  #show(time) {
    this.#time = time;
    const trace = this.#leg?.trace ?? [];
    const turn = String(Math.round(trace.findLast((p) => p.time <= time)?.turn ?? 0));
    if (document.activeElement !== this.#scrub && this.#scrub.value !== turn) this.#scrub.value = turn;
    attr(this.#scrub, 'aria-valuetext', t('{turn}° turned', { turn: number(Number(turn)) }));
    if (still()) this.#name();
    this.dispatchEvent(new CustomEvent('again'));
  }

  #name() {
    const leg = this.#leg;
    const other = this.#other;
    if (!leg) return;
    attr(this, 'aria-label', t('The last leg again'));
    attr(this.#scrub, 'aria-label', t('Turn angle of the replay'));
    attr(this.#scrub, 'max', Math.round(leg.trace?.at(-1)?.turn ?? 180));
    text(
      this.#play,
      this.#playing !== 0 ? t('Pause') : still() && this.#time !== null ? t('Next post') : t('See it again'),
    );
    show(this.#over, other !== null);
    attr(this.#over, 'aria-pressed', String(this.#laid));
    const compare = leg.direction === 'left' ? t('Compare right with left') : t('Compare left with right');
    text(this.#over, this.#laid ? t('Stop comparing') : compare);
    show(this.#line, this.#laid);
    show(this.#dash, this.#laid);
    text(/** @type {Node} */ (this.#line.lastChild), t('full line: {leg}', { leg: legName(leg) }));
    if (other) text(/** @type {Node} */ (this.#dash.lastChild), t('dashed: {leg}', { leg: legName(other) }));
  }
}

/** Whether the user wants no motion. */
function still() {
  return matchMedia('(prefers-reduced-motion: reduce)').matches;
}

/** @param {Leg} leg */
function legName(leg) {
  return leg.direction === 'left'
    ? t('leg {n}, to the left', { n: leg.number })
    : t('leg {n}, to the right', { n: leg.number });
}

/** A piece of line, as on the ribbon. @param {string} kind */
function sample(kind) {
  return s('svg', { viewBox: '0 0 40 8', class: 'line-sample', 'aria-hidden': 'true' },
    s('path', { d: 'M2 4H38', class: kind }),
  );
}
