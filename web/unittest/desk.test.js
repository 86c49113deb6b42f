// The order of the desk, the ticks of the link, how many sheets fit.

import assert from 'node:assert/strict';
import test from 'node:test';
import { fit, sizes } from '../static/pure/fit.js';
import { bars, short } from '../static/pure/ticks.js';
import { counted, ordered, standing, urgencies, urgency } from '../static/pure/urgency.js';

const tile = (state, { link = 'live', safety = [], awaited = false } = {}) => ({
  info: { link }, safety, stage: state === null ? null : { state, awaited },
});
const limit = [{ id: 'stall' }];

test('trouble comes first, then a maneuver, then setting up, then who waits', () => {
  for (const [is, want] of [
    [tile('leg', { safety: limit }), 'trouble'],
    [tile('set-up', { safety: limit }), 'trouble'],
    [tile('leg'), 'maneuver'],
    [tile('after', { awaited: true }), 'maneuver'],
    [tile('turn'), 'set-up'],
    [tile('set-up'), 'set-up'],
    [tile('after'), 'set-up'],
    [tile(null), 'waiting'],
    [tile('leg', { link: 'silent', safety: limit }), 'waiting'],
    [tile('leg', { link: 'paused' }), 'waiting'],
    [{ info: null, safety: [], stage: null }, 'waiting'],
  ]) assert.equal(urgency(is), want, JSON.stringify(is));
});

test('a sheet moves into trouble at once, and out of it when its leg is over', () => {
  const flight = [
    [tile('set-up'), 'set-up'], [tile('turn'), 'set-up'], [tile('leg'), 'maneuver'],
    [tile('leg', { safety: limit }), 'trouble'], [tile('leg'), 'trouble'], [tile('leg', { safety: limit }), 'trouble'],
    [tile('after', { awaited: true }), 'trouble'], [tile('after'), 'set-up'], [tile('leg'), 'maneuver'],
    [tile('leg', { link: 'silent' }), 'waiting'],
  ];
  let stood;
  for (const [now, want] of flight) assert.equal((stood = standing(stood, now)), want);
});

test('within a rank the sheets stand by seat, as people count', () => {
  const ranks = new Map(
    [['seat 10', 'maneuver'], ['seat 2', 'maneuver'], ['seat 1', 'waiting'], ['seat 3', 'trouble']]);
  const want = ['seat 3', 'seat 2', 'seat 10', 'seat 1', 'unknown'];
  assert.deepEqual(ordered(['unknown', ...ranks.keys()], ranks), want);
  assert.deepEqual(ordered([...want].reverse(), ranks), want, 'whatever the order they came in');
});

test('all stations are counted, each once', () => {
  const counts = counted([tile('leg'), tile('leg'), tile('set-up'), tile('leg', { safety: limit }), tile(null)]);
  assert.deepEqual(counts, { trouble: 1, maneuver: 2, 'set-up': 1, waiting: 1 });
  assert.deepEqual(Object.keys(counts).sort(), [...urgencies].sort());
});

test('a tick is short where data was lost, and missing where nobody looked', () => {
  assert.deepEqual(bars('-990'), [null, 1, 1, 0.15]);
  assert.ok(bars('3')[0] < bars('6')[0] && bars('6')[0] < 1);
  assert.deepEqual([short('--99'), short('9905-9'), short('')], [0, 2, 0]);
});

test('as many sheets as there is room for are seen, roomy where they can be', () => {
  for (const [wide, tall, count, want] of [
    [76, 40, 1, 'roomy'], [76, 40, 8, 'roomy'], [76, 40, 30, 'compact'], [48, 40, 30, 'compact'],
    [24, 44, 8, 'compact'],
  ]) {
    const got = fit(wide, tall, count);
    const rows = Math.ceil(count / got.columns);
    assert.equal(got.size, want, `${count} on ${wide} × ${tall}`);
    assert.ok((wide + 0.75) / got.columns - 0.75 >= sizes[got.size].wide, 'no sheet is narrower than its words');
    if (wide > 70) assert.ok(rows * (got.tall + 0.75) - 0.75 <= tall + 1e-9, `${count} are all seen`);
  }
  const much = fit(24, 44, 60);
  assert.deepEqual([much.size, much.tall], ['compact', sizes.compact.tall], 'the rest is scrolled to');
  assert.equal(fit(5, 5, 3).columns, 1);
});
