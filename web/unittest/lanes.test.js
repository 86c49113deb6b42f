// The lanes of the debrief: what comes chosen, what is allowed, what is worked out.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  chosenFirst, decidedIn, drawnLanes, excursions, kinds, known, laneOfCheck, most, pressed, rowsOf,
} from '../static/pure/lanes.js';
import { energyNamed, spent, speedHeight, trueSpeed } from '../static/pure/energy.js';

/** @param {object} of @returns {import('../static/types.d.ts').Check} */
const check = (of) => /** @type {any} */ ({ id: 'x', kind: 'value', verdict: 'met', met: [null, null], ...of });

/** A leg of three seconds that turns 180° while it slows from 120 to 80 kt and climbs 100 ft. */
const flight = /** @type {import('../static/sessions.d.ts').FlownLeg} */ (/** @type {unknown} */ ({
  leg: { start: 10, end: 13, trace: [], checks: [check({ kind: 'ball-centered', channel: 'slip' })] },
  plan: { turn: 180, lanes: [{ channel: 'airspeed', title: 'Speed', unit: 'kt', low: 20, high: 300, ticks: [100, 200],
    corridor: [{ turn: 0, low: 110, aim: 120, high: 130 }, { turn: 180, low: 70, aim: 80, high: 90 }] }] },
  samples: {
    time: [9, 10, 11, 12, 13, 14],
    turn: [0, 0, 60, 120, 180, 180],
    airspeed: [250, 120, 100, 90, 80, 200],
    climb: [0, 0, 50, 80, 100, 100],
    bank: [0, 0, 30, 60, 30, 0],
    ball: [0, 0, 0.6, 0.1, null, 0],
    aileron: [0, 0.5, 0, -0.25, 0, 0],
  },
  path: null,
}));

/** @param {string} id */
const kind = (id) => /** @type {import('../static/pure/lanes.js').Kind} */ (kinds.find((k) => k.id === id));

/** Those of a maneuver that is not flown about a point on the ground. */
const plain = kinds.filter((k) => k.id !== 'radius' && k.id !== 'pivotal');

test('the lanes that decided come chosen, with the bank, four at most', () => {
  const checks = [
    check({ channel: 'slip', verdict: 'missed' }), check({ channel: 'normal-load', verdict: 'near' }), check({}),
  ];
  assert.deepEqual(chosenFirst(checks, plain), ['bank', 'pitch', 'ball', 'load']);
  assert.deepEqual(chosenFirst([], plain), ['bank', 'pitch', 'airspeed', 'height']);
  const without = plain.filter((k) => k.id !== 'ball');
  assert.deepEqual(chosenFirst(checks, without), ['bank', 'pitch', 'airspeed', 'load']);
});

test('a fifth lane takes the place of the one chosen longest; one always stays', () => {
  assert.deepEqual(pressed(['a', 'b', 'c', 'd'], 'e'), ['b', 'c', 'd', 'e']);
  assert.deepEqual(pressed(['a', 'b'], 'a'), ['b']);
  assert.deepEqual(pressed(['a'], 'a'), ['a']);
  assert.equal(most, 4);
});

test('a lane has what is past its corridor marked only where one of its checks was not met', () => {
  const checks = [check({ channel: 'slip', verdict: 'near' }), check({ channel: 'pitch' })];
  assert.deepEqual(kinds.filter((k) => decidedIn(k, checks)).map((k) => k.id), ['ball']);
});

test('a check belongs to the lane of its channel, else of its kind', () => {
  assert.equal(laneOfCheck(check({ channel: 'slip' })), 'ball');
  assert.equal(laneOfCheck(check({ channel: 'altitude' })), 'height');
  assert.equal(laneOfCheck(check({ kind: 'roll-ratio' })), 'bank');
  assert.equal(laneOfCheck(check({ kind: 'pace' })), null);
});

test('energy height is height and v²/2g: 100 kt are worth 443 ft', () => {
  // (100 × 0.514444 m/s)² / (2 × 9.80665 m/s²) = 134.94 m = 442.7 ft
  assert.ok(Math.abs(speedHeight(100) - 442.7) < 0.1);
  const energy = rowsOf(flight)['energy'] ?? [];
  assert.equal(energy[1], 0); // counted from the entry
  assert.ok(Math.abs(Number(energy[4]) - (100 + speedHeight(80) - speedHeight(120))) < 1e-9);
});

