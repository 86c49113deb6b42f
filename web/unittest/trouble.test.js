// What is wrong now, and the room that is left.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { margin } from '../static/pure/margin.js';
import { empty } from '../static/pure/store.js';
import { asked, outside, sideFor, trouble, untilWords, wayBack } from '../static/pure/trouble.js';

/** @import { Callout, Lane, LaneChannel, Plan } from '../static/types.d.ts' */

/** @param {LaneChannel} channel @param {number} low @param {number} high @returns {Lane} */
const lane = (channel, low, high) => ({
  channel, title: channel, unit: '', low: 0, high: 200, ticks: [],
  corridor: [0, 90, 180].map((turn) => ({ turn, low: low + turn / 9, aim: (low + high) / 2, high: high + turn / 9 })),
});

const plan = /** @type {Plan} */ ({ maneuver: 'm', turn: 180, lanes: [lane('bank', 10, 30), lane('pitch', 0, 5)] });

/** @param {number} bank @param {number} pitch */
const now = (bank, pitch) => ({
  turn: 45, time: 0, bank, pitch, airspeed: null, height: null, along: null, across: null,
});

/** @param {string} id @param {string} [words] @returns {Callout} */
const safety = (id, words = '') => ({ time: 0, kind: 'safety', id, words, tone: 'safety', turn: 45 });

test('a value is held against the corridor of its own turn angle', () => {
  const bank = lane('bank', 10, 30);
  assert.equal(outside(bank, 45, 35), null);
  assert.deepEqual(outside(bank, 45, 36), { side: 'high', by: 1, low: 15, high: 35 });
  assert.deepEqual(outside(bank, 45, 13), { side: 'low', by: 2, low: 15, high: 35 });
  assert.equal(outside(bank, 45, null), null);
  assert.equal(outside({ ...bank, corridor: [] }, 45, 90), null);
});

test('one lane is named: that of the safety words, else the farthest out in widths of its corridor', () => {
  const state = empty(0);
  assert.equal(trouble(state, plan, now(20, 7), true).named, '');
  const both = trouble(state, plan, now(40, 20), true); // a quarter of a width, two widths
  assert.deepEqual([both.named, both.side, both.out.size], ['pitch', 'high', 2]);
  const named = trouble({ ...state, safety: [safety('bank-limit')] }, plan, now(40, 20), true);
  assert.deepEqual([named.named, named.side], ['bank', 'high']);
  assert.equal(trouble({ ...state, safety: [safety('load')] }, plan, now(40, 20), true).named, '', 'no lane is a load');
  assert.equal(trouble(state, plan, now(40, 20), false).named, '', 'of which maneuver is not known');
});

test('the arrow goes the way the stick goes', () => {
  const frame = /** @type {any} */ ({ state: 'leg', direction: 'right', values: { bank: 60 } });
  assert.equal(wayBack(safety('bank-limit', 'Less bank'), frame), 'left');
  assert.equal(wayBack(safety('bank-limit', 'Less bank'), { ...frame, direction: 'left' }), 'right');
  assert.equal(wayBack(safety('stall', 'Push, unload'), frame), 'down');
  assert.equal(wayBack(safety('hard-deck', 'Hard deck! Nose up'), frame), 'up');
  assert.equal(wayBack(safety('never-exceed', 'Too fast! Power back'), frame), '', 'a lever has no arrow');
  assert.equal(wayBack(safety('bank-limit', 'Less bank'), null), '');
});

test('every way back is one the coach says, and every limit has an end in words', () => {
  const golden = JSON.parse(readFileSync(new URL('../testdata/texts.json', import.meta.url), 'utf8'));
  assert.deepEqual(Object.keys(asked).filter((words) => !golden.said.includes(words)), []);
  const words = ['bank-limit', 'stall', 'hard-deck', 'load', 'never-exceed'].map(untilWords);
  assert.equal(new Set(words).size, 5);
  assert.equal(words.includes(untilWords('another')), false);
});

/** A trace that loses so much of its margin each second. @param {number} from @param {number} rate */
const falling = (from, rate) =>
  [...Array(31).keys()].map((i) => (
    { ...now(0, 0), turn: i * 3, time: i / 3, stall: from - (rate * i) / 3, deck: 4000 }
  ));

test('a margin tells what it was at the entry and at the first post, and whether it closes', () => {
  const trace = falling(46, 2);
  const is = margin('stall', 26, trace, 10, 45);
  assert.deepEqual(is?.stood, [{ turn: 0, value: 46 }, { turn: 45, value: 36 }]);
  assert.equal(is?.trend, 'closing');
  assert.equal(is?.large, false, 'thirteen seconds are left');
  assert.ok(is.full > 46 && is.full < 50);
  assert.equal(margin('stall', 9, trace, 10, 45)?.large, true, 'low');
  assert.equal(margin('deck', 4000, trace, 10, 45)?.trend, '');
  assert.equal(margin('stall', null, trace, 10, 45), null);
});

test('a margin that will soon be gone is large before it is low', () => {
  const is = margin('stall', 40 - 2.5 * 10, falling(40, 2.5), 10, 45);
  assert.deepEqual([is?.now, is?.trend, is?.large], [15, 'closing', true]);
});

test('the words beside the pen stand where they have room', () => {
  const phone = { left: 58, right: 270, top: 0, bottom: 100 };
  const desk = { left: 120, right: 700, top: 0, bottom: 100 };
  for (const [words, pen, box, side] of [
    ['21° too steep', 390, desk, 'right'],
    ['21° too steep', 450, desk, 'left'],
    ['21° too steep', 180, desk, 'right'],
    ['27° too high', 150, phone, 'right'],
    ['27° demasiado alto', 150, phone, ''], // it would lie under the value
    ['27° demasiado alto', 265, phone, 'left'],
  ]) {
    assert.equal(sideFor(words, pen, box, 1), side, `${words} at ${pen}`);
  }
  assert.equal(sideFor('21° too steep', 900, { ...desk, left: 240, right: 1400 }, 2), 'left', 'drawn twice as large');
  assert.equal(sideFor('35 kt too slow', 150, phone, 1, false), '', 'it would leave the screen');
});
