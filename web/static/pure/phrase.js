// What the server says: a code and its arguments, in the chosen language and units. Pure.
//
// A phrase without a code is a string: a text of a card, or what is the same in every language. The code of a text of
// a card that has places is that text.

/** @import { Phrase, PhraseArg } from '../types.d.ts' */

import { capital, joined, number, unitAfter } from './format.js';
import { cardText, coded } from './text.js';
import { inUnits } from './units.js';

/** @param {Phrase} phrase @returns {string} */
export function told(phrase) {
  if (typeof phrase === 'string') return cardText(phrase);
  const sentence = sentenceOf(phrase.code);
  if (sentence === undefined) return phrase.text; // of a server newer than this page
  return sentence.replace(/\{(\w+)(?::(\w+))?\}/g, (place, name, how) => {
    const arg = phrase.args?.[name];
    return arg === undefined ? place : argument(arg, how);
  });
}

/** The sentence of a code, with its places. @param {string} code @returns {string | undefined} */
function sentenceOf(code) {
  if (code.includes('{')) return cardText(code);
  return coded(code);
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
