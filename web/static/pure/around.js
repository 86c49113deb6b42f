// The point on the ground that a leg is flown about, in words and as figures. Pure.
//
// The pylon ahead of the line of the wing: too high, descend; behind it: climb (FAA-H-8083-3C p. 7-16 and 7-17).
// Steeper downwind, flatter upwind (p. 10-4).

/** @import { About, Around, Frame } from '../types.d.ts' */

import { bearing, number, withUnit, wrap180 } from './format.js';
import { t } from './text.js';

/**
 * Within this, °, a pylon is on the wing now, and within this, %, the distance is held now. The bands of the cards are
 * wider: they are of the whole turn.
 */
const onWing = 2;
const held = 3;

/** From here on, ft, a point that was found is about where it is shown, and no more. */
const about = 100;

/**
 * How far off a point may be that was found from the flight; '' where it was chosen, and where that is not known.
 * @param {Pick<About, 'chosen' | 'within'> | Pick<Around, 'chosen' | 'within'> | undefined} point
 */
export function foundWords(point) {
  if (!point || point.chosen || point.within == null) return '';
  const by = withUnit(point.within, 'ft');
  if (isAbout(point)) return t('point found from the flight: about here, plus or minus {by}', { by });
  return t('point found from the flight, within {by}', { by });
}

/** Whether a point is only about where it is shown. @param {Pick<Around, 'chosen' | 'within'>} point */
export function isAbout({ chosen, within }) {
  return !chosen && within != null && within > about;
}

/** Whether a pylon may as well be on the wing: the angle is less than how far off it may be. @param {Around} around */
function unsure({ ahead, distance, within }) {
  if (ahead == null || !distance || within == null) return false;
  return isAbout({ within }) && Math.abs(ahead) < (Math.atan(within / distance) * 180) / Math.PI;
}

/** What is to be seen first. @param {Around} around */
export function aroundWords(around) {
  const { what, bearing: at, ahead, above, off, distance } = around;
  if (what === 'pylon') {
    if (ahead == null) return t('Put the pylon on the wing.');
    if (unsure(around)) return t('Pylon near the wing: its place is not sure yet.');
    if (Math.abs(ahead) < onWing) return t('Pylon on the wing.');
    const angle = number(Math.abs(ahead));
    // what to do only where the height agrees: a pylon that is on its way back needs nothing
    if (ahead > 0 && above != null && above > 0) return t('Pylon {angle}° ahead: descend.', { angle });
    if (ahead < 0 && above != null && above < 0) return t('Pylon {angle}° behind: climb.', { angle });
    return ahead > 0 ? t('Pylon {angle}° ahead.', { angle }) : t('Pylon {angle}° behind.', { angle });
  }
  if (at == null || distance == null) return t('No point yet: hold the distance.');
  const far = withUnit(10 * Math.round(distance / 10), 'ft');
  if (off == null) return t('Point {far} away, {where}.', { far, where: bearing(at) });
  if (Math.abs(off) < held) return t('{far} from the point: held.', { far });
  const by = `${number(Math.abs(off))}%`;
  const args = { far, by };
  return off > 0 ? t('{far} from the point: {by} too far.', args) : t('{far} from the point: {by} too near.', args);
}

/** What is wanted. @param {Around} around */
export function aroundWanted({ what, hold, pivotal, above }) {
  if (what === 'center') return hold ? t('{bank}° of bank hold the distance here.', { bank: number(hold.now) }) : '';
  if (pivotal == null) return '';
  const at = withUnit(pivotal, 'ft');
  if (above == null) return t('Pivotal altitude {at}.', { at });
  const by = withUnit(Math.abs(above), 'ft');
  if (above >= 0) return t('Pivotal altitude {at}: {by} over it.', { at, by });
  return t('Pivotal altitude {at}: {by} under it.', { at, by });
}

/**
 * Where the wind comes from, degrees off the nose, right positive; null where it is not known, or there is none.
 * @param {Pick<Frame, 'ground' | 'values'>} frame
 */
export function windSide({ ground, values }) {
  const heading = values?.['heading'];
  if (!ground?.wind || ground.wind.speed < 1 || heading === undefined) return null;
  return wrap180(ground.wind.from - heading);
}

/** The wind by the airplane's own sides. @param {Pick<Frame, 'ground' | 'values'>} frame */
export function windWords(frame) {
  const side = windSide(frame);
  if (side === null || !frame.ground?.wind) return '';
  return t('wind {where}, {speed}', { where: bearing(side), speed: withUnit(frame.ground.wind.speed, 'kt') });
}
