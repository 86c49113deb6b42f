// Which station comes first on the desk, and when a sheet may move. Pure.

/** @import { Tile, Urgency } from '../desk.d.ts' */

/** From the one that comes first. @type {readonly Urgency[]} */
export const urgencies = ['trouble', 'maneuver', 'set-up', 'waiting'];

/** Seats in the order people count: seat 2 before seat 10. */
const seats = new Intl.Collator('en', { numeric: true });

/** How urgent a station is now. @param {Tile} tile @returns {Urgency} */
export function urgency(tile) {
  const { info, stage } = tile;
  if (info?.link !== 'live' || stage === null) return 'waiting';
  if (tile.safety.length > 0) return 'trouble';
  return inLeg(tile) ? 'maneuver' : 'set-up';
}

/** @param {Tile} tile */
function inLeg(tile) {
  return tile.stage?.state === 'leg' || tile.stage?.awaited === true;
}

/**
 * The rank a sheet stands in: it moves between legs, and into trouble at once; one whose trouble is over stays
 * where it is until its leg is.
 * @param {Urgency | undefined} stood the rank it stood in, undefined for a new one
 * @param {Tile} tile
 * @returns {Urgency}
 */
export function standing(stood, tile) {
  const now = urgency(tile);
  return stood === 'trouble' && now === 'maneuver' ? 'trouble' : now;
}

/**
 * The stations in the order of their sheets: by rank, and within one by seat.
 * @param {readonly string[]} names
 * @param {ReadonlyMap<string, Urgency>} ranks
 */
export function ordered(names, ranks) {
  const rank = (/** @type {string} */ name) => urgencies.indexOf(ranks.get(name) ?? 'waiting');
  return [...names].sort((a, b) => rank(a) - rank(b) || seats.compare(a, b));
}

/** How many stations there are of each rank. @param {Iterable<Tile>} tiles @returns {Record<Urgency, number>} */
export function counted(tiles) {
  const counts = { trouble: 0, maneuver: 0, 'set-up': 0, waiting: 0 };
  for (const tile of tiles) counts[urgency(tile)]++;
  return counts;
}
