// What a check found, in words. Pure.

/** @import { Check } from '../types.d.ts' */

import { digitsOf, fromTo, withUnit } from './format.js';
import { told } from './phrase.js';
import { t } from './text.js';

/** What was flown and what was wanted, "58°, wanted 75°". @param {Check} check */
export function checkNumbers(check) {
  if (check.value === null) return check.reason ? told(check.reason) : t('not measured');
  const digits = digitsOf(check.unit);
  const is = withUnit(check.value, check.unit, digits);
  const want = wanted(check, digits);
  return want === '' ? is : t('{is}, wanted {want}', { is, want });
}

/** @param {Check} check @param {number} digits */
function wanted(check, digits) {
  if (check.aim !== undefined) return withUnit(check.aim, check.unit, digits);
  const [low, high] = check.met;
  if (low !== null && high !== null) return fromTo(low, high, check.unit, digits);
  if (low !== null) return t('at least {value}', { value: withUnit(low, check.unit, digits) });
  if (high !== null) return t('at most {value}', { value: withUnit(high, check.unit, digits) });
  return '';
}
