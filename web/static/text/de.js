// The German words. The keys are the English ones; # stands for a number of the server's, with its unit.

import { aim } from './de/aim.js';
import { answers } from './de/answers.js';
import { archive } from './de/archive.js';
import { brief } from './de/brief.js';
import { cards } from './de/cards.js';
import { causes } from './de/causes.js';
import { changes } from './de/changes.js';
import { choices } from './de/choices.js';
import { debrief } from './de/debrief.js';
import { flight } from './de/flight.js';
import { grade } from './de/grade.js';
import { guides } from './de/guides.js';
import { first } from './de/first.js';
import { measure } from './de/measure.js';
import { panel } from './de/panel.js';
import { plan } from './de/plan.js';
import { server } from './de/server.js';
import { spoken } from './de/said.js';
import { sessions } from './de/sessions.js';
import { setup } from './de/setup.js';
import { stream } from './de/stream.js';
import { told } from './de/told.js';

/** Each key is in exactly one of them. @type {ReadonlyArray<Readonly<Record<string, string>>>} */
export const parts = [panel, sessions, brief, cards, debrief, first, guides, server, setup, spoken, told];

/** @type {Readonly<Record<string, string>>} */
export const de = Object.assign({}, ...parts);

/** The German sentences of the server by their codes. @type {Readonly<Record<string, string>>} */
export const coded = {
  ...aim,
  ...answers,
  ...archive,
  ...causes,
  ...changes,
  ...choices,
  ...flight,
  ...grade,
  ...measure,
  ...plan,
  ...stream,
};
