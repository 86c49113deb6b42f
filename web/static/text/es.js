// The Spanish words. Pilots' Spanish from memory, no source: alabeo, morro, viraje escarpado, resbale and derrape.

import { aim } from './es/aim.js';
import { answers } from './es/answers.js';
import { archive } from './es/archive.js';
import { brief } from './es/brief.js';
import { cards } from './es/cards.js';
import { causes } from './es/causes.js';
import { changes } from './es/changes.js';
import { channels } from './es/channels.js';
import { choices } from './es/choices.js';
import { cockpit } from './es/cockpit.js';
import { course } from './es/course.js';
import { debrief } from './es/debrief.js';
import { desk } from './es/desk.js';
import { errors } from './es/errors.js';
import { first } from './es/first.js';
import { flight } from './es/flight.js';
import { grade } from './es/grade.js';
import { guides } from './es/guides.js';
import { elements } from './es/elements.js';
import { judging } from './es/judging.js';
import { lessons } from './es/lessons.js';
import { measure } from './es/measure.js';
import { panel } from './es/panel.js';
import { people } from './es/people.js';
import { plan } from './es/plan.js';
import { printed } from './es/print.js';
import { spoken } from './es/said.js';
import { sessions } from './es/sessions.js';
import { setup } from './es/setup.js';
import { share, sharing } from './es/share.js';
import { stream } from './es/stream.js';
import { terms } from './es/terms.js';
import { verdicts } from './es/verdicts.js';

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

/** The Spanish sentences of the server by their codes. @type {Readonly<Record<string, string>>} */
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

/** How numbers and dates are written: four figures stand together (Ortografía de la lengua española, 2010). */
export const form = { name: 'Español', locale: 'es-ES', point: ',', group: '\u202f', ungrouped: 4 };
