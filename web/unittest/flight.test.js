import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  ahead,
  aimAt,
  atTurn,
  checkpointOf,
  comparable,
  inOrder,
  line,
  nearest,
  partner,
  span,
  widened,
} from '../static/pure/flight.js';

/** A made-up leg: nine degrees a second, ten samples a second, from 3 s before the entry. */
function flight() {
  const time = [];
  const turn = [];
  for (let i = -30; i <= 230; i++) {
    time.push(100 + i / 10);
    turn.push(Math.min(Math.max(i * 0.9, 0), 180));
  }
  return {
    leg: { start: 100, end: 120 },
    samples: { time, turn },
    plan: {
      turn: 180,
      checkpoints: [
        { turn: 45, label: '45°' },
        { turn: 90, label: '90°' },
        { turn: 180, label: 'out' },
      ],
    },
  };
}

test('the nearest sample', () => {
  assert.equal(nearest([0, 1, 2, 3], 1.4), 1);
  assert.equal(nearest([0, 1, 2, 3], 1.6), 2);
  assert.equal(nearest([0, 1, 2, 3], -5), 0);
  assert.equal(nearest([0, 1, 2, 3], 50), 3);
  assert.equal(nearest([], 1), 0);
});

test('the sample at a turn angle lies between entry and exit', () => {
  const f = flight();
  assert.equal(f.samples.time[atTurn(f, 0)], 100);
  assert.equal(f.samples.time[atTurn(f, 90)], 110);
  assert.equal(f.samples.time[atTurn(f, 400)], 120);
});

test('how long before its checkpoint something was said', () => {
  const f = flight();
  const cue = { time: 107, kind: 'cue', turn: 63, to: 90 };
  assert.equal(checkpointOf(f, cue), 90);
  assert.equal(ahead(f, cue, 90), 3);
  assert.equal(checkpointOf(f, { time: 107, kind: 'cue', turn: 63 }), 90);
  const after = { time: 110.5, kind: 'after', turn: 94.5 };
  assert.equal(checkpointOf(f, after), 90);
  assert.equal(ahead(f, after, 90), -0.5);
  assert.equal(checkpointOf(f, { kind: 'result', turn: 180 }), null);
  assert.equal(ahead({ ...f, samples: { time: [100], turn: [0] } }, cue, 90), null);
});

test('what is aimed at lies on the corridor', () => {
  const plan = { lanes: [{ channel: 'bank', corridor: [{ turn: 0, aim: 0 }, { turn: 30, aim: 60 }] }] };
  assert.equal(aimAt(plan, 'bank', 15), 30);
  assert.equal(aimAt(plan, 'bank', 0), 0);
  assert.equal(aimAt(plan, 'bank', 31), null);
  assert.equal(aimAt(plan, 'pitch', 15), null);
});

test('a plot spans its values on round numbers', () => {
  assert.deepEqual(span([[0, 75]], 10), { low: 0, high: 75, ticks: [0, 20, 40, 60] });
  assert.deepEqual(span([[1, 1]], 1), { low: 0.5, high: 1.5, ticks: [0.5, 1, 1.5] });
  assert.equal(span([[null]], 1), null);
});

test('a line breaks where a value is missing', () => {
  const same = (v) => v;
  assert.equal(line([0, 1, 2, 3], [5, null, 6, 7], same, same), 'M0.0 5.0M2.0 6.0L3.0 7.0');
});

test('checks come in the order of the turn', () => {
  const ids = inOrder([
    { id: 'all' },
    { id: 'b', post: 90, turn: 90 },
    { id: 'c', post: 45, at: 47 },
    { id: 's', post: 0 },
    { id: 'a', post: 45, turn: 45 },
  ]).map((c) => c.id);
  assert.deepEqual(ids, ['s', 'c', 'a', 'b', 'all']);
});

test('only legs of the same maneuver are laid over, the best first', () => {
  const legs = [
    { n: 1, plan: 0, score: 60, trace: [{}] },
    { n: 2, plan: 0, score: 80, trace: [{}] },
    { n: 3, plan: 1, score: 99, trace: [{}] },
    { n: 4, plan: 0, score: 70, trace: [{}] },
  ];
  assert.deepEqual(
    comparable(legs, 1).map((l) => l.n),
    [2, 4],
  );
  assert.deepEqual(comparable(legs, 9), []);
});

test('lanes are wide enough for what was flown', () => {
  const lane = {
    channel: 'airspeed',
    title: 'Speed',
    unit: 'kt',
    low: 140,
    high: 240,
    ticks: [160, 240],
    corridor: [],
  };
  const point = (airspeed) => ({
    turn: 0,
    time: 0,
    bank: 0,
    pitch: 0,
    airspeed,
    height: null,
    along: null,
    across: null,
  });
  const {
    lanes: [wide],
  } = widened({ lanes: [lane] }, [[point(120), point(null)], [point(200)]]);
  assert.deepEqual([wide.low, wide.high], [120, 240]);
  const { lanes: [fast] } = widened({ lanes: [lane] }, [[point(340)]]);
  assert.deepEqual(fast.ticks, [160, 240, 320]); // the rules are carried on to what was flown
  assert.deepEqual(widened({ lanes: [lane] }, []).lanes[0], lane);
  assert.deepEqual(widened({ lanes: null }, []).lanes, []);
});

test('the partner of a leg is the nearest of its series to the other side', () => {
  const leg = (n, series, direction, score = 80) => ({ n, series, direction, score, plan: 0, trace: [{}] });
  const legs = [
    leg(1, 1, 'right'),
    leg(2, 1, 'left', 99),
    leg(3, 2, 'right'),
    leg(4, 2, 'left'),
    leg(5, 2, 'right'),
    leg(6, 2, 'left', 99),
  ];
  assert.deepEqual(
    [1, 3, 5, 6].map((n) => partner(legs, n)?.n),
    [2, 4, 6, 5],
  );
  assert.equal(partner(legs.slice(0, 1), 1), null);
});
