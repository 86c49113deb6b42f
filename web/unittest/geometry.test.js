import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as geo from '../static/pure/geometry.js';

const box = { left: 100, right: 280, top: 50, bottom: 450 };
const lane = (channel) => ({
  channel,
  title: channel,
  unit: '',
  low: 0,
  high: 100,
  ticks: [],
  corridor: [
    { turn: 0, low: 0, aim: 10, high: 20 },
    { turn: 180, low: 80, aim: 90, high: 100 },
  ],
});
const plan = {
  turn: 180,
  lanes: ['bank', 'pitch', 'airspeed', 'height'].map(lane),
  checkpoints: [{ turn: 45 }, { turn: 90 }, { turn: 180 }],
};
const at = (turn, bank, airspeed = null) => ({ turn, bank, pitch: 0, airspeed, height: null });

test('the turn angle runs across the paper, and not off it', () => {
  assert.equal(geo.x(box, 180, 0), 100);
  assert.equal(geo.x(box, 180, 90), 190);
  assert.equal(geo.x(box, 180, 180), 280);
  assert.equal(geo.x(box, 180, 500), geo.x(box, 180, 188));
  assert.equal(geo.x(box, 180, -90), 98);
});

test('the lanes share the height without touching', () => {
  const strips = geo.strips(plan, box, 20);
  assert.equal(strips[0].top, 50);
  assert.equal(strips.at(-1).bottom, 450);
  for (let i = 1; i < strips.length; i++) assert.ok(Math.abs(strips[i].top - strips[i - 1].bottom - 20) < 0.2);
  assert.ok(strips[0].bottom - strips[0].top > strips[2].bottom - strips[2].top, 'bank is the tallest');
});

test('values beyond the lane stay near its edge', () => {
  const strip = { lane: lane('bank'), top: 0, bottom: 100 };
  assert.equal(geo.y(strip, 0), 100);
  assert.equal(geo.y(strip, 100), 0);
  assert.equal(geo.y(strip, 1e6), -6);
  assert.equal(geo.y(strip, -1e6), 106);
});

test('a trace breaks where the stream lacks the value', () => {
  const strip = { lane: lane('airspeed'), top: 0, bottom: 100 };
  assert.equal(
    geo.tracePath(box, 180, strip, [at(0, 0, 50), at(90, 0, 50), at(100, 0), at(180, 0, 0)]),
    'M100 50L190 50M280 100',
  );
  assert.equal(geo.tracePath(box, 180, strip, []), '');
});

test('a corridor is one closed path; too little of it is none', () => {
  const strip = { lane: lane('bank'), top: 0, bottom: 100 };
  assert.equal(geo.corridorPaths(box, 180, strip).area, 'M100 80L280 0L280 20L100 100Z');
  assert.deepEqual(geo.corridorPaths(box, 180, { ...strip, lane: { ...strip.lane, corridor: null } }), {
    area: '',
    aim: '',
  });
});

test('a peak is one only when the flight has come down from it', () => {
  assert.equal(geo.peak([at(10, 5), at(20, 9)], 'bank', 2), null);
  assert.equal(geo.peak([at(10, 5), at(20, 9), at(30, 8)], 'bank', 2), null);
  assert.deepEqual(geo.peak([at(10, 5), at(20, 9), at(30, 6)], 'bank', 2), { turn: 20, value: 9 });
});

test('written values stand where the curve leaves room', () => {
  const hill = [at(75, 60), at(90, 75), at(105, 60)];
  assert.equal(geo.bulges(hill, 'bank', 90, 75), true);
  assert.equal(geo.bulges(hill.map((t) => ({ ...t, bank: -t.bank })), 'bank', 90, -75), false);
  assert.equal(geo.bulges([], 'bank', 90, 75), true);
});

test('angles off the nose go clockwise from above', () => {
  assert.deepEqual(geo.around(0, 0, 100, 0), { x: 0, y: -100 });
  assert.deepEqual(geo.around(0, 0, 100, 90), { x: 100, y: -0 });
  assert.equal(geo.around(0, 0, 100, -90).x, -100);
});

