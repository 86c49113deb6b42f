// How many sheets stand beside each other on the desk, so that as many as possible are seen at once. Pure.

/** Sizes of a sheet, in rem: roomy has all its words, compact the most needed ones. */
export const sizes = {
  roomy: { wide: 12, tall: 17, least: 14 },
  compact: { wide: 8.75, tall: 9.5, least: 8.5 },
};

/** Between two sheets, rem. */
const gap = 0.75;

/** A sheet is no wider than this, rem. */
const widest = 24;

/**
 * @typedef {object} Fit
 * @property {'roomy' | 'compact'} size
 * @property {number} columns
 * @property {number} tall of a sheet, rem
 */

/**
 * The largest sheets of which all have room; where not even compact ones have, those that fit the width, and the
 * board scrolls.
 * @param {number} wide @param {number} tall of the board, rem @param {number} count of sheets @returns {Fit}
 */
export function fit(wide, tall, count) {
  for (const size of /** @type {const} */ (['roomy', 'compact'])) {
    const { wide: narrowest, least } = sizes[size];
    const most = Math.max(1, Math.floor((wide + gap) / (narrowest + gap)));
    const fewest = Math.max(1, Math.ceil((wide + gap) / (widest + gap)));
    for (let columns = Math.min(fewest, most); columns <= most; columns++) {
      const rows = Math.ceil(count / columns);
      const each = (tall + gap) / rows - gap;
      if (each >= least) return { size, columns, tall: Math.min(each, size === 'roomy' ? 22 : 15) };
    }
  }
  const columns = Math.max(1, Math.floor((wide + gap) / (sizes.compact.wide + gap)));
  return { size: 'compact', columns, tall: sizes.compact.tall };
}
