// A gap in the stream: the band always says something, and the trace goes on over it.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { tracePath } from '../static/pure/geometry.js';
import { hint } from '../static/pure/mode.js';
import { empty, reduce } from '../static/pure/store.js';
import { messages } from './contract.js';

const at = Date.UTC(2026, 0, 2, 12);
const of = (type) => messages.find((m) => m.type === type);
const link = { state: 'open', since: at, retryAt: null, reason: '' };
const begun = reduce({ ...empty(at), link },
  { ...of('hello'), station: 'Seat 3', seq: 0, info: of('station'), plan: of('plan'), frame: null, last: null }, at);
const frame = (turn, more) => ({
  ...of('frame'), state: 'leg', direction: 'right', turn, awaited: null, values: { bank: turn / 2, pitch: 5 }, ...more,
});

test('a gap in the stream leaves no blank band', () => {
  const blank = [];
  for (const is of ['live', 'paused', 'silent', 'gone', 'replaying']) {
    for (const state of ['set-up', 'turn', 'leg', 'after']) {
      for (const phase of ['', 'Rolling in']) {
        for (const lost of [false, true]) {
          const seen = reduce(begun, frame(40, { state, phase, gates: [] }), at);
          const now = { ...seen, info: { ...seen.info, link: is }, link: { ...link, state: lost ? 'lost' : 'open' } };
          for (const gap of [0, 1400, 1600, 20_000]) {
            if (hint(now, at + gap).trim() === '') blank.push(`${is}, ${state}, ${lost}, ${gap} ms`);
          }
        }
      }
    }
  }
  assert.deepEqual(blank, []);
});

test('the trace goes on over a gap, and begins again where the turn does', () => {
  const flown = (...turns) => turns.reduce((s, [turn, time]) => reduce(s, frame(turn, { time }), at), begun);
  const over = flown([40, 10], [41, 10.1], [75, 16]); // six seconds without a frame
  assert.deepEqual(over.trace.map((p) => p.turn), [40, 41, 75]);
  const strip = { top: 0, bottom: 100, lane: { channel: 'bank', unit: '°', low: 0, high: 90, ticks: [] } };
  const path = tracePath({ left: 0, right: 200, top: 0, bottom: 100 }, 180, strip, over.trace);
  assert.equal(path.match(/M/g)?.length, 1, 'one line, with no hole in it');
  assert.deepEqual(flown([40, 10], [75, 16], [5, 30]).trace.map((p) => p.turn), [5]);
});

test('a moment that is marked stays with its leg until the next one', () => {
  const mark = (seq, turn) => ({ ...of('mark'), station: 'Seat 3', seq, turn });
  let state = reduce(begun, mark(1, null), at);
  assert.deepEqual(state.moments, [], 'before a leg there is no place for it');
  state = reduce(reduce(state, frame(40, { time: 10 }), at), mark(2, 40), at);
  state = reduce(state, { ...of('act'), station: 'Seat 3', seq: 3, act: 'mute' }, at);
  state = reduce(state, frame(90, { time: 15, state: 'after' }), at);
  assert.deepEqual(state.moments.map((m) => m.turn), [40]);
  assert.deepEqual(reduce(state, frame(3, { time: 30 }), at).moments, []);
});
