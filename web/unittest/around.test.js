// What a leg is flown about, in words.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { aroundWanted, aroundWords, foundWords, windSide, windWords } from '../static/pure/around.js';

/** @param {object} of @returns {import('../static/types.d.ts').Around} */
const around = (of) => ({
  what: 'center', bearing: null, distance: null, radius: null, off: null, hold: null, ahead: null, pivotal: null,
  above: null, ...of,
});

// FAA-H-8083-3C p. 7-16 and 7-17: too high, the pylon moves ahead, descend; too low, it falls behind, climb.
test('a pylon off the wing says which way to go where the height agrees', () => {
  const pylon = (/** @type {number} */ ahead, /** @type {number} */ above) =>
    aroundWords(around({ what: 'pylon', ahead, above }));
  assert.equal(pylon(5, 80), 'Pylon 5° ahead: descend.');
  assert.equal(pylon(-5, -80), 'Pylon 5° behind: climb.');
  assert.equal(pylon(5, -80), 'Pylon 5° ahead.'); // on its way back
  assert.equal(pylon(-5, 80), 'Pylon 5° behind.');
  assert.equal(pylon(1, 80), 'Pylon on the wing.');
  assert.equal(aroundWords(around({ what: 'pylon' })), 'Put the pylon on the wing.');
});

test('the distance from a point, and the bank that holds it', () => {
  const at = { bearing: 90, distance: 648 };
  assert.equal(aroundWords(around({})), 'No point yet: hold the distance.');
  assert.match(aroundWords(around(at)), /^Point 650.ft away, on the right wing\.$/);
  assert.match(aroundWords(around({ ...at, off: 12.4 })), /650.ft from the point: 12% too far\./);
  assert.match(aroundWords(around({ ...at, off: -12.4 })), /12% too near/);
  assert.match(aroundWords(around({ ...at, off: 1 })), /held/);
  assert.equal(aroundWanted(around({ hold: { now: 44.6, ahead: null } })), '45° of bank hold the distance here.');
  assert.match(aroundWanted(around({ what: 'pylon', pivotal: 885, above: -40 })), /885.ft: 40.ft under it\.$/);
});

test('the wind by the side it comes from', () => {
  const frame = /** @type {any} */ ({ ground: { wind: { from: 40, speed: 12 } }, values: { heading: 130 } });
  assert.equal(windSide(frame), -90);
  assert.match(windWords(frame), /^wind on the left wing, 12.kt$/);
  assert.equal(windSide({ ...frame, ground: { wind: { from: 40, speed: 0.5 } } }), null);
  assert.equal(windWords({ ...frame, ground: null }), '');
});

test('a point that was found says how far off it may be', () => {
  assert.equal(foundWords(undefined), '');
  assert.equal(foundWords({ chosen: true, within: 120 }), '');
  assert.equal(foundWords({}), '');
  assert.match(foundWords({ within: 66 }), /^point found from the flight, within 66.ft$/);
  assert.match(foundWords({ within: 125 }), /about here, plus or minus 125.ft$/);
});

// Seen from 1,000 ft, 200 ft are 11°: a pylon that is less than that ahead may as well be on the wing.
test('a pylon whose place is not sure is not said to be ahead or behind', () => {
  const pylon = (/** @type {number} */ ahead, /** @type {number} */ within) =>
    aroundWords(around({ what: 'pylon', ahead, above: 80, distance: 1000, within }));
  assert.equal(pylon(5, 200), 'Pylon near the wing: its place is not sure yet.');
  assert.equal(pylon(12, 200), 'Pylon 12° ahead: descend.');
  assert.equal(pylon(5, 90), 'Pylon 5° ahead: descend.');
});