test('progress runs from post to post', () => {
  assert.equal(geo.progress(plan, 0, 45), 0);
  assert.equal(geo.progress(plan, 67.5, 90), 0.5);
  assert.equal(geo.progress(plan, 200, 180), 1);
});

// Common practice, no source: a lane is drawn wider only where a flight left it, and keeps the distance of its ticks.
test('a lane gets room for what was flown beyond it, in steps, and no more than twice its span', () => {
  const bank = { ...lane('bank'), low: 0, high: 96, ticks: [0, 45, 90] };
  assert.equal(geo.stretched(bank, 0, 96), bank);
  assert.equal(geo.stretched(bank, 0, 97), bank, 'a hair over is still on the paper');
  const wider = geo.stretched(bank, -1, 130);
  assert.deepEqual([wider.low, wider.high], [0, 132 + 12]);
  assert.deepEqual(wider.ticks, [0, 45, 90, 135]);
  assert.equal(geo.stretched(bank, 0, 1e9).high, 96 * 3);
  assert.equal(geo.stretched(bank, Infinity, -Infinity), bank, 'nothing flown');
  assert.equal(geo.leaves(bank, bank, 130), true);
  assert.equal(geo.leaves(wider, bank, 130), false);
  assert.equal(geo.leaves(geo.stretched(bank, 0, 1e9), bank, 1e9), false, 'no further');
  assert.deepEqual(geo.stretched({ ...bank, ticks: [] }, 0, 130).ticks, []);
});

test('the least of a lane is a peak downward', () => {
  assert.deepEqual(geo.peak([at(10, 0, 90), at(20, 0, 80), at(30, 0, 86)], 'airspeed', 3, -1), { turn: 20, value: 80 });
  assert.equal(geo.peak([at(10, 0, 90), at(20, 0, 80), at(30, 0, 82)], 'airspeed', 3, -1), null);
});

const edged = [0, 90].map((turn) => ({ turn, low: 10, aim: 20, high: 30 }));

test('an excursion begins where the trace crosses the edge, and is shut by the edge', () => {
  const strip = { lane: { ...lane('bank'), low: 0, high: 100, corridor: edged }, top: 0, bottom: 100 };
  const over = geo.excursions(box, 180, strip, [at(0, 20), at(45, 40), at(90, 20)]);
  const x = (/** @type {number} */ turn) => geo.x(box, 180, turn);
  assert.equal(over.line, `M${x(22.5)} 70L${x(45)} 60M${x(45)} 60L${x(67.5)} 70`);
  assert.ok(over.area.startsWith(`M${x(22.5)} 70L${x(45)} 60L${x(45)} 70L${x(22.5)} 70Z`));
  assert.deepEqual(geo.excursions(box, 180, strip, [at(0, 20), at(45, 30), at(90, 10)]), { area: '', line: '' });
  assert.equal(geo.excursions(box, 180, strip, [at(0, 0), at(90, 0)]).line, `M${x(0)} 100L${x(90)} 100`, 'below too');
});

test('past both edges within a step, both ends are outside', () => {
  const strip = { lane: { ...lane('bank'), low: 0, high: 100, corridor: edged }, top: 0, bottom: 100 };
  const line = geo.excursions(box, 180, strip, [at(0, 0), at(90, 40)]).line;
  const x = (/** @type {number} */ turn) => geo.x(box, 180, turn);
  assert.ok(line.includes(`M${x(67.5)} 70L${x(90)} 60`), line);
  assert.ok(line.includes(`M${x(0)} 100L${x(22.5)} 90`), line);
});

test('the speed lane reaches down to a stall that is near, and not to one that is far', () => {
  const speed = { ...lane('airspeed'), low: 100, high: 160, ticks: [110, 150] };
  const flown = (/** @type {number} */ stall) => [{ ...at(10, 0), airspeed: 120, stall: 120 - stall }];
  const low = (/** @type {number} */ stall) =>
    geo.roomFor({ ...plan, lanes: [speed] }, [flown(stall)]).lanes?.[0]?.low ?? NaN;
  assert.ok(low(75) < 75, String(low(75)));
  assert.equal(low(35), 100);
  assert.equal(geo.stallOf({ ...at(10, 0), airspeed: null, stall: 3 }), null);
});
