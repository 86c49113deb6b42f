import assert from 'node:assert/strict';
import { afterEach, test } from 'node:test';
import { chord } from '../static/pure/geometry.js';
import { course, due, groundWords, lineWords } from '../static/pure/point.js';
import { setLanguage } from '../static/pure/text.js';
import './languages.js';
import { setUnits } from '../static/pure/units.js';

afterEach(() => {
  setLanguage('en');
  setUnits('aviation');
});

const next = (turn, point) => ({ turn, label: '', words: '', want: '', seconds: null, point });

// Airplane Flying Handbook (FAA-H-8083-3C), chapter 10, lazy eight: points at 45°, 90° and 135° of a turn about one
// abeam.
test('the point moves from the wing over the nose to the other wing', () => {
  for (const [turn, right] of [[0, 90], [30, 60], [45, 45], [90, 0], [135, -45], [170, -80]]) {
    const to = Math.min(180, (Math.floor(turn / 45) + 1) * 45);
    assert.equal(due({ next: next(to, 90 - to), turn, direction: 'right' }), right);
    assert.equal(due({ next: next(to, to - 90), turn, direction: 'left' }) || 0, -right || 0);
  }
  assert.equal(due({ next: null, turn: 3, direction: 'right' }), null);
});

test('a course has three digits, and north is 360', () => {
  assert.deepEqual([0, 359.7, 5.4, 90, 180].map(course), ['360°', '360°', '005°', '090°', '180°']);
});

test('line, point, drift and wind are words', () => {
  assert.match(lineWords(null), /^None chosen/);
  assert.equal(
    lineWords({ heading: 5, side: 'left', distance: 2.5, off: 0 }),
    'Along 005°, point off the left wing, 2.5\u00a0NM',
  );
  const ground = { along: 0, across: 0, track: 94, drift: -4.2, wind: { from: 10, speed: 12 } };
  assert.equal(
    groundWords({ pointBy: 'position', pointDistance: 4.91, ground }),
    '4.9\u00a0NM away, by position · drift 4° left · wind from 010°, 12\u00a0kt',
  );
  assert.equal(groundWords({ pointBy: 'heading', pointDistance: null, ground: null }), 'by the heading alone');
  assert.equal(
    groundWords({
      pointBy: '',
      pointDistance: null,
      ground: { ...ground, drift: 0.2, wind: { from: 0, speed: 0.4 } },
    }),
    'no drift · no wind',
  );
  setLanguage('de');
  setUnits('metric');
  assert.equal(
    groundWords({ pointBy: 'position', pointDistance: 4.91, ground }),
    '9,1\u00a0km entfernt, nach der Position · Abdrift 4° links · Wind aus 010°, 22\u00a0km/h',
  );
});

test('a chord stays within its circle', () => {
  assert.deepEqual(chord(160, 160, 100, 60), { x1: 220, x2: 220, y1: 80, y2: 240 }); // 3, 4, 5
  assert.equal(chord(0, 0, 100, 500).x1, 90);
});
