// What holds the set-up back, as an order. Pure.

/** @import { Gate, Phrase } from '../types.d.ts' */

import { digitsOf, number, withUnit } from './format.js';
import { told } from './phrase.js';
import { t } from './text.js';
import { inUnits } from './units.js';

/** In this order the gates are named, as the coach says them: what takes longest to mend first. */
const first = ['hard-deck', 'wings-level', 'height-held', 'entry-speed', 'ball', 'on-the-line'];

/**
 * The gate that holds the set-up back; null when none that is measured does.
 * @param {readonly Gate[]} gates
 */
export function holding(gates) {
  const shut = gates.filter((g) => !g.ok && !g.optional);
  for (const id of first) {
    const gate = shut.find((g) => g.id === id && g.value !== null);
    if (gate) return gate;
  }
  return shut[0] ?? null;
}

/** A number among the arguments of a phrase. @param {Phrase} phrase @param {string} name @returns {number | null} */
function numberIn(phrase, name) {
  const arg = typeof phrase === 'string' ? undefined : phrase.args?.[name];
  return typeof arg === 'object' && 'value' in arg ? arg.value : null;
}

/** What to do about a gate: "Slow down: 147, want 130 kt". @param {Gate} gate */
export function order(gate) {
  const { value, unit } = gate;
  if (value === null) return `${told(gate.label)}: ${told(gate.want)}`;
  const is = withUnit(value, unit, digitsOf(unit));
  switch (gate.id) {
    case 'hard-deck': return t('Climb: {value}, want {want}', { value: is, want: told(gate.want) });
    case 'wings-level': return t('Level the wings: {value}', { value: withUnit(Math.abs(value), unit) });
    case 'height-held':
      return t(value > 0 ? 'Stop the climb: {value}' : 'Stop the descent: {value}', {
        value: withUnit(Math.abs(value), unit, digitsOf(unit)),
      });
    case 'entry-speed': {
      const want = numberIn(gate.want, 'speed');
      if (want === null) return t('Hold the speed steady: {want}', { want: told(gate.want) });
      return t(value > want ? 'Slow down: {value}, want {want}' : 'Speed up: {value}, want {want}', {
        value: number(inUnits(value, unit).value),
        want: withUnit(want, unit),
      });
    }
    case 'ball': return t('Center the ball: {value}', { value: is });
    case 'on-the-line': return t('Turn onto the line: {value} off', { value: withUnit(Math.abs(value), unit) });
    default: return `${told(gate.label)}: ${told(gate.want)}`;
  }
}

/**
 * Whether a set-up is ready, in words.
 * @param {readonly Gate[]} gates @param {boolean} ready
 */
export function readyWords(gates, ready) {
  if (gates.length === 0) return '';
  if (!ready) return t('Not ready');
  const speed = gates.find((g) => g.id === 'entry-speed');
  return speed && speed.value === null ? t('Ready, speed not known') : t('Ready');
}
