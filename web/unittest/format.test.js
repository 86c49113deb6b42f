import assert from 'node:assert/strict';
import { test } from 'node:test';
import { checkNumbers } from '../static/pure/check.js';
import * as format from '../static/pure/format.js';

test('numbers have true minus signs and commas', () => {
  for (const [value, digits, want] of [
    [0, 0, '0'],
    [-0.4, 0, '0'],
    [-13, 0, '\u221213'],
    [1234567, 0, '1,234,567'],
    [-1200.5, 1, '\u22121,200.5'],
    [2.08, 1, '2.1'],
  ])
    assert.equal(format.number(value, digits), want);
});

test('signed numbers say plus, zero does not', () => {
  assert.equal(format.signed(521), '+521');
  assert.equal(format.signed(-60), '\u221260');
  assert.equal(format.signed(0.2), '0');
});

test('every unit is written; the degree sign stands close', () => {
  assert.equal(format.withUnit(70, '°'), '70°');
  assert.equal(format.withUnit(119, 'kt'), '119\u00a0kt');
  assert.equal(format.withUnit(0.61, 'ratio', format.digitsOf('ratio')), '61\u00a0%');
  assert.equal(format.flag('height', 'ft', 521.4), '+521\u00a0ft');
  assert.equal(format.flag('bank', '°', -3), '\u22123°');
});

test('where a point stands, in words', () => {
  for (const [angle, want] of [
    [0, 'on the nose'],
    [-24, '24° left of the nose'],
    [44, 'halfway to the right wing'],
    [-45, 'halfway to the left wing'],
    [90, 'on the right wing'],
    [-90, 'on the left wing'],
    [-120, '30° behind the left wing'],
    [180, 'behind the tail'],
    [359, 'on the nose'],
    [270, 'on the left wing'],
  ]) assert.equal(format.bearing(angle), want);
});

test('what was flown and wanted', () => {
  const check = {
    id: 'x',
    label: 'x',
    kind: 'value',
    value: 58,
    unit: '°',
    met: [65, 85],
    near: [60, 90],
    weight: 1,
    verdict: 'missed',
    score: 0,
    words: '',
  };
  assert.equal(checkNumbers({ ...check, aim: 75 }), '58°, wanted 75° (65 to 85°)');
  assert.equal(checkNumbers(check), '58°, wanted 65 to 85°');
  assert.equal(checkNumbers({ ...check, met: [65, null] }), '58°, wanted at least 65°');
  assert.equal(checkNumbers({ ...check, met: [null, 10] }), '58°, wanted at most 10°');
  assert.equal(checkNumbers({ ...check, met: [null, null] }), '58°');
  assert.equal(checkNumbers({ ...check, value: null, reason: 'no ball' }), 'no ball');
});

test('the stream in words', () => {
  const station = { rate: 60, missing: [] };
  assert.equal(format.quality(station), '60 a second · all channels');
  assert.equal(
    format.quality({ ...station, missing: ['ball', 'normal-load', 'rpm'] }),
    '60 a second · no ball, normal load and rpm',
  );
  assert.equal(format.quality({ ...station, missing: null }), '60 a second · all channels');
});

test('ages', () => {
  assert.equal(format.ago(400), 'just now');
  assert.equal(format.ago(4200), '4\u202fs ago');
  assert.equal(format.ago(150_000), '2\u202fmin ago');
});

test('a station without a name is called by its address', () => {
  for (const [name, want, apart] of [
    ['Seat 3', 'Seat 3', 'Seat 3'], ['Row 2:4', 'Row 2:4', 'Row 2:4'],
    ['127.0.0.1:43449', 'Simulator at 127.0.0.1', 'Simulator at 127.0.0.1:43449'],
    ['[fe80::1%eth0]:49001', 'Simulator at [fe80::1%eth0]', 'Simulator at [fe80::1%eth0]:49001'],
  ]) {
    assert.equal(format.stationWords(name), want);
    assert.equal(format.stationWords(name, true), apart);
  }
});
