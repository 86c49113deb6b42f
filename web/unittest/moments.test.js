import assert from 'node:assert/strict';
import { afterEach, test } from 'node:test';
import { inLeg, markWords, reached, turnAt } from '../static/pure/moments.js';
import { setLanguage } from '../static/pure/text.js';
import './languages.js';

afterEach(() => setLanguage('en'));

const remark = (leg, time, words = 'Marked') => ({ id: 1, leg, time, by: '', words, at: '' });

test('a moment belongs to the leg it lies in', () => {
  const legs = [{ n: 1, start: 100, end: 120, place: 10 }, { n: 2, start: 150, end: 170, place: 60 }];
  for (const [leg, time, its] of [
    [0, 15, 1], [0, 9.6, 1], [0, 30.5, 1], [0, 45, 0], [0, 60, 2], [0, 90, 0],
    [0, null, 0], // of the session as a whole
    [2, 15, 2], // somebody said which
  ]) {
    assert.equal(inLeg(remark(leg, time), legs).leg, its, `leg ${leg}, ${time} s`);
  }
});

test('a moment stands where the nose was then', () => {
  const trace = [{ turn: 0, time: 100 }, { turn: 30, time: 103 }, { turn: 90, time: 110 }];
  assert.deepEqual([99, 99.6, 100, 104, 110, 300].map((at) => turnAt(trace, at)), [null, 0, 0, 30, 90, 90]);
  assert.equal(turnAt([], 100), null);
});

test('a replay shows what was remarked on as it comes to it', () => {
  const trace = [{ turn: 0, time: 100 }, { turn: 30, time: 103 }, { turn: 90, time: 110 }];
  const all = [remark(0, 13.5), remark(1, 21, 'Late here'), remark(1, null, 'Well flown'), remark(0, 2)];
  assert.deepEqual(reached(all, trace.slice(0, 2), { time: 103, place: 13 }), []);
  assert.deepEqual(reached(all, trace.slice(0, 2), { time: 104, place: 14 }), [{ turn: 30, words: 'Marked' }]);
  assert.deepEqual(reached(all, trace, { time: 112, place: 22 }), [
    { turn: 30, words: 'Marked' },
    { turn: 90, words: 'Late here' },
  ]);
});

test('only what a button writes is translated', () => {
  setLanguage('es');
  assert.deepEqual(['', 'Marked', 'Late here'].map(markWords), ['Marcado', 'Marcado', 'Late here']);
});
