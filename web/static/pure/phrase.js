// What the server says: a code and its arguments, in the chosen language and units. Pure.
//
// A phrase without a code is a string. What has no code yet is looked up by its English (text.js).

/** @import { Phrase, PhraseArg } from '../types.d.ts' */

import { coded } from '../text/de.js';
import { en } from '../text/en.js';
import { capital, joined, number, unitAfter } from './format.js';
import { language, said } from './text.js';
import { inUnits } from './units.js';

/** @param {Phrase} phrase @returns {string} */
export function told(phrase) {
  if (typeof phrase === 'string') return said(phrase);
  const sentence = language() === 'de' ? (coded[phrase.code] ?? en[phrase.code]) : en[phrase.code];
  if (sentence === undefined) return said(phrase.text); // of a server newer than this page
  return sentence.replace(/\{(\w+)(?::(\w+))?\}/g, (place, name, how) => {
    const arg = phrase.args?.[name];
    return arg === undefined ? place : argument(arg, how);
  });
}

/** A phrase as a sentence that stands for itself. @param {Phrase} phrase */
export function sentence(phrase) {
  return `${capital(told(phrase))}.`;
}

/** What is the same in every language: the English. @param {Phrase} phrase */
export function textOf(phrase) {
  return typeof phrase === 'string' ? phrase : phrase.text;
}

/** @param {PhraseArg} arg @param {string} [how] bare: without its unit; within: as it goes on in a sentence */
function argument(arg, how) {
  if (typeof arg === 'string') return arg;
  if (Array.isArray(arg)) return arg.map(told).map((s) => (how === 'within' ? lower(s) : s)).join(', ');
  if ('and' in arg) return joined(arg.and.map(told));
  const { value, unit, digits } = inUnits(arg.value, arg.unit ?? '');
  const sent = arg.digits ?? 0;
  const figures = number(value, digits ?? (sent >= 0 ? sent : decimals(value)));
  if (how === 'bare') return figures;
  return figures + (unit === '%' ? '%' : unitAfter(unit));
}

/** Words as they go on in a sentence; not those that begin with two capitals or with a figure. @param {string} s */
function lower(s) {
  return /^.[\p{Lu}\d]/u.test(s) ? s : s.charAt(0).toLowerCase() + s.slice(1);
}

/** The digits after the point that a value takes. @param {number} value */
function decimals(value) {
  return /\.(\d+)$/.exec(String(value))?.[1]?.length ?? 0;
}
