// The first page: three choices, then fly. It stands while no simulator is heard, and the first time until the pilot
// goes on. What cannot be read, and a server that is away, are said here too.

/** @import { House, State } from '../view.d.ts' */
/** @import { Finding, Wish } from '../begin.d.ts' */
/** @import { Guide, Probe } from '../setup.d.ts' */

import { attr, h, show, text } from '../dom.js';
import { chosen, found, ticks } from '../pure/first.js';
import { told } from '../pure/phrase.js';
import { cardText, language, t } from '../pure/text.js';
import { AircraftTiles, speedUnit } from './aircraft.js';
import { Channels } from './channels.js';
import { ManeuverTiles } from './maneuvers.js';
import { mark } from './mark.js';
import { MeasureGuide } from './measure.js';
import { Simulators } from './simulators.js';

/**
 * @typedef {object} Known
 * @property {readonly Guide[]} guides
 * @property {Finding | null} finding
 * @property {Probe | null} probe
 * @property {string} error
 */

/** Puts a heading's words in. @param {HTMLElement | undefined} head @param {string} name @param {string} rest */
function lead(head, name, rest) {
  head?.replaceChildren(h('strong', {}, name), rest);
}

export class Welcome extends HTMLElement {
  #title = h('h2', { class: 'welcome-title' });
  #advice = h('p', { class: 'strong' });
  #trouble = h('div', { class: 'welcome-trouble' });
  #marks = ['simulator', 'aircraft', 'maneuver'].map((of) => h('div', { class: 'step-mark', 'data-of': of }));
  #heads = ['simulator', 'aircraft', 'maneuver'].map((of) => h('h2', { id: `step-${of}` }));
  #found = h('p', { class: 'found soft', role: 'status' });
  #unit = h('p', { class: 'soft' });
  #simulators = new Simulators();
  #channels = new Channels();
  #aircraft = new AircraftTiles();
  #guide = new MeasureGuide();
  #maneuvers = new ManeuverTiles();
  #fly = h('button', { type: 'button', class: 'main-button', id: 'first-fly' });
  #show = h('button', { type: 'button', id: 'first-show' });
  #error = h('p', { class: 'control-error', role: 'alert' });
  #others = h('a', { href: 'setup' });
  #steps = h('div', { class: 'first-steps' });
  #next = h('div', { class: 'first-next' });
  /** @type {Partial<Wish>} */ #wish = {};
  #language = '';
  #station = '';

