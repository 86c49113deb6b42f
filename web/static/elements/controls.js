// The choices: what is flown, always at hand; sound, look, language and units in one panel.

/** @import { Card } from '../types.d.ts' */
/** @import { House, Settings, SoundState, Spoken, State } from '../view.d.ts' */

import { attr, h, show, text } from '../dom.js';
import { isPilot } from '../pure/company.js';
import { number, stationWords } from '../pure/format.js';
import { cardText, language, t } from '../pure/text.js';
import { languages } from '../text/languages.js';
import { WingPoint } from './wing.js';

/**
 * @typedef {object} ControlsContext
 * @property {House} house
 * @property {Settings} settings
 * @property {SoundState} sound
 * @property {boolean} voice
 * @property {readonly string[]} voices
 * @property {readonly Spoken[]} said what was said and dropped
 * @property {boolean} kept whether the browser keeps the settings
 * @property {string} error
 */

export class Controls extends HTMLElement {
  #maneuver = h('select', { id: 'maneuver' });
  #standard = h('select', { id: 'standard' });
  #aircraft = h('select', { id: 'aircraft' });
  #prompts = h('select', { id: 'prompts' });
  #station = h('select', { id: 'station' });
  #stationField = h('label');
  #wing = new WingPoint();
  #check = h('button', { type: 'button', id: 'sound-check' });
  #mute = h('button', { type: 'button', id: 'mute' });
  #again = h('button', { type: 'button', id: 'say-again', 'aria-keyshortcuts': 'R' });
  #keys = h('button', { type: 'button', id: 'show-keys', 'aria-keyshortcuts': '?' });
  #ear = h('button', { type: 'button', id: 'by-ear' });
  #sound = h('p', { class: 'sound-state', id: 'sound-state', role: 'status' });
  #words = h('select', { id: 'words' });
  #voice = h('select', { id: 'voice' });
  #rate = h('input', { id: 'rate', type: 'range', min: 0.6, max: 1.8, step: 0.1 });
  #volume = h('input', { id: 'volume', type: 'range', min: 0, max: 1, step: 0.1 });
  #theme = h('select', { id: 'theme' });
  #language = h('select', { id: 'language' });
  #units = h('select', { id: 'units' });
  #private = h('input', { id: 'private', type: 'checkbox' });
  #log = h('ol', { class: 'said-log' });
  #full = h('button', { type: 'button', id: 'full-screen' });
  #panel = h('details', { class: 'settings' });
  /** Choices that were asked for and are not there yet. @type {Map<HTMLSelectElement, string>} */
  #asked = new Map();
  #built = '';
  #error = h('p', { class: 'control-error', role: 'alert' });
  /** @type {AbortController | null} */ #listening = null;

