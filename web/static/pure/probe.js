// What a sender's stream is, in words. Pure.

/** @import { Probe, ProbeNeed, ProbeValue } from '../setup.d.ts' */

import { number, unitAfter } from './format.js';
import { told } from './phrase.js';
import { cardText, t } from './text.js';
import { inUnits } from './units.js';

/** The format and how sure it is. @param {Probe} p */
export function formatWords(p) {
  const datagrams = number(p.datagrams, 0);
  if (p.format === '') return t('Format not recognized, {datagrams} datagrams', { datagrams });
  return t('{format}, {sure}: {share} % of {datagrams} datagrams read', {
    format: cardText(p.format),
    sure: t(p.sure),
    share: number(100 * p.read, 1),
    datagrams,
  });
}

/** @param {Probe} p */
export function rateWords(p) {
  const values = { rate: number(p.rate, 1), jitter: number(p.jitter, 1), age: number(p.age, 1) };
  return p.clock === 'simulator'
    ? t(
        '{rate} samples a second, jitter {jitter} ms, last datagram {age} s ago, timed by the simulator’s clock',
        values,
      )
    : t(
        '{rate} samples a second, jitter {jitter} ms, last datagram {age} s ago, timed by the time of receipt',
        values,
      );
}

/** @param {string} reason as the server counts it */
function reasonWords(reason) {
  /** @type {Record<string, string>} */
  const words = {
    duplicate: t('sent twice'),
    late: t('late'),
    empty: t('empty'),
    'unknown-format': t('of an unknown format'),
    'no-labels': t('without labels'),
    'no-channels': t('without a channel'),
    malformed: t('malformed'),
    'bad-value': t('with a value that cannot be'),
    truncated: t('cut short'),
    checksum: t('with a wrong checksum'),
    encoding: t('not text'),
    'too-long': t('too long'),
    'format-changed': t('of another format'),
    other: t('other'),
  };
  return words[reason] ?? reason;
}

/** What was dropped, '' for nothing. @param {Probe} p */
export function dropWords(p) {
  const parts = Object.entries(p.drops).sort().map(([reason, n]) => `${number(n, 0)} ${reasonWords(reason)}`);
  return parts.length === 0 ? '' : t('Dropped: {parts}', { parts: parts.join(', ') });
}

/** A value in the chosen unit: about four digits, more for a place. @param {ProbeValue} v */
export function valueWords(v) {
  if (v.unit === 'flag') return v.value === 0 ? t('no') : t('yes');
  const { value, unit } = inUnits(v.value, v.unit);
  const size = Math.abs(value);
  const digits = v.channel === 'latitude' || v.channel === 'longitude' ? 4 : size >= 100 ? 0 : size >= 10 ? 1 : 2;
  return number(value, digits) + (unit.startsWith('°') ? unit : unitAfter(unit));
}

/** How a needed channel stands, and what it is for. @param {ProbeNeed} n */
export function needWords(n) {
  const state = { sent: t('sent'), derived: t('worked out here'), missing: t('missing') }[n.state];
  return n.for.length === 0
    ? t('{state}; nothing works without', { state })
    : t('{state}; for {checks}', { state, checks: n.for.map(told).join(', ') });
}

/**
 * The rows of the table: what is missing first, then every channel that came.
 * @param {Probe} p
 * @returns {{ channel: string, title: string, value: string, age: string, need: string, state: string }[]}
 */
export function rows(p) {
  const needs = new Map(p.needs.map((n) => [n.channel, n]));
  const missing = p.needs
    .filter((n) => n.state === 'missing')
    .map((n) => ({
      channel: n.channel,
      title: cardText(n.title),
      value: '',
      age: '',
      need: needWords(n),
      state: 'missing',
    }));
  const gone = new Set(missing.map((m) => m.channel));
  const there = p.values
    .filter((v) => !gone.has(v.channel))
    .map((v) => {
      const need = needs.get(v.channel);
      const bad = v.bad > 0 ? t('; {n} values out of range', { n: number(v.bad, 0) }) : '';
      return {
        channel: v.channel,
        title: cardText(v.title),
        value: valueWords(v),
        age: `${number(v.age, 1)}\u00a0s`,
        need: `${need ? needWords(need) : v.derived ? t('worked out here') : t('sent; not needed')}${bad}`,
        state: need ? need.state : 'extra',
      };
    });
  return [...missing, ...there];
}
