// What a check found, in words. Pure.

/** @import { Check } from '../types.d.ts' */

import { digitsOf, fromTo, withUnit } from './format.js';
import { told } from './phrase.js';
import { t } from './text.js';

/** What was flown and what was wanted, "58°, wanted 75° (65 to 85°)". @param {Check} check */
export function checkNumbers(check) {
  if (check.value === null) return check.reason ? told(check.reason) : t('not measured');
  const digits = digitsOf(check.unit);
  const is = withUnit(check.value, check.unit, digits);
  const want = wanted(check, digits);
  return want === '' ? is : t('{is}, wanted {want}', { is, want });
}

/** The aim with the band about it, or the band. @param {Check} check @param {number} digits */
function wanted(check, digits) {
  const within = bandWords(check.met, check.unit, digits);
  if (check.aim === undefined || check.met[0] === check.met[1]) return within;
  const [low, high] = check.met;
  if (check.aim === low && high !== null) return t('at most {value}', { value: withUnit(high, check.unit, digits) });
  if (check.aim === high && low !== null) return t('at least {value}', { value: withUnit(low, check.unit, digits) });
  return t('{aim} ({band})', { aim: withUnit(check.aim, check.unit, digits), band: within });
}

/** @param {Check['met']} band @param {string} unit @param {number} digits */
export function bandWords([low, high], unit, digits) {
  if (low !== null && high !== null && low !== high) return fromTo(low, high, unit, digits);
  if (low !== null && high !== null) return withUnit(low, unit, digits);
  if (low !== null) return t('at least {value}', { value: withUnit(low, unit, digits) });
  if (high !== null) return t('at most {value}', { value: withUnit(high, unit, digits) });
  return '';
}