test('a calibrated airspeed is made true by the density: 100 kt at 5,000 ft are 107.7 kt, at 10,000 ft 116.4', () => {
  // √σ of the standard atmosphere: 0.92827 and 0.85934
  assert.ok(Math.abs(trueSpeed(100, 5000) - 107.73) < 0.05);
  assert.ok(Math.abs(trueSpeed(100, 10000) - 116.37) < 0.05);
});

test('energy is spent by the stretches between checkpoints, the last one up to the exit', () => {
  const flown = [[0, 0], [45, -20], [89, -100], [91, -110], [135, -150], [172, -90]].map(
    ([turn, value]) => ({ turn: Number(turn), value: Number(value) }));
  const path = [0, 45, 90, 135, 180].map((turn) => ({ turn, value: -turn }));
  assert.deepEqual(spent(flown, path, [0, 45, 90, 135, 180]), [
    { from: 0, to: 45, flown: -20, path: -45 },
    { from: 45, to: 90, flown: -85, path: -45 },
    { from: 90, to: 135, flown: -45, path: -45 },
    { from: 135, to: 180, flown: 60, path: -45 },
  ]);
  assert.deepEqual(spent(flown, [], [0, 180]), [{ from: 0, to: 180, flown: -90, path: null }]);
  assert.deepEqual(spent([], path, [0, 45]), []);
  assert.equal(spent(flown.slice(0, 3), path, [0, 45, 90, 135, 180]).length, 1); // up to 89°
});

test('where energy is a cause, its lane and the load come chosen', () => {
  const checks = [check({ channel: 'slip', verdict: 'missed' }), check({ channel: 'airspeed', verdict: 'missed' })];
  assert.deepEqual(chosenFirst(checks, plain, true), ['bank', 'ball', 'load', 'energy']);
  const cause = (/** @type {string} */ code) => /** @type {any} */ (
    { evidence: { code: 'list.sentences', args: { first: [{ code, text: '' }] }, text: '' } });
  assert.ok(energyNamed([cause('evidence.flown'), cause('evidence.energy-short')]));
  assert.ok(!energyNamed([cause('evidence.flown')]));
});

test('controls are percent; the roll rate comes from the bank where the stream has none', () => {
  const rows = rowsOf(flight);
  assert.deepEqual(rows['aileron']?.slice(1, 4), [50, 0, -25]);
  assert.equal(rows['roll-rate']?.length, 6);
  assert.deepEqual(known(rows).map((k) => k.id),
    ['bank', 'pitch', 'airspeed', 'height', 'ball', 'load', 'roll-rate', 'controls', 'energy']
      .filter((id) => !['pitch', 'load'].includes(id)));
});

test('the speed axis is what was flown in the leg and what is allowed', () => {
  const view = { main: flight, over: null };
  const [speed, ball] = drawnLanes(view, [kind('airspeed'), kind('ball')], rowsOf(flight), null);
  assert.equal(speed?.lane.low, 70);
  assert.equal(speed?.lane.high, 130); // not the 250 before the entry
  assert.deepEqual(speed?.ideal.map((p) => p.value), [120, 80]); // the middle of the corridor
  assert.deepEqual(ball?.lane.corridor?.map((c) => [c.low, c.high]), [[-0.25, 0.25], [-0.25, 0.25]]);
});

test('a limit on one side only is open to the edge of the lane, in numbers throughout', () => {
  const load = check({ kind: 'extreme', channel: 'normal-load', met: [null, 2.75] });
  const main = { ...flight, leg: { ...flight.leg, checks: [load] }, samples: { ...flight.samples } };
  main.samples['normal-load'] = [1, 1, 2, 3, 1, 1];
  const [lane] = drawnLanes({ main, over: null }, [kind('load')], rowsOf(main), null);
  for (const c of lane?.lane.corridor ?? []) {
    assert.deepEqual([c.low, c.high], [lane?.lane.low, 2.75]);
    assert.ok(Number.isFinite(c.aim));
  }
  assert.equal(lane?.lane.high, 3);
});

test('what is past a corridor is cut out with the edge it is past', () => {
  const corridor = [{ turn: 0, low: -1, high: 1 }, { turn: 100, low: -1, high: 3 }];
  const points = [0, 2, 2, 0, null, -2, -2].map((value, i) => ({ turn: i * 10, value }));
  assert.deepEqual(excursions(points, corridor), [
    [{ turn: 10, value: 2, edge: 1.2 }, { turn: 20, value: 2, edge: 1.4 }],
    [{ turn: 50, value: -2, edge: -1 }, { turn: 60, value: -2, edge: -1 }],
  ]);
  assert.deepEqual(excursions(points, []), []);
});
