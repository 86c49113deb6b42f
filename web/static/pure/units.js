// The units a value is shown in: those of aviation as they come, or metric ones on choice.

/** @typedef {'aviation' | 'metric'} Units */

/**
 * Exact by definition: the international nautical mile is 1,852 m and the foot 0.3048 m (NIST Special Publication
 * 811, B.8).
 * @type {Record<string, { unit: string, factor: number, digits: number }>}
 */
const metric = {
  kt: { unit: 'km/h', factor: 1.852, digits: 0 },
  ft: { unit: 'm', factor: 0.3048, digits: 0 },
  fpm: { unit: 'm/s', factor: 0.3048 / 60, digits: 1 },
  'ft/min': { unit: 'm/s', factor: 0.3048 / 60, digits: 1 },
  NM: { unit: 'km', factor: 1.852, digits: 1 },
};

/** @type {Units} */ let chosen = 'aviation';

/** @param {Units} units */
export function setUnits(units) {
  chosen = units;
}

/** @returns {Units} */
export function units() {
  return chosen;
}

/** A share is read in percent. */
const percent = { unit: '%', factor: 100, digits: 0 };

/**
 * A value in the chosen unit.
 * @param {number} value @param {string} unit as the server sends it
 * @returns {{ value: number, unit: string, digits: number | null }} digits to read it with; null where nothing
 * was converted
 */
export function inUnits(value, unit) {
  const to = unit === 'ratio' ? percent : chosen === 'metric' ? metric[unit] : undefined;
  return to ? { value: value * to.factor, unit: to.unit, digits: to.digits } : { value, unit, digits: null };
}

/** The chosen unit for one as the server sends it. @param {string} unit */
export function unitOf(unit) {
  return inUnits(0, unit).unit;
}

/**
 * Round numbers along a lane in the chosen unit; `at` is where they stand, in the unit as sent.
 * @param {readonly number[]} ticks as sent @param {string} unit as sent
 * @returns {{ unit: string, ticks: { at: number, value: number }[] }} value is in the chosen unit
 */
export function laneTicks(ticks, unit) {
  const one = inUnits(1, unit);
  const [low, high] = [Math.min(...ticks), Math.max(...ticks)];
  if (one.unit === unit || ticks.length < 2 || high <= low) {
    return { unit: one.unit, ticks: ticks.map((at) => ({ at, value: at * one.value })) };
  }
  const ten = 10 ** Math.floor(Math.log10((high - low) * one.value));
  const steps = [10, 5, 2.5, 2, 1, 0.5].map((k) => k * ten);
  /** @type {{ at: number, value: number }[]} */ let out = [];
  for (const step of steps) { // the widest that rules the lane twice
    out = [];
    for (let n = Math.ceil((low * one.value) / step - 1e-9) || 0; n * step <= high * one.value + 1e-9; n++) {
      out.push({ at: (n * step) / one.value, value: n * step });
    }
    if (out.length >= 2) break;
  }
  return { unit: one.unit, ticks: out };
}
