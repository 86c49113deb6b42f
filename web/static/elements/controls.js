// The choices: maneuver, standard, aircraft, station, sound, wordiness, light or dark.

/** @import { Card } from '../types.d.ts' */
/** @import { House, Settings, SoundState, State } from '../view.d.ts' */

import { attr, h, show, text } from '../dom.js';

/**
 * @typedef {object} ControlsContext
 * @property {House} house
 * @property {Settings} settings
 * @property {SoundState} sound
 * @property {boolean} voice
 * @property {string} error
 */

export class Controls extends HTMLElement {
  #maneuver = h('select', { id: 'maneuver' });
  #standard = h('select', { id: 'standard' });
  #aircraft = h('select', { id: 'aircraft' });
  #station = h('select', { id: 'station' });
  #stationField = field('Station', this.#station);
  #check = h('button', { type: 'button', id: 'sound-check' }, 'Sound check');
  #mute = h('button', { type: 'button', id: 'mute' }, 'Mute');
  #sound = h('p', { class: 'sound-state', id: 'sound-state', role: 'status' });
  #words = h('select', { id: 'words' }, option('tones', 'tones only'), option('checkpoints', 'checkpoints'), option('full', 'full'));
  #theme = h('select', { id: 'theme' }, option('auto', 'system'), option('light', 'light'), option('dark', 'dark'));
  #error = h('p', { class: 'control-error', role: 'alert' });
  /** @type {AbortController | null} */ #listening = null;

  connectedCallback() {
    this.replaceChildren(
      field('Maneuver', this.#maneuver), field('Standard', this.#standard), field('Aircraft', this.#aircraft), this.#stationField,
      h('span', { class: 'gap' }),
      this.#sound, this.#check, this.#mute, field('Words', this.#words), field('Look', this.#theme), this.#error,
    );
    this.#listening = new AbortController();
    const { signal } = this.#listening;
    const chosen = () => this.#tell('choose', {
      maneuver: this.#maneuver.value, standard: this.#standard.value, aircraft: this.#aircraft.value,
    });
    this.#maneuver.addEventListener('change', chosen, { signal });
    this.#standard.addEventListener('change', chosen, { signal });
    this.#aircraft.addEventListener('change', chosen, { signal });
    this.#station.addEventListener('change', () => this.#tell('station', { station: this.#station.value }), { signal });
    this.#check.addEventListener('click', () => this.#tell('sound-check', {}), { signal });
    this.#mute.addEventListener('click', () => this.#tell('mute', {}), { signal });
    this.#words.addEventListener('change', () => this.#tell('settings', { words: this.#words.value }), { signal });
    this.#theme.addEventListener('change', () => this.#tell('settings', { theme: this.#theme.value }), { signal });
  }

  disconnectedCallback() {
    this.#listening?.abort();
  }

  /** @param {string} type @param {object} detail */
  #tell(type, detail) {
    this.dispatchEvent(new CustomEvent(type, { detail, bubbles: true }));
  }

  /** @param {State} state @param {ControlsContext} context */
  update(state, context) {
    const { house, settings, sound, voice } = context;
    const there = state.info !== null && state.info.link !== 'gone';
    const force = context.error !== ''; // refused: show what still holds
    fill(this.#maneuver, house.cards?.maneuvers ?? [], state.info?.maneuver ?? '', force);
    fill(this.#standard, house.cards?.standards ?? [], state.plan?.standard ?? '', force);
    fill(this.#aircraft, [{ name: '', title: 'none chosen' }, ...(house.cards?.aircraft ?? [])], state.info?.aircraft ?? '', force);
    this.#maneuver.disabled = !there;
    this.#standard.disabled = !there;
    this.#aircraft.disabled = !there;
    const names = (house.list?.stations ?? []).map((s) => s.name);
    if (state.station !== '' && !names.includes(state.station)) names.push(state.station);
    show(this.#stationField, names.length > 1);
    fill(this.#station, names.map((name) => ({ name, title: name })), state.station, false);
    pick(this.#words, settings.words);
    pick(this.#theme, settings.theme);
    text(this.#mute, settings.sound ? 'Mute' : 'Sound on');
    show(this.#mute, sound === 'on' || settings.sound);
    attr(this, 'data-sound', sound);
    text(this.#sound, soundWords(sound, voice, settings));
    text(this.#error, context.error);
  }
}

/** @param {SoundState} sound @param {boolean} voice @param {Settings} settings */
function soundWords(sound, voice, settings) {
  switch (sound) {
    case 'blocked': return 'The browser blocks sound: press Sound check';
    case 'off': return settings.sound ? '' : 'No sound';
    default: return voice ? '' : 'No voice on this machine: tones only';
  }
}

/** @param {string} label @param {HTMLSelectElement} select */
function field(label, select) {
  return h('label', { class: 'field', for: select.id }, h('span', { class: 'soft' }, label), select);
}

/** @param {string} value @param {string} label */
function option(value, label) {
  return h('option', { value }, label);
}

/** @param {HTMLSelectElement} select @param {Card[]} cards @param {string} value @param {boolean} force */
function fill(select, cards, value, force) {
  const key = cards.map((c) => `${c.name} ${c.title}`).join('\n');
  if (select.dataset['key'] !== key) {
    select.dataset['key'] = key;
    select.replaceChildren(...cards.map((c) => option(c.name, c.title)));
  }
  pick(select, value, force);
}

/** Sets a select, not while the user is at it. @param {HTMLSelectElement} select @param {string} value @param {boolean} [force] */
function pick(select, value, force = false) {
  if (select.value !== value && (force || document.activeElement !== select)) select.value = value;
}