  connectedCallback() {
    if (this.firstChild) return;
    this.#trouble.append(this.#title, this.#advice);
    this.append(this.#trouble, this.#steps);
    this.addEventListener('wish', (e) => {
      this.#wish = { ...this.#wish, .../** @type {CustomEvent} */ (e).detail };
      this.#tell('wished');
    });
    this.addEventListener('measure', () => void this.#guide.begin(this.#station));
    this.addEventListener('measured', (e) => {
      this.#wish = { ...this.#wish, aircraft: /** @type {CustomEvent} */ (e).detail.name };
      this.#tell('written');
    });
    this.#fly.addEventListener('click', () => this.#tell('fly'));
    this.#show.addEventListener('click', () => this.#tell('show'));
  }

  /** Shows what to fly next in a course. @param {HTMLElement | null} node */
  next(node) {
    if (this.#next.firstChild !== node) this.#next.replaceChildren(...(node ? [node] : []));
  }

  /** Chooses a maneuver, as a press on its tile does. @param {string} maneuver */
  take(maneuver) {
    this.#wish = { ...this.#wish, maneuver };
  }

  /** What was pressed here; the rest is as it was. */
  get wish() {
    return this.#wish;
  }

  /** Whether somebody is at it: what arrives does not take the page away. */
  get measuring() {
    return this.#guide.running;
  }

  /** @param {string} type */
  #tell(type) {
    this.dispatchEvent(new CustomEvent(type));
  }

  #build() {
    this.#language = language();
    const [simulator, aircraft, maneuver] = this.#heads;
    lead(simulator, t('Your simulator'), '');
    lead(aircraft, t('Your aircraft'), t(', by three numbers; the nearest will do'));
    lead(maneuver, t('Your maneuver'), t(', to start with'));
    text(this.#others, t('others, and details'));
    text(this.#show, t('Show me one flown well'));
    const acts = h('div', { class: 'first-acts' }, this.#fly, this.#show, this.#error,
      h('p', { class: 'soft small' }, t('That needs no simulator.')));
    const step = (/** @type {number} */ i, /** @type {Node[]} */ beside, /** @type {Node[]} */ ...content) =>
      h('section', { class: 'step', 'aria-labelledby': this.#heads[i]?.id ?? '' },
        /** @type {HTMLElement} */ (this.#marks[i]),
        h('div', { class: 'step-head' }, /** @type {HTMLElement} */ (this.#heads[i]), ...beside),
        h('div', { class: 'step-body' }, ...content));
    this.#steps.replaceChildren(
      step(0, [this.#found, h('p', { class: 'ways-in' }, this.#simulators.where, this.#others)],
        this.#simulators, this.#channels),
      step(1, [this.#unit], this.#aircraft, this.#guide),
      step(2, [this.#next, this.#maneuvers.more], h('div', { class: 'last-step' }, this.#maneuvers, acts)),
    );
    this.#simulators.where.classList.add('linklike');
  }

  /** @param {State} state @param {House} house @param {Known} known */
  update(state, house, known) {
    if (this.#language !== language()) this.#build();
    const info = state.info?.link === 'gone' ? null : state.info;
    const unread = info !== null && info.advice !== '' && (info.channels ?? []).length === 0;
    const lost = state.link.state === 'lost';
    show(this.#trouble, unread || lost || state.private);
    show(this.#steps, !state.private);
    if (state.private) {
      text(this.#title, t('This station is private now'));
      text(this.#advice, t('Its pilot shares it with nobody. This page comes back by itself when that changes.'));
      return;
    }
    text(this.#title, unread ? t('Something arrives, but cannot be read') : lost ? t('Halfturn does not answer') : '');
    text(this.#advice, unread ? told(info?.advice ?? '')
      : t('Is it still running? This page comes back by itself when it is.'));
    const live = info !== null && info.link === 'live' && !info.demonstration;
    this.#station = live ? info.name : '';
    const wish = chosen(this.#wish, info, house.cards);
    text(this.#found, found(known.finding, house.list?.stations ?? []));
    this.#simulators.update(known.guides, known.finding, live ? info.format : '');
    this.#channels.update(live ? info : null, known.probe);
    this.#aircraft.update(house.cards?.aircraft ?? [], wish.aircraft, live);
    text(this.#unit, speedUnit());
    this.#maneuvers.update(house.cards, wish);
    const flown = house.cards?.maneuvers?.find((c) => c.name === wish.maneuver);
    text(this.#fly, t('Fly: {maneuver}', { maneuver: cardText(flown?.title ?? '') }));
    this.#fly.disabled = !live;
    text(this.#error, known.error);
    this.#tick(ticks(live ? info : null).every((c) => c.there), live, wish);
  }

  /** @param {boolean} whole @param {boolean} live @param {Wish} wish */
  #tick(whole, live, wish) {
    const verdicts = [whole ? 'met' : live ? 'near' : 'not-measured',
      wish.aircraft === '' ? 'not-measured' : 'met', wish.maneuver === '' ? 'not-measured' : 'met'];
    this.#marks.forEach((node, i) => {
      const verdict = /** @type {import('../types.d.ts').Verdict} */ (verdicts[i]);
      if (node.dataset['verdict'] === verdict) return;
      node.dataset['verdict'] = verdict;
      const shape = mark(verdict);
      attr(shape, 'aria-hidden', 'true');
      node.replaceChildren(shape);
    });
  }
}
