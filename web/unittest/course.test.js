// What a course says in words.

import assert from 'node:assert/strict';
import { afterEach, test } from 'node:test';
import { itemWords, markOf, passWords, promptsWords, stateWords, towardWords } from '../static/pure/course.js';
import { setLanguage } from '../static/pure/text.js';
import './languages.js';

afterEach(() => setLanguage('en'));

/** @type {import('../static/course.d.ts').CourseState} */
const state = { id: 'a', state: 'open', prompts: 'all', sides: [{ direction: 'right', good: 2, of: 3, need: 5 },
  { direction: 'left', good: 0, of: 1, need: 5 }], tries: 4, good: 2, last: '', passedBy: [], lately: [], missed: [],
ruled: null };

test('a step has the mark of its state, and a half disc once it was tried', () => {
  assert.equal(markOf({ state: 'locked', tries: 0 }), 'not-measured');
  assert.equal(markOf({ state: 'open', tries: 0 }), 'not-measured');
  assert.equal(markOf({ state: 'open', tries: 1 }), 'near');
  assert.equal(markOf({ state: 'passed', tries: 0 }), 'met');
  assert.equal(markOf({ state: 'slipped', tries: 9 }), 'missed');
});

test('how far a step is from being passed, by sides or not, until it is', () => {
  assert.equal(towardWords(state), 'right 2 of 5, left 0 of 5');
  assert.equal(towardWords({ ...state, sides: [{ direction: '', good: 3, of: 4, need: 4 }] }), '3 of 4');
  assert.equal(towardWords({ ...state, state: 'passed' }), '');
  assert.equal(towardWords({ ...state, state: 'locked' }), '');
  assert.equal(towardWords({ ...state, state: 'slipped' }), 'right 2 of 5, left 0 of 5');
});

test('what passes a step', () => {
  /** @type {import('../static/course.d.ts').CourseRule} */
  const rule = { good: 5, of: 6, sides: 'each', source: '' };
  assert.equal(passWords({ checkFlight: false, pass: rule }), '5 good of the last 6, to each side');
  assert.equal(passWords({ checkFlight: false, pass: { ...rule, sides: 'either' } }), '5 good of the last 6');
  assert.equal(passWords({ checkFlight: true, pass: rule }), 'one try to each side a day, flown silent');
});

test('what is flown next is said with its side, in each language', () => {
  const item = { title: 'Steep turn', direction: 'left' };
  assert.equal(itemWords(item), 'Steep turn, to the left');
  setLanguage('de');
  assert.equal(itemWords(item), 'Steilkurve, nach links');
  assert.equal(stateWords('slipped'), 'nachgelassen');
  assert.deepEqual(['all', 'fade', 'off', 'other'].map(promptsWords),
    ['alle Ansagen', 'weniger werdende Ansagen', 'keine Ansagen', 'other']);
});
