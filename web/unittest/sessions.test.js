import assert from 'node:assert/strict';
import { afterEach, test } from 'node:test';
import {
  askedOf,
  byDay,
  chosenWords,
  filtersOf,
  lasted,
  open,
  places,
  queryOf,
  reach,
  trendWords,
  verdictOf,
} from '../static/pure/sessions.js';
import { setLanguage } from '../static/pure/text.js';
import './languages.js';
import { setUnits } from '../static/pure/units.js';

afterEach(() => {
  setLanguage('en');
  setUnits('aviation');
});

/** @returns {import('../static/sessions.d.ts').SessionRow} */
const row = (began, ended = '') => ({
  id: began,
  began,
  ended,
  station: 'Seat 1',
  student: 'Ada',
  keep: false,
  maneuvers: [],
  standard: 'course',
  aircraft: { name: '', title: '' },
  verdicts: [],
  legs: 0,
  score: null,
  grade: '',
  change: '',
  remarks: 0,
  found: '',
});
const point = (q1, median, q3, low = q1, high = q3) => ({
  session: 's',
  began: '2026-11-25T10:00:00Z',
  legs: 4,
  met: 2,
  low,
  q1,
  median,
  q3,
  high,
  aim: 75,
  metBand: [60, 88],
  nearBand: [52, 90],
});
/** @returns {import('../static/sessions.d.ts').TrendCheck} */
const bank = (points) => ({
  id: 'bank-at-90',
  label: 'Bank at 90°',
  unit: '°',
  aim: 75,
  met: [60, 88],
  near: [52, 90],
  points,
});

test('filters survive the address, and nonsense does not', () => {
  const f = {
    student: 'Ada & Bo',
    maneuver: 'wing-over',
    aircraft: '',
    from: '2026-11-01',
    to: '',
    grade: 'good',
    text: 'nose “low”',
    empty: '1',
  };
  assert.deepEqual(filtersOf(`?${queryOf(f)}`), f);
  assert.deepEqual(filtersOf('?from=yesterday&grade=superb&other=1'), filtersOf(''));
  assert.ok(open(filtersOf('?text=%20')));
  assert.deepEqual(
    [
      askedOf(filtersOf('?student=Bo')),
      askedOf(filtersOf('?student=Bo&empty=1')),
      queryOf(filtersOf('?empty=1')),
      filtersOf('?empty=2').empty,
    ],
    ['student=Bo&flown=1', 'student=Bo', 'empty=1', ''],
  );
  assert.equal(chosenWords(filtersOf('?empty=1'), String), 'Filter');
  assert.equal(
    chosenWords(filtersOf('?maneuver=chandelle&to=2026-11-20&text=wing'), (name, value) => `${name} ${value}`),
    'maneuver chandelle · to Nov 20, 2026 · “wing”',
  );
  assert.equal(filtersOf(`?text=${'x'.repeat(5000)}`).text.length, 200);
});

test('sessions stand under their days, in their order', () => {
  const days = byDay([
    row('2026-11-25T12:00:00Z'),
    row('2026-11-25T11:00:00Z'),
    row('2026-11-20T11:00:00Z'),
    row('nonsense'),
  ]);
  assert.deepEqual(
    days.map((d) => d.rows.length),
    [2, 1, 1],
  );
  assert.match(days[0].day, /Wednesday, November 25, 2026/);
  setLanguage('de');
  assert.match(byDay([row('2026-11-25T12:00:00Z')])[0].day, /Mittwoch, 25\. November 2026/);
});

test('how long a session took', () => {
  assert.equal(lasted(row('2026-11-25T12:00:00Z', '2026-11-25T12:41:20Z')), '41\u00a0min');
  assert.equal(lasted(row('2026-11-25T12:00:00Z', '2026-11-25T12:00:20Z')), 'under a minute');
  assert.equal(lasted(row('2026-11-25T12:00:00Z')), '');
  assert.equal(lasted(row('2026-11-25T12:00:00Z', '2026-11-25T11:00:00Z')), ''); // a clock set back
});

test('a median has the verdict of the bands it falls in', () => {
  assert.deepEqual(
    [75, 60, 59.9, 52, 51, 90, 91].map((v) => verdictOf(bank([]), v)),
    ['met', 'met', 'near', 'near', 'missed', 'near', 'missed'],
  );
  assert.equal(verdictOf({ met: [5, null], near: [0, null] }, 400), 'met');
});

test('a plot holds its bands and what was flown; one leg gone astray does not flatten it', () => {
  const { low, high } = reach(bank([point(70, 72, 76, 40, 95)]));
  assert.ok(low < 52 && high > 90 && low > 20 && high < 120);
  const far = reach(bank([point(70, 72, 76, -4000, 9000)]));
  assert.ok(far.low > 20 && far.high < 125);
  const open = reach({ ...bank([point(3, 3, 3)]), aim: null, met: [null, null], near: [null, null] });
  assert.ok(open.high > open.low);
});

test('marks stand from left to right, higher values higher', () => {
  const box = { left: 0, right: 100, top: 0, bottom: 100 };
  const at = places(bank([point(60, 62, 64), point(70, 74, 78), point(74, 75, 76)]), box);
  assert.deepEqual(at.points.map((p) => p.x), [10, 50, 90]);
  for (const p of at.points) assert.ok(p.high <= p.q3 && p.q3 < p.median && p.median < p.q1 && p.q1 <= p.low);
  assert.ok(at.points[0].median > at.points[2].median);
  assert.ok(at.spans[0].near.top <= at.spans[0].met.top && at.spans[0].near.height >= at.spans[0].met.height);
  assert.equal(places(bank([point(60, 62, 64)]), box).points[0].x, 50);
  const halfOpen = places(bank([{ ...point(60, 62, 64), metBand: [5, null] }]), box);
  assert.equal(halfOpen.spans[0].met.top, 0);
  assert.equal(
    places(bank([{ ...point(60, 62, 64), metBand: undefined }]), box).points[0].verdict,
    'met',
    'a band that is left out is open',
  );
});

test('each session stands on the bands it was held against', () => {
  const other = { ...point(50, 51, 52), aim: 50, metBand: [45, 55], nearBand: [40, 60] };
  const box = { left: 0, right: 100, top: 0, bottom: 100 };
  const at = places(bank([other, other, point(50, 51, 52)]), box);
  assert.deepEqual(at.spans.map((s) => [s.from, s.to]), [[0, 70], [70, 100]]);
  assert.ok(at.spans[0].met.top > at.spans[1].met.top, 'the lower band stands lower');
  assert.deepEqual(at.points.map((p) => p.verdict), ['met', 'met', 'missed']);
  assert.ok(reach(bank([other])).low < 40, 'and all of them are on the plot');
});

test('how a check went, in a sentence', () => {
  assert.equal(
    trendWords(bank([point(60, 62, 64), point(70, 74, 76)]), 0),
    'last 74°, half of the legs within 6°; at first 62°',
  );
  assert.equal(trendWords(bank([point(60, 62, 64)]), 0), '62°, half of the legs within 4°');
  assert.equal(trendWords(bank([point(60, 62, 64), { ...point(74, 74, 74), legs: 1 }]), 0), 'last 74°; at first 62°');
  assert.equal(trendWords(bank([point(61.8, 62, 62.1)]), 0), '62°', 'legs alike say no "within 0°"');
  assert.equal(trendWords(bank([]), 0), 'never measured');
});
