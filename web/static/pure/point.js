// The ground line, the reference point, drift and wind in words. Pure.

/** @import { Line } from '../types.d.ts' */

import { withUnit } from './format.js';
import { t } from './text.js';

/** A heading or a track as it is said, "005°", north being 360. @param {number} degrees */
export function course(degrees) {
  const whole = ((Math.round(degrees) % 360) + 360) % 360;
  return `${String(whole === 0 ? 360 : whole).padStart(3, '0')}°`;
}

/** @param {Line | null} line */
export function lineWords(line) {
  if (!line) return t('None chosen: the turn counts from the heading it begins on.');
  const point = {
    right: t('point off the right wing'), left: t('point off the left wing'), '': t('point on the side of the turn'),
  }[line.side];
  const far = line.distance === null ? '' : `, ${withUnit(line.distance, 'NM', line.distance % 1 === 0 ? 0 : 1)}`;
  return t('Along {course}, {point}', { course: course(line.heading), point: point + far });
}
