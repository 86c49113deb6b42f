import assert from 'node:assert/strict';
import { test } from 'node:test';
import { heard, place } from '../static/pure/replay.js';

const replay = { session: 'a', position: 10, duration: 60, pace: 2, paused: false, over: false };

test('a replay goes on between two words of where it stands', () => {
  assert.equal(place(replay, 3), 16);
  assert.equal(place(replay, 300), 60);
  assert.equal(place({ ...replay, paused: true }, 3), 10);
  assert.equal(place(replay, -1), 10);
});

test('a replay speaks at about the pace of the flight only', () => {
  assert.equal(heard('full', null), 'full');
  for (const [pace, words] of [
    [0.25, 'tones'],
    [0.5, 'full'],
    [1, 'full'],
    [1.5, 'full'],
    [2, 'tones'],
    [8, 'tones'],
  ]) {
    assert.equal(heard('full', { replay: { ...replay, pace } }), words, `at ${pace}`);
  }
});
