import assert from 'node:assert/strict';
import { test } from 'node:test';
import { against, moment, nextPost, timeAt } from '../static/pure/again.js';
import { keepLevel, sinceEntry } from '../static/pure/entry.js';
import { empty, reduce } from '../static/pure/store.js';

const p = (turn, time, bank = 0, airspeed = 100) => ({
  turn,
  time,
  bank,
  pitch: 0,
  airspeed,
  height: null,
  along: null,
  across: null,
});
const trace = [p(0, 10), p(40, 12, 60, 90), p(50, 14, 40, null)];

test('a moment lies between the points of a trace, and a value that is missing stays so', () => {
  assert.equal(moment(trace, 0).point, trace[0]);
  assert.equal(moment(trace, 99).point, trace[2]);
  const { point, index } = moment(trace, 11);
  assert.deepEqual([point.turn, point.bank, point.airspeed, index], [20, 30, 95, 0]);
  assert.equal(moment(trace, 13).point.airspeed, null);
  assert.equal(moment([trace[0]], 11).point, trace[0]);
});

test('the time of a turn angle, and of the post after', () => {
  assert.equal(timeAt(trace, 20), 11);
  assert.equal(timeAt(trace, 500), 14);
  assert.equal(timeAt(trace, 0), 10);
  const posts = [{ turn: 20 }, { turn: 45 }, { turn: 180 }];
  assert.deepEqual([10, 11, 13].map((t) => nextPost(posts, trace, t)), [11, 13, 14]);
});

test('a leg is laid against the latest one the other way', () => {
  const leg = (number, direction, start) => ({ number, direction, start, trace });
  const legs = [leg(1, 'right', 0), leg(2, 'left', 10), leg(1, 'right', 20), leg(2, 'left', 30)];
  assert.equal(against(legs, legs[3]), legs[2]);
  assert.equal(against(legs, legs[2]), legs[1]);
  assert.equal(against(legs, legs[0]), null);
  assert.equal(against([{ ...legs[0], trace: [] }, legs[1]], legs[1]), null, 'one without a trace is none');
});

const frame = (time, heading, bank, more = {}) => ({
  time,
  state: 'set-up',
  direction: '',
  turn: 0,
  climb: null,
  ground: null,
  values: { heading, bank, pitch: 1, airspeed: 120, altitude: 5000 },
  ...more,
});
const turning = frame(1, 356.9, -12, { state: 'turn', direction: 'left', turn: 3.1, climb: 2 });

test('a turn is followed back to its entry by the heading, across north', () => {
  const level = [frame(0, 0, 0), frame(0.4, 0, -1), frame(0.7, 359, -6), frame(0.9, 358, -10)];
  const back = sinceEntry(level, { ...turning, values: { ...turning.values, bank: 12, altitude: 5002 } });
  assert.deepEqual(
    back.map((t) => [Math.round(t.turn * 10) / 10, t.bank, t.height]),
    [
      [0, 1, 0],
      [1, 6, 0],
      [2, 10, 0],
    ],
  );
});

test('no way back over a hole, from another heading, or without one', () => {
  assert.deepEqual(sinceEntry([frame(-5, 0, 0)], turning), []);
  assert.deepEqual(sinceEntry([frame(0.9, 350, 0)], turning), []);
  assert.deepEqual(sinceEntry([frame(0.9, 358, 0)], { ...turning, values: {} }), []);
});

test('level frames are kept sparsely and not for long', () => {
  let level = [];
  for (let i = 0; i < 1000; i++) level = keepLevel(level, frame(i / 60, 0, 0));
  assert.ok(level.length <= 40 && level.length > 30);
  assert.ok(level[1].time - level[0].time >= 0.1);
  assert.equal(keepLevel(level, frame(0, 0, 0)).length, 1, 'time that goes back begins again');
});

test('the page keeps the legs of a maneuver, a few, without those a replay went back over', () => {
  const plan = { type: 'plan', station: '', maneuver: 'a', checkpoints: [] };
  let state = reduce(empty(0), plan, 0);
  for (let n = 1; n <= 12; n++) {
    state = reduce(state, { type: 'leg', station: '', number: n, start: n * 10, checks: [] }, 0);
  }
  assert.deepEqual(
    state.legs.map((l) => l.number),
    [5, 6, 7, 8, 9, 10, 11, 12],
  );
  state = reduce(state, { type: 'leg', station: '', number: 6, start: 60, checks: [] }, 0);
  assert.deepEqual(state.legs.map((l) => l.number), [5, 6]);
  assert.deepEqual(reduce(state, { ...plan, maneuver: 'b' }, 0).legs, []);
});
