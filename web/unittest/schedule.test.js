import assert from 'node:assert/strict';
import { test } from 'node:test';
import { lengths } from '../browsertest/lengths.js';
import { blind, decideCue, lengthOf, step, refined, syllables, timeTo } from '../static/pure/schedule.js';

const cue = (more = {}) => ({
  time: 10,
  kind: 'cue',
  id: 'cue-90',
  words: 'Roll out slowly',
  tone: '',
  turn: 50,
  to: 90,
  due: 14,
  ...more,
});
const frame = (more = {}) => ({ time: 11, state: 'leg', turn: 60, next: null, cues: [], ...more });

test('the time left is the frame’s word for that angle, else what was predicted', () => {
  assert.equal(timeTo(cue(), frame(), 0), 3);
  assert.equal(timeTo(cue(), frame({ cues: [{ to: 90, seconds: 2.5 }] }), 0.1), 2.4);
  assert.equal(
    timeTo(
      cue(),
      frame({
        cues: [
          { to: 45, seconds: 1 },
          { to: 90, seconds: 2 },
        ],
      }),
      0.5,
    ),
    1.5,
  );
  assert.equal(
    timeTo(cue(), frame({ next: { turn: 90, seconds: 1 }, cues: [{ to: 135, seconds: 9 }] }), 0),
    3,
    'of other angles: not taken',
  );
});

test('a cue begins when its length is left', () => {
  assert.equal(decideCue(cue(), frame(), 0, 1), 'wait');
  assert.equal(decideCue(cue(), frame(), 0, 3 - step), 'start');
  assert.equal(decideCue(cue(), frame(), 1, 2 - step), 'start', 'the clock runs on between frames');
});

test('what would end over 0.4 s late is dropped, and all when the leg is over', () => {
  assert.equal(decideCue(cue(), frame(), 0, 3.3), 'start');
  assert.equal(decideCue(cue(), frame(), 0, 3.5), 'late');
  assert.equal(decideCue(cue(), frame({ turn: 91 }), 0, 1), 'late');
  assert.equal(decideCue(cue(), frame({ state: 'after' }), 0, 1), 'over');
  assert.equal(
    decideCue(cue(), frame({ state: 'set-up', time: 9.5 }), 0, 1),
    'wait',
    'the event came before its frame',
  );
  assert.equal(decideCue(cue(), frame({ time: 2 }), 0, 1), 'over', 'the simulator began again');
});

test('paused or lost, a cue waits; back after a hidden minute it is dropped', () => {
  assert.equal(decideCue(cue(), frame(), blind + 0.1, 3), 'wait');
  assert.equal(decideCue(cue(), null, 0, 3), 'wait');
  assert.equal(decideCue(cue(), frame({ time: 70, turn: 80 }), 0, 1), 'late');
});

test('lengths follow the syllables and what was measured', () => {
  assert.equal(syllables('Roll out slowly'), 4);
  assert.equal(syllables(''), 0);
  assert.ok(syllables('Bank 45°') > syllables('Bank'));
  assert.ok(lengthOf('Roll out slowly', 1, undefined) > lengthOf('Roll out slowly', 1.5, undefined));
  let pace;
  for (let i = 0; i < 10; i++) pace = refined(pace, 'Roll out slowly', 1.75);
  assert.ok(Math.abs(lengthOf('Roll out slowly', 1, pace) - 1.75) < 1e-9);
});

test('after the sound check the length of any phrase is known to a few tenths of a second', () => {
  // Measured with a real voice: see lengths.js.
  let pace;
  for (const words of ['Halfturn speaks. Nose highest, bank growing.', 'Ninety degrees. Roll out slowly.']) {
    pace = refined(pace, words, lengths[words]);
  }
  const off = Object.entries(lengths).map(([words, s]) => ({ words, off: lengthOf(words, 1, pace) - s }));
  for (const o of off) assert.ok(Math.abs(o.off) < 0.6, `${o.words}: ${o.off.toFixed(2)} s`);
  assert.ok(
    off.filter((o) => Math.abs(o.off) < 0.3).length > 0.85 * off.length,
    JSON.stringify(off.filter((o) => Math.abs(o.off) >= 0.3)),
  );
});

test('numbers are counted as they are spoken', () => {
  for (const [words, n] of [
    ['0', 2],
    ['7', 2],
    ['17', 3],
    ['75', 4],
    ['80', 2],
    ['180', 5],
    ['1500', 6],
    ['6000', 3],
  ])
    assert.equal(syllables(words), n, words);
});
