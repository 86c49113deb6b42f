// The German words. Pilots' German from memory, no source: ein- and ausleiten for roll in and roll out, Kontrollkurven
// for clearing turns, Schieben and Schmieren for skid and slip.

import { aim } from './de/aim.js';
import { answers } from './de/answers.js';
import { archive } from './de/archive.js';
import { brief } from './de/brief.js';
import { cards } from './de/cards.js';
import { causes } from './de/causes.js';
import { changes } from './de/changes.js';
import { channels } from './de/channels.js';
import { choices } from './de/choices.js';
import { cockpit } from './de/cockpit.js';
import { course } from './de/course.js';
import { debrief } from './de/debrief.js';
import { desk } from './de/desk.js';
import { errors } from './de/errors.js';
import { first } from './de/first.js';
import { flight } from './de/flight.js';
import { grade } from './de/grade.js';
import { guides } from './de/guides.js';
import { elements } from './de/elements.js';
import { judging } from './de/judging.js';
import { lessons } from './de/lessons.js';
import { measure } from './de/measure.js';
import { panel } from './de/panel.js';
import { people } from './de/people.js';
import { plan } from './de/plan.js';
import { printed } from './de/print.js';
import { spoken } from './de/said.js';
import { sessions } from './de/sessions.js';
import { setup } from './de/setup.js';
import { share, sharing } from './de/share.js';
import { stream } from './de/stream.js';
import { terms } from './de/terms.js';
import { verdicts } from './de/verdicts.js';

/** The words of the pages by the English; each key is in exactly one. */

export const parts = [
  panel, cockpit, sessions, debrief, brief, setup, first, people, printed, terms, desk, judging, lessons, sharing,
];

/** The shipped texts by the English; each key is in exactly one. */
export const shipped = [cards, channels, errors, guides, spoken, elements];

/** @type {Readonly<Record<string, string>>} */
export const pages = Object.assign({}, ...parts);

/** @type {Readonly<Record<string, string>>} */
export const texts = Object.assign({}, ...shipped);

/** The German sentences of the server by their codes. @type {Readonly<Record<string, string>>} */
export const coded = {
  ...aim,
  ...answers,
  ...archive,
  ...causes,
  ...changes,
  ...choices,
  ...course,
  ...flight,
  ...grade,
  ...verdicts,
  ...measure,
  ...plan,
  ...share,
  ...stream,
};

/** How numbers and dates are written. */
export const form = { name: 'Deutsch', locale: 'de-DE', point: ',', group: '.', ungrouped: 3 };
