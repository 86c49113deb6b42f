// The reference path from above and from the side, and what a sheet knows. Pure.

/** @import { BriefNumber, BriefPoint, BriefSheet, Plan, Station } from '../types.d.ts' */

/**
 * @typedef {{ x: number, y: number }} Place
 * @typedef {{ w: number, h: number, left: number, right: number, edge: number }} Size left, right and edge (above
 *   and below) stay free for writing
 * @typedef {{ to: (a: number, b: number) => Place, scale: number, tall: number }} Fit scale is pixels a foot
 *   across, tall how many times height is drawn
 */

/** Height that varies less, ft, is held: there is nothing to see from the side. */
const held = 20;

/** The path's point nearest to a turn angle. @param {readonly BriefPoint[]} path @param {number} turn */
export function at(path, turn) {
  return path.reduce((best, p) => (Math.abs(p.turn - turn) < Math.abs(best.turn - turn) ? p : best));
}

/** Whether the path stays at its height. @param {readonly BriefPoint[]} path */
export function level(path) {
  const heights = path.map((p) => p.height);
  return Math.max(...heights) - Math.min(...heights) < held;
}

/**
 * From above: along goes up, across to the right, one scale both ways.
 * @param {readonly BriefPoint[]} path @param {Size} size @returns {Fit}
 */
export function fromAbove(path, size) {
  const [low, high] = range(path.map((p) => p.along));
  const [left, right] = range(path.map((p) => p.across));
  const scale = Math.min(
    (size.w - size.left - size.right) / Math.max(1, right - left),
    (size.h - 2 * size.edge) / Math.max(1, high - low),
  );
  return {
    scale,
    tall: 1,
    to: (along, across) => ({
      x: (size.w + size.left - size.right) / 2 + (across - (left + right) / 2) * scale,
      y: size.h / 2 - (along - (low + high) / 2) * scale,
    }),
  };
}

/**
 * From the side: along goes to the right, height up, drawn taller by a whole factor where that lets it be seen.
 * @param {readonly BriefPoint[]} path @param {Size} size @returns {Fit}
 */
export function fromTheSide(path, size) {
  const [low, high] = range(path.map((p) => p.height));
  const [left, right] = range(path.map((p) => p.along));
  const scale = Math.min(
    (size.w - size.left - size.right) / Math.max(1, right - left),
    (size.h - 2 * size.edge) / Math.max(1, high - low),
  );
  const tall = Math.max(1, Math.min(5, Math.floor((size.h - 2 * size.edge) / (Math.max(1, high - low) * scale))));
  return {
    scale,
    tall,
    to: (along, height) => ({
      x: (size.w + size.left - size.right) / 2 + (along - (left + right) / 2) * scale,
      y: size.h / 2 - (height - (low + high) / 2) * scale * tall,
    }),
  };
}

/** @param {number[]} values @returns {[number, number]} */
function range(values) {
  return [Math.min(0, ...values), Math.max(0, ...values)];
}

/**
 * Where a label stands from its place.
 * @typedef {{ x: number, y: number, anchor: 'start' | 'middle' | 'end' }} Beside
 */
/** @typedef {{ left: number, right: number, top: number, bottom: number }} Room */

/**
 * What a label of the drawings' size takes up.
 * @param {string} words
 * @param {Place} place
 * @param {Beside} by
 * @returns {Room}
 */
export function room(words, place, by) {
  const width = words.length * 6.6 + 2; // of 13 px
  const left = place.x + by.x - (by.anchor === 'end' ? width : by.anchor === 'middle' ? width / 2 : 0);
  return { left, right: left + width, top: place.y + by.y - 12, bottom: place.y + by.y + 4 };
}

/**
 * Of the places a label may have, the first of those that cover least of what is drawn.
 * @param {readonly [Beside, ...Beside[]]} places @param {string} words @param {Place} place
 * @param {readonly Place[]} drawn points of the lines @param {readonly Room[]} taken by other labels
 */
export function clearest(places, words, place, drawn, taken) {
  let [best] = places;
  let least = Infinity;
  for (const by of places) {
    const box = room(words, place, by);
    const covers =
      drawn.filter((p) => p.x > box.left && p.x < box.right && p.y > box.top && p.y < box.bottom).length +
      100 *
        taken.filter((o) => o.left < box.right && o.right > box.left && o.top < box.bottom && o.bottom > box.top)
          .length;
    if (covers < least) [best, least] = [by, covers];
  }
  return best;
}

/** @param {readonly Place[]} places */
export function line(places) {
  return places.map((p, i) => `${i === 0 ? 'M' : 'L'}${p.x.toFixed(1)} ${p.y.toFixed(1)}`).join('');
}

/**
 * A round length for a scale bar.
 * @param {number} scale pixels a foot
 * @param {number} most pixels
 * @param {number} unit ft
 */
export function ruler(scale, most, unit) {
  const lengths = [50, 100, 200, 250, 500, 1000, 2000, 2500, 5000, 10000];
  const value = lengths.findLast((v) => v * unit * scale <= most) ?? 50;
  return { value, length: value * unit * scale };
}

/** The sheet's numbers: those known, and the labels of those that are not. @param {BriefSheet} sheet */
export function numbers(sheet) {
  const given = (/** @type {BriefNumber} */ n) => n.value !== null || n.words !== '';
  return { known: sheet.numbers.filter(given), unknown: sheet.numbers.filter((n) => !given(n)).map((n) => n.label) };
}

/**
 * The address of a brief, after the ?.
 * @param {{ maneuver: string, standard: string, aircraft: string, station?: string }} of
 */
export function query(of) {
  const q = new URLSearchParams({ maneuver: of.maneuver });
  if (of.standard !== '') q.set('standard', of.standard);
  if (of.aircraft !== '') q.set('aircraft', of.aircraft);
  if (of.station) q.set('station', of.station);
  return q.toString();
}

/**
 * The address of the brief of what a station flies, after the ?; "" when it flies nothing yet.
 * @param {{ plan: Plan | null, info: Station | null, station: string }} state
 */
export function briefOf({ plan, info, station }) {
  return plan === null
    ? ''
    : query({ maneuver: plan.maneuver, standard: plan.standard, aircraft: info?.aircraft ?? '', station });
}
