// What a sender's stream is, in words. Pure.

/** @import { Probe, ProbeNeed, ProbeValue } from '../setup.d.ts' */

import { number } from './format.js';

/** The format and how sure it is. @param {Probe} p */
export function formatWords(p) {
  if (p.format === '') return `Format not recognized, ${number(p.datagrams, 0)} datagrams`;
  return `${p.format}, ${p.sure}: ${number(100 * p.read, 1)} % of ${number(p.datagrams, 0)} datagrams read`;
}

/** @param {Probe} p */
export function rateWords(p) {
  const clock = p.clock === 'simulator' ? 'the simulator’s clock' : 'the time of receipt';
  return `${number(p.rate, 1)} samples a second, jitter ${number(p.jitter, 1)} ms, last datagram ${number(p.age, 1)} s ago, timed by ${clock}`;
}

/** What was dropped, '' for nothing. @param {Probe} p */
export function dropWords(p) {
  const parts = Object.entries(p.drops).sort().map(([reason, n]) => `${number(n, 0)} ${reason}`);
  return parts.length === 0 ? '' : `Dropped: ${parts.join(', ')}`;
}

/** A value with its unit: about four digits, more for a place. @param {ProbeValue} v */
export function valueWords(v) {
  if (v.unit === 'flag') return v.value === 0 ? 'no' : 'yes';
  const size = Math.abs(v.value);
  const digits = v.channel === 'latitude' || v.channel === 'longitude' ? 4 : size >= 100 ? 0 : size >= 10 ? 1 : 2;
  const text = number(v.value, digits);
  if (v.unit === 'ratio') return text;
  return v.unit.startsWith('°') ? `${text}${v.unit}` : `${text}\u00a0${v.unit}`;
}

/** How a needed channel stands, and what it is for. @param {ProbeNeed} n */
export function needWords(n) {
  const state = { sent: 'sent', derived: 'worked out here', missing: 'missing' }[n.state];
  return n.for.length === 0 ? `${state}; nothing works without` : `${state}; for ${n.for.join(', ')}`;
}

/**
 * The rows of the table: what is missing first, then every channel that came.
 * @param {Probe} p
 * @returns {{ channel: string, title: string, value: string, age: string, need: string, state: string }[]}
 */
export function rows(p) {
  const needs = new Map(p.needs.map((n) => [n.channel, n]));
  const missing = p.needs.filter((n) => n.state === 'missing')
    .map((n) => ({ channel: n.channel, title: n.title, value: '', age: '', need: needWords(n), state: 'missing' }));
  const gone = new Set(missing.map((m) => m.channel));
  const there = p.values.filter((v) => !gone.has(v.channel)).map((v) => {
    const need = needs.get(v.channel);
    const bad = v.bad > 0 ? `; ${number(v.bad, 0)} values not believed` : '';
    return {
      channel: v.channel, title: v.title, value: valueWords(v), age: `${number(v.age, 1)}\u00a0s`,
      need: `${need ? needWords(need) : v.derived ? 'worked out here' : 'sent; not needed'}${bad}`, state: need ? need.state : 'extra',
    };
  });
  return [...missing, ...there];
}
