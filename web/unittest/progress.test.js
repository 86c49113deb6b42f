// How a student is doing: the slope of the published estimator, and the rule in words.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { byMovement, moved, progressOf, slope, standings } from '../static/pure/progress.js';

/** A check met on some of ten legs, session by session. @returns {import('../static/sessions.d.ts').TrendCheck} */
const check = (/** @type {string} */ id, /** @type {number[]} */ met) => ({
  id, label: id, unit: '°', aim: null, met: [null, null], near: [null, null],
  points: met.map((n, i) => ({
    session: `s${i}`, began: `2031-05-${String(i + 1).padStart(2, '0')}T10:00:00Z`, legs: 10, met: n,
    low: 0, q1: 0, median: 0, q3: 0, high: 0,
  })),
});

/** @returns {import('../static/sessions.d.ts').Trend} */
const trend = (/** @type {import('../static/sessions.d.ts').TrendCheck[]} */ ...checks) => ({
  version: 1, maneuver: { name: 'wing-over', title: 'Wing-over' }, sessions: 9, legs: 90, checks,
  streak: { now: 0, best: 0, session: '' }, things: [],
});

// M. Hollander, D. A. Wolfe, Nonparametric Statistical Methods: the estimator is the median of all n(n−1)/2 slopes.
// For 1, 2, 4, 3 these are 1, 3/2, 2, 2/3, 1/2 and −1: the median is (2/3 + 1) / 2.
test('the slope is the median of all slopes', () => {
  assert.ok(Math.abs(slope([1, 2, 4, 3]) - 5 / 6) < 1e-12);
  assert.equal(slope([3]), 0);
  assert.equal(slope([]), 0);
});

test('one odd session does not turn the line', () => {
  assert.ok(slope([1, 2, 3, 4, -50, 6, 7, 8]) > 0.9);
  assert.ok(moved([0, 9, 9, 1, 2, 3, 4, 5, 6, 7, 8]) > 6, 'the latest eight count');
});

test('the share is of all checks of a session', () => {
  const all = standings(trend(check('a', [10, 5]), check('b', [0, 5])));
  assert.deepEqual(all.map((s) => [s.session, s.share]), [['s0', 0.5], ['s1', 0.5]]);
});

for (const [word, checks, stuck] of /** @type {const} */ ([
  ['few', [[5, 9]], null],
  ['steadier', [[2, 3, 5, 7, 9]], null],
  ['less', [[9, 9, 8, 6, 6]], null],
  ['same', [[8, 7, 8, 7, 8]], null],
  ['stuck', [[9, 9, 9, 9, 9], [2, 3, 2, 3, 2], [4, 4, 4, 4, 4]], 'c1'],
  ['same', [[9, 9, 9, 9, 9], [2, 3, 2, 5, 2]], null], // half of the legs met it once
  ['steadier', [[1, 4, 6, 9, 10], [1, 1, 1, 1, 1]], null], // what rises is not stuck
])) {
  test(`in words: ${word}, ${JSON.stringify(checks)}`, () => {
    const is = progressOf(trend(...checks.map((met, i) => check(`c${i}`, [...met]))));
    assert.deepEqual([is.word, is.check?.id ?? null], [word, stuck]);
  });
}

test('the checks that move come first', () => {
  const still = check('still', [5, 5, 5, 5]);
  const rises = check('rises', [5, 6, 6, 7]);
  const falls = check('falls', [9, 7, 5, 3]);
  const short = check('short', [0, 10]);
  assert.deepEqual(byMovement([still, rises, falls, short]), { moving: [falls, rises], still: [still, short] });
});
