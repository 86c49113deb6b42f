// The ground line, the reference point, drift and wind in words. Pure.

/** @import { Frame, Line } from '../types.d.ts' */

import { number, withUnit, wrap180 } from './format.js';
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

/**
 * Where the reference point should stand now, degrees off the nose, right positive: from where it should at the next
 * checkpoint, back by the turn that is still to come. A point abeam at the entry stands halfway between wing and
 * nose at 45°, on the nose at 90° and off the other wing at 180° (Airplane Flying Handbook, chapter 10, the lazy
 * eight). null without a checkpoint.
 * @param {Pick<Frame, 'next' | 'turn' | 'direction'>} frame
 */
export function due({ next, turn, direction }) {
  if (!next) return null;
  const left = next.turn - turn;
  return wrap180(next.point + (direction === 'left' ? -left : left));
}

/**
 * The point by what it is known, drift and wind, in words.
 * @param {Pick<Frame, 'pointBy' | 'pointDistance' | 'ground'>} frame
 */
export function groundWords({ pointBy, pointDistance, ground }) {
  const parts = [];
  if (pointDistance !== null)
    parts.push(t('{distance} away, by position', { distance: withUnit(pointDistance, 'NM', 1) }));
  else if (pointBy === 'position') parts.push(t('by position'));
  else if (pointBy === 'heading') parts.push(t('by the heading alone'));
  const drift = ground?.drift ?? null;
  if (drift !== null) parts.push(driftWords(drift));
  if (ground?.wind) {
    parts.push(
      ground.wind.speed < 1
        ? t('no wind')
        : t('wind from {course}, {speed}', {
            course: course(ground.wind.from),
            speed: withUnit(ground.wind.speed, 'kt'),
          }),
    );
  }
  return parts.join(' · ');
}

/** @param {number} drift degrees of the track from the heading, right positive */
function driftWords(drift) {
  const angle = number(Math.abs(drift));
  if (angle === '0') return t('no drift');
  return t(drift < 0 ? 'drift {angle}° left' : 'drift {angle}° right', { angle });
}
