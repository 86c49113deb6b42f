// Runs the first page and the demonstration for the panel: what is asked of the server, when the page stands, and what
// its buttons do.

/** @import { House, State } from './view.d.ts' */
/** @import { PlanItem } from './course.d.ts' */
/** @import { Finding } from './begin.d.ts' */
/** @import { GuideList, Probe } from './setup.d.ts' */
/** @import { Debrief } from './elements/debrief.js' */
/** @import { LiveSession } from './elements/session.js' */
/** @import { ShowingBar } from './elements/showing.js' */
/** @import { Welcome } from './elements/welcome.js' */

import { call } from './api.js';
import { setUp } from './elements/flynext.js';
import * as finding from './finding.js';
import { Lesson } from './lesson.js';
import { chosen } from './pure/first.js';

/** How often the server is asked, ms, while the page stands. */
const every = 1000;

/** How long a demonstration may take to begin, ms: one before it is over until then. */
const beginsWithin = 3000;

/** Kept in the browser once the pilot went on: from then on a simulator that is heard opens the panel at once. */
const key = 'halfturn.started';

/**
 * @typedef {object} Panel
 * @property {() => State} state
 * @property {House} house
 * @property {Debrief} debrief
 * @property {(station: string) => void} watch
 * @property {() => void} plan draws again
 * @property {() => Promise<void>} refresh
 * @property {() => string} chosen the station that somebody chose
 * @property {(choice: { maneuver: string, standard?: string, aircraft: string }) => Promise<string>} choose
 */

export class First {
  #panel;
  #welcome;
  #bar;
  #seen = asked();
  #started = started() && !asked();
  /** @type {{ guides: import('./setup.d.ts').Guide[], finding: Finding | null, probe: Probe | null, error: string }} */
  #known = { guides: [], finding: null, probe: null, error: '' };
  /** The station that was watched before a demonstration. */
  #before = '';
  #onFirst = false;
  /** What was taken from a course: it holds while its maneuver is chosen. @type {PlanItem | null} */ #item = null;
  /** Until when a demonstration that was handed over to may take to begin, ms since 1970. */
  #begins = 0;

  #lesson;
  #session;

