// Guides a pilot through the measurement of an aircraft: level flight, a slow-down to the stall warning, the entry
// speed. At the end its card is written and chosen.

/** @import { Progress } from '../begin.d.ts' */

import { attr, h, show, text } from '../dom.js';
import { card, measure, measured } from '../finding.js';
import { speedWords } from './aircraft.js';
import { number } from '../pure/format.js';
import { sentence } from '../pure/phrase.js';
import { language, t } from '../pure/text.js';
import { mark } from './mark.js';

const every = 500; // ms

const tasks = /** @type {const} */ (['level', 'slow', 'entry']);

export class MeasureGuide extends HTMLElement {
  #title = h('h3');
  #list = h('ol', { class: 'tasks' });
  #bar = h('progress', { max: 1, value: 0 });
  #why = h('p', { class: 'measure-why', role: 'status' });
  #next = h('button', { type: 'button' });
  #again = h('button', { type: 'button' });
  #stop = h('button', { type: 'button' });
  #name = h('input', { type: 'text', id: 'measure-name', maxlength: 40, autocomplete: 'off' });
  #write = h('button', { type: 'button', class: 'main-button' });
  #naming = h('div', { class: 'measure-naming' });
  #error = h('p', { class: 'control-error', role: 'alert' });
  /** Why the card was not kept: it stands until something is asked for again. */
  #refused = '';
  #station = '';
  #built = '';
  /** @type {ReturnType<typeof setTimeout> | undefined} */ #timer;

  connectedCallback() {
    if (this.firstChild) return;
    show(this, false);
    this.append(this.#title, this.#list, this.#bar, this.#why, this.#naming,
      h('div', { class: 'measure-acts' }, this.#next, this.#again, this.#stop), this.#error);
    this.#next.addEventListener('click', () => void this.#step('next'));
    this.#again.addEventListener('click', () => void this.#step('again'));
    this.#stop.addEventListener('click', () => void this.#leave());
    this.#write.addEventListener('click', () => void this.#keep());
    this.#name.addEventListener('input', () => this.#refuse(''));
  }

  disconnectedCallback() {
    clearTimeout(this.#timer);
  }

  get running() {
    return this.#station !== '';
  }

  /** @param {string} station */
  async begin(station) {
    this.#station = station;
    await this.#step('begin');
    show(this, true);
    this.scrollIntoView({ block: 'nearest' });
  }

  async #leave() {
    const station = this.#station;
    this.#end();
    if (station !== '') await measure(station, 'stop');
  }

  #end() {
    clearTimeout(this.#timer);
    this.#station = '';
    show(this, false);
  }

  /** @param {Parameters<typeof measure>[1]} step */
  async #step(step) {
    clearTimeout(this.#timer);
    this.#refused = '';
    this.#take(await measure(this.#station, step));
  }

  async #look() {
    if (this.#station !== '') this.#take(await measured(this.#station));
  }

  /** @param {Awaited<ReturnType<typeof measured>>} answer */
  #take({ value, error }) {
    if (this.#station === '') return;
    text(this.#error, error || this.#refused);
    if (value?.progress) this.#draw(value.progress);
    this.#timer = setTimeout(() => void this.#look(), every);
  }

  #build() {
    if (this.#built === language()) return;
    this.#built = language();
    text(this.#title, t('Measure your aircraft'));
    text(this.#again, t('Once more'));
    text(this.#stop, t('Stop measuring'));
    text(this.#write, t('Keep its card'));
    attr(this.#bar, 'aria-label', t('Steady flight so far'));
    this.#naming.replaceChildren(
      h('label', { for: 'measure-name' }, t('What do you call it?')), this.#name, this.#write);
  }

  /** @param {Progress} p */
  #draw(p) {
    this.#build();
    const words = {
      level: { name: t('Level flight'), how: t('Clean, wings level, at cruise power. Hold speed and height.') },
      slow: {
        name: t('Slow down to the stall warning'),
        how: t('Power idle, clean, hold the height until it warns or the nose drops. Then recover.'),
      },
      entry: {
        name: t('The entry speed'),
        how: t('Level at the speed you want to enter maneuvers with, as steady as before.'),
      },
    };
    const values = { level: p.level, slow: p.stall, entry: p.entry };
    const at = p.task === 'done' ? tasks.length : tasks.indexOf(p.task);
    this.#list.replaceChildren(...tasks.map((task, i) => {
      const shape = mark(i < at && values[task] > 0 ? 'met' : i === at ? 'near' : 'not-measured');
      attr(shape, 'aria-hidden', 'true');
      return h('li', { 'data-now': String(i === at), ...(i === at ? { 'aria-current': 'step' } : {}) }, shape,
        h('span', {}, h('strong', {}, words[task].name), ' ',
          i < at ? result(task, p) : i === at ? words[task].how : ''));
    }));
    show(this.#bar, p.task === 'level' || p.task === 'entry');
    this.#bar.value = p.held / p.hold;
    text(this.#why, p.task === 'done' ? '' : p.why !== '' ? sentence(p.why) : steady(p));
    show(this.#naming, p.task === 'done');
    show(this.#next, p.task === 'level' || p.task === 'slow');
    text(this.#next, p.task === 'slow' ? t('That was as slow as it gets') : t('Leave this out'));
  }

  /** @param {string} why */
  #refuse(why) {
    this.#refused = why;
    text(this.#error, why);
  }

  async #keep() {
    const { value, error } = await card(this.#station, this.#name.value);
    this.#refuse(error);
    if (value === null) return;
    const station = this.#station;
    this.#end();
    this.dispatchEvent(new CustomEvent('measured', { detail: { ...value, station }, bubbles: true }));
  }
}

/** @param {Progress} p */
function steady(p) {
  if (p.task === 'slow') return p.lowest === null ? '' : t('{speed} now', { speed: speedWords(p.airspeed) });
  return t('{speed}: steady for {n} of {of} s', {
    speed: speedWords(p.airspeed), n: number(p.held, 0), of: number(p.hold, 0),
  });
}

/** @param {typeof tasks[number]} task @param {Progress} p */
function result(task, p) {
  if (task === 'level') return p.level > 0 ? speedWords(p.level) : t('left out');
  if (task === 'entry') return speedWords(p.entry);
  switch (p.stallBy) {
    case 'stall': return t('{speed}, at the stall', { speed: speedWords(p.stall) });
    case 'warning': return t('{speed}, at the warning', { speed: speedWords(p.stall) });
    case 'lowest': return t('{speed}, the slowest flown', { speed: speedWords(p.stall) });
    default: return t('left out');
  }
}

if (!customElements.get('ht-measure')) customElements.define('ht-measure', MeasureGuide);
