// What whoever sits at the panel flies next in their course: asked for where it can be read, on the first page and
// after a leg, and the station set up for it by a press.

/** @import { CourseRecord, NextThing, PlanItem } from './course.d.ts' */
/** @import { Station } from './types.d.ts' */
/** @import { State } from './view.d.ts' */

import { call } from './api.js';
import { flyNext } from './elements/flynext.js';
import { isSelf } from './pure/rights.js';
import { language } from './pure/text.js';
import { looking, mayOnceKnown } from './rights.js';

/** @typedef {{ next(node: HTMLElement | null): void }} Place */
/** @typedef {{ next(item: PlanItem | null, take: (item: PlanItem) => Promise<string>): void }} Verdict */

/** How long after a leg it stands in the logbook, ms. */
const keptAfter = 2000;

export class Lesson {
  #changed;
  #take;
  #key = '';
  #run = 0;
  /** @type {NextThing | null} */ #thing = null;
  /** @type {HTMLElement | null} */ #node = null;
  #built = '';
  #over = '';

  /**
   * @param {() => void} changed called once there is something else to fly
   * @param {(item: PlanItem) => Promise<string>} take sets it up; returns why not, in words
   */
  constructor(changed, take) {
    this.#changed = changed;
    this.#take = take;
  }

  /**
   * Draws what is flown next where it belongs on a face of the panel, and asks again once another leg is over.
   * @param {string} face @param {State} state
   * @param {{ welcome: Place, session: Place, debrief: Verdict }} places
   */
  draw(face, { info, last, series }, { welcome, session, debrief }) {
    if (face !== 'leg') this.#follow(info);
    const over = `${last?.start ?? ''} ${series.length}`;
    if (over !== this.#over) {
      this.#over = over;
      if (last !== null && info?.student && info.recording && !info.demonstration && !info.replay) {
        setTimeout(() => void this.#ask(info.name, info.student), keptAfter);
      }
    }
    const first = face === 'empty';
    welcome.next(first ? this.#shown() : null);
    session.next(first ? null : this.#shown());
    debrief.next(this.#thing?.plan?.items[0] ?? null, this.#take);
  }

  /**
   * Asks again where somebody else sits at the station; while there is none, of the one who last sat at this panel. A
   * station of which nothing is recorded has no logbook to ask.
   * @param {Station | null} info
   */
  #follow(info) {
    const own = info !== null && info.link !== 'gone' && !info.demonstration && !info.replay ? info : null;
    if (own?.student && own.recording) remember(own.student);
    const student = own === null ? remembered() : own.recording ? own.student : '';
    const key = JSON.stringify([own?.name ?? '', student]);
    if (key === this.#key) return;
    this.#key = key;
    this.#thing = null;
    this.#changed();
    void this.#ask(own?.name ?? '', student);
  }

  /** @param {string} station @param {string} student */
  async #ask(station, student) {
    const run = ++this.#run;
    const thing = student === '' ? null : await (station === '' ? ofStudent(student) : atStation(station));
    if (run !== this.#run) return;
    this.#thing = thing;
    this.#changed();
  }

  /** What is shown of it; null is nothing. */
  #shown() {
    const thing = this.#thing;
    const built = thing === null ? '' : JSON.stringify([thing, language()]);
    if (built !== this.#built) {
      this.#built = built;
      this.#node = thing?.plan ? flyNext(thing.plan, thing.course, this.#take) : null;
    }
    return this.#node;
  }
}

/** @param {string} station @returns {Promise<NextThing | null>} */
async function atStation(station) {
  if (!(await mayOnceKnown('fly'))) return null;
  return (await call(`api/stations/${encodeURIComponent(station)}/next`)).value;
}

/**
 * While no simulator is heard.
 * @param {string} student @returns {Promise<NextThing | null>}
 */
async function ofStudent(student) {
  const me = await looking();
  if (!(await mayOnceKnown('instruct')) && !isSelf(me, student)) return null;
  /** @type {{ value: CourseRecord | null }} */
  const { value: r } = await call(`api/students/${encodeURIComponent(student)}/course`);
  return r === null ? null : { version: r.version, student: r.student, course: r.course.title,
    passed: r.progress.passed, of: r.course.steps.length, plan: r.plan };
}

const key = 'halfturn.student';

/** Keeps in this browser who sits at its panel. @param {string} student */
function remember(student) {
  try {
    if (localStorage.getItem(key) !== student) localStorage.setItem(key, student);
  } catch {
    // storage is off: nothing is shown before a simulator is heard
  }
}

function remembered() {
  try {
    return localStorage.getItem(key) ?? '';
  } catch {
    return '';
  }
}