  /** @param {Welcome} welcome @param {ShowingBar} bar @param {LiveSession} session @param {Panel} panel */
  constructor(welcome, bar, session, panel) {
    this.#session = session;
    this.#lesson = new Lesson(panel.plan, (item) => this.#take(item));
    this.#panel = panel;
    this.#welcome = welcome;
    this.#bar = bar;
    welcome.addEventListener('fly', () => void this.#fly());
    welcome.addEventListener('show', () => void this.#show());
    welcome.addEventListener('wished', () => void this.#wished());
    welcome.addEventListener('written', () => void this.#written());
    bar.addEventListener('end', () => void this.#end());
    void this.#run();
  }

  /**
   * The face that the panel shows: the first page stays until the pilot goes on, the first time, or a leg begins.
   * @param {'empty' | 'set-up' | 'leg' | 'after'} face
   */
  face(face) {
    const { info, server } = this.#panel.state();
    if (face === 'empty') {
      if (server === '') return face; // not told yet whether one is there
      if (!this.#seen && info === null) void this.#look();
      this.#seen = true;
      return face;
    }
    if (face === 'leg' || info?.demonstration || info?.link === 'replaying') {
      this.#seen = false;
      return face;
    }
    return (this.#seen && !this.#started) || this.#welcome.measuring ? 'empty' : face;
  }

  /** @param {'empty' | 'set-up' | 'leg' | 'after'} face as face() returns it */
  update(face) {
    const state = this.#panel.state();
    this.#onFirst = face === 'empty';
    this.#lesson.draw(face, state, {
      welcome: this.#welcome, session: this.#session, debrief: this.#panel.debrief,
    });
    this.#bar.update(state);
    this.#over(state);
    if (face === 'empty') this.#welcome.update(state, this.#panel.house, this.#known);
  }

  /**
   * Hands over to the pilot's own station when a demonstration is over; while there is none, what was flown stays to be
   * read.
   * @param {State} state
   */
  #over(state) {
    const { info } = state;
    if (info?.demonstration && info.link === 'live') this.#begins = 0;
    if (!info?.demonstration || info.link !== 'gone' || Date.now() < this.#begins) return;
    const own = this.#panel.house.list?.stations.some((s) => s.link === 'live' && !s.demonstration);
    if (own) this.#back();
  }

  #back() {
    this.#panel.watch(this.#before);
  }

  /**
   * Shows a demonstration that somebody handed over to, and comes back when it is over.
   * @param {string} station of the demonstration
   */
  handed(station) {
    this.#before = this.#panel.chosen() || this.#panel.state().station;
    this.#begins = Date.now() + beginsWithin;
    this.#panel.watch(station);
    this.#panel.plan();
  }

  async #run() {
    const guides = /** @type {{ value: GuideList | null }} */ (await call('api/guides')).value;
    this.#known.guides = (guides?.guides ?? []).filter((g) => g.first);
    for (;;) {
      if (this.#seen && document.visibilityState === 'visible') await this.#look();
      await new Promise((resolve) => setTimeout(resolve, every));
    }
  }

  async #look() {
    const { info } = this.#panel.state();
    const live = info?.link === 'live' && !info.demonstration;
    const [found, probe] = await Promise.all([finding.find(), live ? finding.probe(info.name) : null]);
    this.#known.finding = found ?? this.#known.finding;
    this.#known.probe = probe;
    this.#panel.plan();
  }

  #choice() {
    const { info } = this.#panel.state();
    return chosen(this.#welcome.wish, info, this.#panel.house.cards);
  }

  /** What is pressed while the simulator sends holds at once. */
  async #wished() {
    const { info } = this.#panel.state();
    if (info?.link === 'live' && !info.demonstration) this.#known.error = await this.#panel.choose(this.#choice());
    this.#panel.plan();
  }

  async #written() {
    this.#panel.house.cards = null; // there is one more
    await this.#panel.refresh();
  }

  /**
   * Sets up what is to be flown next in a course; on the first page as its other choices are: it holds once a simulator
   * is heard and the pilot goes on.
   * @param {PlanItem} item @returns {Promise<string>} why not, in words
   */
  async #take(item) {
    const { info } = this.#panel.state();
    if (!this.#onFirst) return info === null ? '' : setUp(info, item);
    this.#item = item;
    this.#welcome.take(item.maneuver);
    if (info?.link === 'live' && !info.demonstration) await this.#fly();
    this.#panel.plan();
    return this.#known.error;
  }

  async #fly() {
    const choice = this.#choice();
    const item = this.#item?.maneuver === choice.maneuver ? this.#item : null;
    this.#known.error = await (item
      ? setUp({ name: this.#panel.state().station, aircraft: choice.aircraft }, item)
      : this.#panel.choose(choice));
    if (this.#known.error === '') {
      this.#started = true;
      this.#seen = false;
      keep();
      leave();
    }
    this.#panel.plan();
  }

  async #show() {
    const { value, error } = await finding.show(this.#choice());
    this.#known.error = error;
    if (value !== null) {
      this.#before = this.#panel.chosen();
      this.#panel.watch(value.station);
    }
    this.#panel.plan();
  }

  async #end() {
    await finding.endShow();
    this.#back();
  }
}

/** Whether the address asks for this page, also where the pilot went on before. */
function asked() {
  return new URLSearchParams(location.search).has('first');
}

/** Takes that out of the address: the next time the panel opens. */
function leave() {
  const url = new URL(location.href);
  url.searchParams.delete('first');
  history.replaceState(null, '', url);
}

function started() {
  try {
    return localStorage.getItem(key) !== null;
  } catch {
    return false; // storage is off: the first page stands each time
  }
}

function keep() {
  try {
    localStorage.setItem(key, '1');
  } catch {
    // then it stands again the next time
  }
}
