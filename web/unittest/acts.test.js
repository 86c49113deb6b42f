// Keys and buttons: which act they are.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { actOf, actOfButton, acts, after, boxed, buttonName, buttoned, pressed } from '../static/pure/acts.js';
import { clean } from '../static/settings.js';

test('every act has a key of its own', () => {
  assert.equal(new Set(acts.map((a) => a.key)).size, acts.length);
  for (const { act, key } of acts) assert.equal(actOf(key.toLowerCase()), act);
  assert.equal(actOf('q'), '');
});

test('a button is pressed once, when it goes down', () => {
  assert.deepEqual(pressed([false, true, false], [true, true, false]), [0]);
  assert.deepEqual(pressed([], [false, true]), [1]);
  assert.deepEqual(pressed([true], [false]), []);
});

test('a button is that of one joystick', () => {
  const buttons = { mark: buttonName('stick', 3), end: buttonName('throttle', 3) };
  assert.equal(actOfButton(buttons, 'stick #3'), 'mark');
  assert.equal(actOfButton(buttons, 'throttle #3'), 'end');
  assert.equal(actOfButton(buttons, 'stick #4'), '');
});

test('buttons that are kept are of acts there are', () => {
  assert.deepEqual(clean({ buttons: { mark: 'stick #3', loop: 'stick #4', mute: 7 } }).buttons, { mark: 'stick #3' });
  assert.equal(buttoned.some(({ act }) => act === 'keys'), false);
});

test('after the last one comes the first', () => {
  assert.equal(after(['a', 'b'], 'b'), 'a');
  assert.equal(after(['a', 'b'], 'c'), 'a');
  assert.equal(after([], 'a'), undefined);
});

test('what a button box is told to send is what the server does', () => {
  const server = readFileSync(new URL('../acts.go', import.meta.url), 'utf8');
  const table = server.slice(server.indexOf('var acts = '), server.indexOf('// An ActDone'));
  assert.ok(boxed.length > 4);
  for (const { act } of boxed) {
    assert.match(table, new RegExp(`"${act}":|message\\.Act${act.charAt(0).toUpperCase()}${act.slice(1)}:`));
  }
});
