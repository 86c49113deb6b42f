// The link as a row of ticks, one for each half second: short where data was lost. Pure.

/** The height of a tick from the share of the data that came, 0 to 1. Nothing at all is still a dot. */
const least = 0.15;

/**
 * The ticks as bars: heights from 0 to 1; null where nobody looked.
 * @param {string} ticks as the server writes them
 * @returns {(number | null)[]}
 */
export function bars(ticks) {
  return [...ticks].map((c) => (c >= '0' && c <= '9' ? Math.max(least, Number(c) / 9) : null));
}

/**
 * How many of the ticks that were looked at are short.
 * @param {string} ticks
 */
export function short(ticks) {
  return [...ticks].filter((c) => c >= '0' && c < '9').length;
}
