import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as probe from '../static/pure/probe.js';

const value = (channel, unit, v, more = {}) => ({
  channel,
  title: channel,
  unit,
  value: v,
  age: 0.04,
  derived: false,
  bad: 0,
  ...more,
});
const base = {
  name: 'Seat 3',
  address: '127.0.0.1:50123',
  link: 'live',
  format: 'JSON lines',
  advice: '',
  rate: 59.96,
  channels: [],
  derived: [],
  missing: [],
  maneuver: 'wing-over',
  aircraft: '',
  detail: '',
  sure: 'certain',
  read: 0.9984,
  clock: 'simulator',
  jitter: 1.24,
  age: 0.01,
  datagrams: 12034,
  samples: 12000,
  paused: 0,
  jumps: 0,
  drops: {},
  signs: '',
  values: [],
  needs: [],
  todo: [],
};

test('what the format is, and how sure', () => {
  assert.equal(probe.formatWords(base), 'JSON lines, certain: 99.8 % of 12,034 datagrams read');
  assert.equal(probe.formatWords({ ...base, format: '', datagrams: 12 }), 'Format not recognized, 12 datagrams');
});

test('rate, jitter and clock', () => {
  assert.equal(
    probe.rateWords({ ...base, clock: 'receipt' }),
    '60.0 samples a second, jitter 1.2 ms, last datagram 0.0 s ago, timed by the time of receipt',
  );
});

test('drops are told by reason, in order', () => {
  assert.equal(probe.dropWords(base), '');
  assert.equal(probe.dropWords({ ...base, drops: { malformed: 1, late: 3 } }), 'Dropped: 3 late, 1 malformed');
});

test('values have as many digits as are of use', () => {
  for (const [v, want] of [
    [value('bank', '°', -13.26), '\u221213.3°'],
    [value('roll-rate', '°/s', 0.126), '0.13°/s'],
    [value('altitude', 'ft', 5003.4), '5,003\u00a0ft'],
    [value('latitude', '°', 48.123456), '48.1235°'],
    [value('throttle', 'ratio', 0.62), '62.0\u00a0%'],
    [value('on-ground', 'flag', 1), 'yes'],
  ])
    assert.equal(probe.valueWords(v), want);
});

test('what is missing comes first; each row says what it is for', () => {
  const rows = probe.rows({
    ...base,
    values: [
      value('bank', '°', 1),
      value('vertical-speed', 'ft/min', 20, { derived: true }),
      value('n1', '%', 90, { bad: 2 }),
      value('ball', 'balls', 0),
    ],
    needs: [
      { channel: 'ball', title: 'ball', state: 'missing', for: ['Coordination'], setting: 'x' },
      { channel: 'vertical-speed', title: 'vertical speed', state: 'derived', for: ['Level at the exit'], setting: '' },
      { channel: 'bank', title: 'bank', state: 'sent', for: [], setting: '' },
    ],
  });
  assert.deepEqual(rows.map((r) => [r.channel, r.state, r.need]), [
    ['ball', 'missing', 'missing; for Coordination'], // its old value is no help
    ['bank', 'sent', 'sent; nothing works without'],
    ['vertical-speed', 'derived', 'worked out here; for Level at the exit'],
    ['n1', 'extra', 'sent; not needed; 2 values out of range'],
  ]);
});