  connectedCallback() {
    this.#build();
    this.#listening = new AbortController();
    const { signal } = this.#listening;
    for (const select of [this.#maneuver, this.#standard, this.#aircraft]) {
      select.addEventListener('change', () => {
        this.#asked.set(select, select.value);
        this.#tell('choose', {
          maneuver: this.#maneuver.value, standard: this.#standard.value, aircraft: this.#aircraft.value,
        });
      }, { signal });
    }
    this.#station.addEventListener('change', () => this.#tell('station', { station: this.#station.value }), { signal });
    this.#check.addEventListener('click', () => this.#tell('sound-check', {}), { signal });
    this.#mute.addEventListener('click', () => this.#tell('mute', {}), { signal });
    this.#again.addEventListener('click', () => this.#tell('say-again', {}), { signal });
    this.#ear.addEventListener('click', () => this.#tell('by-ear', {}), { signal });
    this.#prompts.addEventListener('change', () => this.#tell('prompts', { prompts: this.#prompts.value }), { signal });
    this.#private.addEventListener('change', () => this.#tell('private', { on: this.#private.checked }), { signal });
    this.#keys.addEventListener('click', () => this.#tell('keys', {}), { signal });
    this.#full.addEventListener('click', () => void fullScreen(), { signal });
    document.addEventListener('fullscreenchange', () => this.#nameFull(), { signal });
    this.#words.addEventListener('change', () => this.#tell('settings', { words: this.#words.value }), { signal });
    this.#theme.addEventListener('change', () => this.#tell('settings', { theme: this.#theme.value }), { signal });
    this.#voice.addEventListener('change', () => this.#tell('settings', { voice: this.#voice.value }), { signal });
    this.#rate.addEventListener('change', () => this.#tell('settings', { rate: Number(this.#rate.value) }), {
      signal,
    });
    this.#volume.addEventListener('change', () => this.#tell('settings', { volume: Number(this.#volume.value) }), {
      signal,
    });
    this.#language.addEventListener(
      'change',
      () => this.#tell('settings', { language: this.#language.value, voice: '' }),
      { signal },
    );
    this.#units.addEventListener('change', () => this.#tell('settings', { units: this.#units.value }), { signal });
    addEventListener('keydown', (e) => {
      if (e.key === 'Escape') this.#panel.open = false;
    }, { signal });
  }

  /** What was chosen holds until the server has it, or refuses: the next choice is sent with it. */
  settle() {
    this.#asked.clear();
  }

  /**
   * What a select shows: what was asked for, until the server says the same.
   * @param {HTMLSelectElement} select @param {string} there what the server has
   */
  #kept(select, there) {
    if (this.#asked.get(select) === there) this.#asked.delete(select);
    return this.#asked.get(select) ?? there;
  }

  /** Puts the labels in, in the chosen language. */
  #build() {
    this.#built = language();
    this.#stationField = field(t('Station'), this.#station);
    this.#words.replaceChildren(
      option('tones', t('tones only')),
      option('checkpoints', t('checkpoints and results')),
      option('full', t('corrections too')),
      option('ear', t('all by ear, the set-up too')),
    );
    this.#prompts.replaceChildren(
      option('card', t('as the standard has it')),
      option('all', t('every cue')),
      option('fade', t('fading as they are met')),
      option('off', t('none, safety aside')),
    );
    this.#theme.replaceChildren(
      option('auto', t('system')),
      option('light', t('light')),
      option('dark', t('dark')),
      option('contrast', t('contrast')),
    );
    this.#language.replaceChildren(...Object.entries(languages).map(([code, name]) => option(code, name)));
    this.#units.replaceChildren(option('aviation', t('kt, ft')), option('metric', t('km/h, m')));
    this.#panel.replaceChildren(
      h('summary', { id: 'settings' }, t('Settings')),
      h('div', { class: 'settings-sheet' },
        field(t('Prompts in flight'), this.#prompts),
        field(t('What is said'), this.#words),
        field(t('Voice'), this.#voice),
        field(t('Rate'), this.#rate),
        field(t('Volume'), this.#volume),
        field(t('Look'), this.#theme),
        field(t('Language'), this.#language),
        field(t('Units'), this.#units),
        field(t('Private: nobody else watches'), this.#private),
        this.#keys,
        h('details', {}, h('summary', {}, t('What was said')), this.#log),
      ),
    );
    this.replaceChildren(
      h('div', { class: 'choices' },
        field(t('Maneuver'), this.#maneuver),
        field(t('Standard'), this.#standard),
        field(t('Aircraft'), this.#aircraft),
        this.#stationField,
      ),
      h('div', { class: 'sounds' }, this.#wing, this.#sound, this.#check, this.#mute, this.#ear, this.#again,
        this.#full, this.#panel),
      this.#error,
    );
    attr(this, 'aria-label', t('Choices'));
    text(this.#keys, t('Keys and buttons'));
    this.#nameFull();
  }

  #nameFull() {
    show(this.#full, document.fullscreenEnabled);
    text(this.#full, document.fullscreenElement ? t('Leave full screen') : t('Full screen'));
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
    if (this.#built !== language()) this.#build();
    const { house, settings, sound, voice } = context;
    this.#wing.update(state);
    const aside = state.info?.link === 'replaying' || state.info?.demonstration === true;
    const there = state.info !== null && state.info.link !== 'gone' && !aside;
    const force = context.error !== ''; // refused: show what still holds
    const auto = house.cards?.auto; // where none is to be chosen
    fill(
      this.#maneuver,
      [...(house.cards?.maneuvers ?? []), ...(auto ? [auto] : [])],
      this.#kept(this.#maneuver, (state.info?.auto ? auto?.name : state.info?.maneuver) ?? ''),
      force,
    );
    const standard = this.#kept(this.#standard, state.plan?.standard ?? '');
    fill(this.#standard, house.cards?.standards ?? [], standard, force);
    fill(
      this.#aircraft,
      [{ name: '', title: t('none chosen') }, ...(house.cards?.aircraft ?? [])],
      this.#kept(this.#aircraft, state.info?.aircraft ?? ''),
      force,
    );
    pick(this.#prompts, state.info?.prompts ?? 'card', force);
    for (const select of [this.#maneuver, this.#standard, this.#aircraft, this.#prompts]) {
      select.disabled = !there;
      // a recording is what it is
      show(/** @type {Element} */ (select.parentElement), state.info?.link !== 'replaying');
    }
    show(/** @type {Element} */ (this.#private.parentElement), there && isPilot(state));
    if (force || document.activeElement !== this.#private) this.#private.checked = state.info?.private === true;
    const names = (house.list?.stations ?? []).map((s) => s.name);
    if (state.station !== '' && !names.includes(state.station)) names.push(state.station);
    show(this.#stationField, names.length > 1);
    attr(this, 'data-stations', names.length > 1 ? 'many' : 'one');
    fill(this.#station, names.map((name) => ({ name, title: stationWords(name, true) })), state.station, false);
    pick(this.#words, settings.words);
    pick(this.#theme, settings.theme);
    pick(this.#language, settings.language);
    pick(this.#units, settings.units);
    const voices = context.voices.length > 0 ? context.voices : [''];
    fill(
      this.#voice,
      voices.map((name) => ({ name, title: name || t('no voice on this machine') })),
      settings.voice || (voices[0] ?? ''),
      false,
    );
    this.#voice.disabled = context.voices.length === 0;
    if (document.activeElement !== this.#rate) this.#rate.value = String(settings.rate);
    if (document.activeElement !== this.#volume) this.#volume.value = String(settings.volume);
    text(this.#check, settings.sound ? t('Sound check') : t('Press to hear Halfturn'));
    text(this.#ear, t('By ear'));
    attr(this.#ear, 'aria-pressed', String(settings.words === 'ear'));
    text(this.#again, t('Say again'));
    show(this.#ear, voice);
    show(this.#again, voice && settings.sound);
    this.#list(context.said);
    text(this.#mute, settings.sound ? t('Mute') : t('Sound on'));
    show(this.#mute, sound === 'on' || settings.sound);
    attr(this, 'data-sound', sound);
    text(this.#sound, context.kept ? soundWords(sound, voice, settings) : t('Settings hold until the page is closed'));
    text(this.#error, context.error);
  }

  /** What was said and what was not, the latest first. @param {readonly Spoken[]} spoken */
  #list(spoken) {
    const key = String(spoken.at(-1)?.number ?? 0) + this.#built;
    if (this.#log.dataset['key'] === key) return;
    this.#log.dataset['key'] = key;
    this.#log.replaceChildren(
      ...spoken
        .slice()
        .reverse()
        .map((s) =>
          h('li', { 'data-kind': s.kind, 'data-what': s.what, 'data-off': s.off ?? '' },
            `${s.words} · ${outcome(s)}`,
          ),
        ),
    );
  }
}

/** The page on the whole screen, or back. */
export async function fullScreen() {
  try {
    await (document.fullscreenElement ? document.exitFullscreen() : document.documentElement.requestFullscreen());
  } catch {
    // the system says no: the page stays as it is
  }
}

/** @param {SoundState} sound @param {boolean} voice @param {Settings} settings */
function soundWords(sound, voice, settings) {
  switch (sound) {
    case 'blocked': return t('The browser blocks sound');
    case 'off': return settings.sound ? '' : t('No sound');
    case 'none': return t('This browser has no audio: no tones');
    default: return voice ? '' : t('No voice on this machine: tones only');
  }
}

/** @param {Spoken} s */
function outcome(s) {
  switch (s.what) {
    case 'late':
      return t('not said: too late');
    case 'over':
      return t('not said: the leg was over');
    case 'gave-way':
      return t('not said: something more urgent came');
    case 'unwanted':
      return t('not said: turned off');
    default:
      return s.off === undefined
        ? t('spoken')
        : t('spoken, ended {seconds} s from the checkpoint', { seconds: number(s.off, 1) });
  }
}

/** @param {string} label @param {HTMLSelectElement | HTMLInputElement} select */
function field(label, select) {
  return h('label', { class: 'field', for: select.id }, h('span', { class: 'soft' }, label), select);
}

/** @param {string} value @param {string} label */
function option(value, label) {
  return h('option', { value }, label);
}

/** @param {HTMLSelectElement} select @param {Card[]} cards @param {string} value @param {boolean} force */
function fill(select, cards, value, force) {
  const key = language() + cards.map((c) => `${c.name} ${c.title}`).join('\n');
  if (select.dataset['key'] !== key) {
    select.dataset['key'] = key;
    select.replaceChildren(...cards.map((c) => option(c.name, cardText(c.title))));
  }
  pick(select, value, force);
}

/**
 * Sets a select, not while the user is at it.
 * @param {HTMLSelectElement} select
 * @param {string} value
 * @param {boolean} [force]
 */
function pick(select, value, force = false) {
  if (select.value !== value && (force || document.activeElement !== select)) select.value = value;
}
