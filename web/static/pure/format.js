// Numbers and words as people read them. Pure.

/** @import { Gate, Verdict, Station } from '../types.d.ts' */

import { cardText, form, t } from './text.js';
import { inUnits } from './units.js';

const MINUS = '\u2212';
const THIN = '\u202f'; // narrow no-break space

/**
 * A number in the form of the language, with a true minus sign and the thousands set apart.
 * @param {number} value
 * @param {number} [digits] after the point
 */
export function number(value, digits = 0) {
  const fixed = Math.abs(value).toFixed(digits);
  const [whole = '0', part] = fixed.split('.');
  const { point, group, ungrouped } = form();
  const grouped = whole.length > ungrouped ? whole.replace(/\B(?=(\d{3})+$)/g, group) : whole;
  const text = part ? `${grouped}${point}${part}` : grouped;
  return value < 0 && Number(fixed) !== 0 ? MINUS + text : text;
}

/** Like number, with a plus sign where it is one. @param {number} value @param {number} [digits] */
export function signed(value, digits = 0) {
  const text = number(value, digits);
  return value > 0 && /[1-9]/.test(text) ? `+${text}` : text;
}

/**
 * A value with its unit, in the chosen one; the degree sign stands close.
 * @param {number} value
 * @param {string} unit
 * @param {number} [digits]
 */
export function withUnit(value, unit, digits = 0) {
  const to = inUnits(value, unit);
  return number(to.value, to.digits ?? digits) + unitAfter(to.unit);
}

/** @param {string} unit */
export function unitAfter(unit) {
  if (unit === '' || unit === 'ratio') return '';
  if (unit === 'balls') return `\u00a0${t('ball widths')}`; // the only one that is a word
  return unit === '°' ? '°' : `\u00a0${unit}`;
}

/** The digits a value of the unit is read with. @param {string} unit */
export function digitsOf(unit) {
  switch (unit) {
    case 'g': case 's': return 1;
    case 'balls': case 'ratio': case '': return 2;
    default: return 0;
  }
}

/**
 * What a lane's flag says.
 * @param {string} channel
 * @param {string} unit
 * @param {number} value
 */
export function flag(channel, unit, value) {
  if (channel === 'height') {
    const to = inUnits(value, unit);
    return signed(to.value) + unitAfter(to.unit);
  }
  return withUnit(value, unit);
}

/** What a gate measures now. @param {Gate} gate */
export function gateValue(gate) {
  if (gate.value === null) return gate.unit === '' ? '' : t('not measured');
  return withUnit(gate.value, gate.unit, digitsOf(gate.unit));
}

/** @param {Verdict} verdict */
export function verdictWords(verdict) {
  return t(verdict === 'not-measured' ? 'not measured' : verdict);
}

/**
 * From one value to another, the unit once.
 * @param {number} low
 * @param {number} high
 * @param {string} unit
 * @param {number} digits
 */
export function fromTo(low, high, unit, digits) {
  const from = inUnits(low, unit);
  return t('{low} to {high}', { low: number(from.value, from.digits ?? digits), high: withUnit(high, unit, digits) });
}

/**
 * Where a point off the nose stands, in words.
 * @param {number} angle degrees from the nose, right positive
 */
export function bearing(angle) {
  const a = wrap180(angle);
  const left = a < 0;
  const size = Math.abs(a);
  if (size < 3) return t('on the nose');
  if (Math.abs(size - 45) <= 4) return left ? t('halfway to the left wing') : t('halfway to the right wing');
  if (Math.abs(size - 90) <= 4) return left ? t('on the left wing') : t('on the right wing');
  if (size > 175) return t('behind the tail');
  if (size > 94) {
    return t(left ? '{angle}° behind the left wing' : '{angle}° behind the right wing', { angle: number(size - 90) });
  }
  return t(left ? '{angle}° left of the nose' : '{angle}° right of the nose', { angle: number(size) });
}

/** @param {number} angle */
export function wrap180(angle) {
  const a = ((angle % 360) + 360) % 360;
  return a >= 180 ? a - 360 : a;
}

/** "14:03:20", the clock on the wall. @param {number} at ms since 1970 */
export function clock(at) {
  const d = new Date(at);
  return [d.getHours(), d.getMinutes(), d.getSeconds()].map((n) => String(n).padStart(2, '0')).join(':');
}

/** "said just now", "said 4 s ago". @param {number} ms */
export function ago(ms) {
  const s = Math.max(0, Math.round(ms / 1000));
  if (s < 1) return t('just now');
  return s < 60 ? t('{n} ago', { n: `${s}${THIN}s` }) : t('{n} ago', { n: `${Math.floor(s / 60)}${THIN}min` });
}

/** "ball and load factor", "ball, rpm and N1". @param {readonly string[]} names */
export function list(names) {
  return joined(names.map((n) => cardText(n).replaceAll('-', ' ')));
}

/** "a, b and c", of words in the chosen language. @param {readonly string[]} words */
export function joined(words) {
  if (words.length < 2) return words.join('');
  return t('{some} and {last}', { some: words.slice(0, -1).join(', '), last: words.at(-1) ?? '' });
}

/** How good the stream is, in words. @param {Station} s */
export function quality(s) {
  const missing = s.missing ?? [];
  const rate = number(s.rate);
  return missing.length === 0
    ? t('{rate} a second · all channels', { rate })
    : t('{rate} a second · no {channels}', { rate, channels: list(missing) });
}

/** The name of a station that has none but the sender's address: its host, with the port behind. */
const address = /^(\d+(?:\.\d+){3}|\[[0-9a-f:.]+\S*\]):\d+$/i;

/** How much of an address tells one sender from the next: the last number of a host, and the port. */
const end = 10;

/**
 * What a station is called: its name, or for one that has none but the sender's address, words with that.
 * @param {string} name as the server gives it
 * @param {boolean} [port] whether to tell simulators on one machine apart
 */
export function stationWords(name, port = false) {
  const host = name.match(address)?.[1];
  return host ? t('Simulator at {address}', { address: port ? name : host }) : name;
}

/**
 * What a station is called where there is little room: the address alone, without words, in two parts, of which the
 * second is never cut. Of a name that somebody gave there is no second.
 * @param {string} name as the server gives it
 * @returns {[string, string]}
 */
export function stationParts(name) {
  return address.test(name) ? [name.slice(0, -end), name.slice(-end)] : [name, ''];
}

/**
 * Whether a leg has a score: flown to its end, and anything of it measured.
 * @param {{ outcome: string, verdict: Verdict }} leg
 */
export function judged(leg) {
  return leg.outcome === 'finished' && leg.verdict !== 'not-measured';
}

/** @param {string} words */
export function capital(words) {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** A place in a recording: "3:25". @param {number} seconds */
export function minutes(seconds) {
  const whole = Math.floor(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}
