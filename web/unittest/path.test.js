import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  at,
  briefOf,
  clearest,
  fromAbove,
  fromTheSide,
  level,
  line,
  numbers,
  query,
  room,
  ruler,
} from '../static/pure/path.js';

/** Half a circle of 1,000 ft to the right, climbing to 300 ft and back. */
const half = Array.from({ length: 181 }, (_, turn) => {
  const a = (turn * Math.PI) / 180;
  return {
    turn,
    time: turn / 6,
    along: 1000 * Math.sin(a),
    across: 1000 * (1 - Math.cos(a)),
    height: 300 * Math.sin(a),
    airspeed: 100,
    bank: 30,
    pitch: 0,
    load: 1.15,
    stall: null,
  };
});
const size = { w: 300, h: 200, left: 20, right: 60, edge: 20 };

test('from above it has one scale, and all of it is within the edges', () => {
  const fit = fromAbove(half, size);
  const all = half.map((p) => fit.to(p.along, p.across));
  assert.ok(all.every((p) => p.x >= 19.9 && p.x <= 240.1 && p.y >= 19.9 && p.y <= 180.1));
  // by geometry: twice the radius across is twice what a radius is along
  const [a, b, c] = [fit.to(0, 0), fit.to(1000, 1000), fit.to(0, 2000)];
  assert.ok(Math.abs((c.x - a.x) - 2 * (a.y - b.y)) < 1e-9);
  assert.ok(c.x > a.x && b.y < a.y); // right is right, ahead is up
});

test('from the side height is drawn a whole number of times taller', () => {
  const fit = fromTheSide(half, size);
  assert.ok(Number.isInteger(fit.tall) && fit.tall >= 1);
  const all = half.map((p) => fit.to(p.along, p.height));
  assert.ok(all.every((p) => p.x >= 19.9 && p.x <= 240.1 && p.y >= 19.9 && p.y <= 180.1));
  const [ground, top] = [fit.to(0, 0), fit.to(0, 300)];
  assert.ok(Math.abs((ground.y - top.y) - 300 * fit.scale * fit.tall) < 1e-9);
});

test('a path at one height is level', () => {
  assert.equal(level(half), false);
  assert.equal(level(half.map((p) => ({ ...p, height: p.height / 100 }))), true);
});

test('the point at a turn angle', () => {
  assert.equal(at(half, 90).along, 1000);
  assert.equal(at(half, 44.6).turn, 45);
  assert.equal(at(half, 999).turn, 180);
});

test('a line through places', () => {
  assert.equal(line([{ x: 0, y: 1 }, { x: 2.25, y: 3 }]), 'M0.0 1.0L2.3 3.0');
  assert.equal(line([]), '');
});

test('a bar of a round length, in feet or meters', () => {
  assert.deepEqual(ruler(0.1, 110, 1), { value: 1000, length: 100 });
  const metric = ruler(0.1, 110, 1 / 0.3048); // a meter is 1/0.3048 ft
  assert.equal(metric.value, 250);
  assert.ok(Math.abs(metric.length - 82.02) < 0.01);
});

test('what a sheet knows and what it does not', () => {
  const n = (id, value, words) => ({ id, label: id, value, unit: 'kt', words });
  const { known, unknown } = numbers({
    numbers: [n('entry', 105, ''), n('apex', null, ''), n('power', null, 'climb power')],
  });
  assert.deepEqual(
    known.map((k) => k.id),
    ['entry', 'power'],
  );
  assert.deepEqual(unknown, ['apex']);
});

test('the address of a brief', () => {
  assert.equal(query({ maneuver: 'wing-over', standard: '', aircraft: '' }), 'maneuver=wing-over');
  assert.equal(
    query({ maneuver: 'steep-turn', standard: 'check', aircraft: 'light-single', station: 'Seat 3' }),
    'maneuver=steep-turn&standard=check&aircraft=light-single&station=Seat+3',
  );
  assert.equal(briefOf({ plan: null, info: null, station: '' }), '');
  assert.equal(
    briefOf({ plan: { maneuver: 'wing-over', standard: 'course' }, info: { aircraft: 'light-single' }, station: '' }),
    'maneuver=wing-over&standard=course&aircraft=light-single',
  );
});

test('a label stands where it covers least', () => {
  const left = { x: -10, y: 5, anchor: 'end' };
  const right = { x: 10, y: 5, anchor: 'start' };
  const place = { x: 100, y: 100 };
  assert.equal(clearest([left, right], '45°', place, [], []), left);
  assert.equal(clearest([left, right], '45°', place, [{ x: 80, y: 100 }], []), right); // a line runs there
  // a line is better than a word
  assert.equal(clearest([left, right], '45°', place, [{ x: 80, y: 100 }], [room('90°', place, right)]), left);
});
