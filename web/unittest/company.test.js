// Who else is at a station, in words, and one's own list of what to say.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { actedWords, isPilot, isYou, toldFor, watchingWords } from '../static/pure/company.js';
import { empty, reduce } from '../static/pure/store.js';
import { clean, fits, longest, most, tidy } from '../static/phrases.js';

const mo = { id: 'm', name: 'Mo Example', role: 'instructor' };
const hello = { type: 'hello', station: 'Seat 3', seq: 1, version: 1, server: 'x', run: 'r', stations: ['Seat 3'],
  info: null, plan: null, frame: null, trace: null, last: null, lastPlan: null, other: null, series: null,
  callouts: null };
const station = { ...hello, info: { name: 'Seat 3' }, plan: { maneuver: 'wing-over', title: 'Wing-over' } };
const after = (...messages) => messages.reduce((s, m) => reduce(s, m, 1000), empty(0));

test('who else watches is counted, without whoever looks at the page', () => {
  const watched = (watchers, nameless = 0, you = undefined) =>
    watchingWords(after({ ...station, you }, { type: 'watching', station: 'Seat 3', watchers, nameless }));
  const named = (...names) => names.map((name) => ({ name, id: name, role: 'viewer' }));
  assert.equal(watched([]), '');
  assert.equal(watched(null), '');
  assert.equal(watched([mo]), 'Mo Example watches');
  assert.equal(watched([mo], 0, mo), '');
  assert.equal(watched([], 1), 'one guest watches');
  assert.equal(watched([], 2), '2 guests watch');
  assert.equal(watched([], 1, { name: '', role: 'viewer' }), '');
  assert.equal(watched([mo], 2), 'Mo Example, 2 guests watch');
  assert.equal(watched(named('Ada', 'Bo')), 'Ada, Bo watch');
  assert.equal(watched(named('Ada', 'Bo', 'Cy', 'Di'), 1), 'Ada, Bo, 2 more, one guest watch');
});

test('a hello says who watches and who acted last; another one takes that back', () => {
  const acted = { id: 'a', command: 'choose', by: mo, at: new Date(500).toISOString(), choice: { maneuver: 'auto' } };
  const one = after({ ...station, watching: { watchers: [mo], nameless: 0 }, acted });
  assert.equal(watchingWords(one), 'Mo Example watches');
  assert.equal(actedWords(one, 1000), 'Mo Example chose: Whichever is flown');
  assert.equal(actedWords(one, 500 + toldFor + 1), '', 'that was long ago');
  assert.equal(watchingWords(reduce(one, station, 2000)), '');
  assert.equal(after({ ...hello, private: true }).private, true);
  assert.equal(after({ ...hello, private: true }, station).private, false);
});

test('what somebody else did is told, what was done here is not', () => {
  const did = (command, more = {}, you = undefined) => actedWords(after({ ...station, you },
    { type: 'acted', station: 'Seat 3', seq: 2, id: 'a', command, by: mo, at: '2026-01-02T03:04:05Z', ...more }), 1000);
  assert.equal(did('choose', { choice: { maneuver: 'wing-over' } }), 'Mo Example chose: Wing-over');
  assert.equal(did('choose', { choice: { maneuver: 'mine' } }), 'Mo Example chose: mine');
  assert.equal(did('student', { student: 'Ada' }), 'Mo Example named Ada');
  assert.equal(did('student', { student: '' }), 'Mo Example named nobody');
  assert.equal(did('end'), 'Mo Example ended the session');
  assert.equal(did('of a later version'), 'Mo Example acted');
  assert.equal(did('end', {}, mo), '');
  assert.equal(did('end', { by: { name: 'owner', role: 'owner' } }), '', 'the owner, on a page of their own');
  assert.equal(did('end', { by: { name: 'owner', role: 'owner' } }, mo), 'the owner ended the session');
});

test('the pilot and the owner may make a station private', () => {
  const of = (you) => isPilot(after({ ...station, you }));
  assert.deepEqual([of(undefined), of({ name: 'Ada', role: 'student' }), of(mo), of({ name: '', role: 'viewer' })],
    [true, true, false, false]);
  assert.equal(isYou(after({ ...station, you: { name: 'Ada' } }), { name: 'Ada' }), true);
});

test('one’s own phrases are what may be said, each once', () => {
  assert.equal(tidy(' Eyes\n outside '), 'Eyes outside');
  assert.deepEqual(['', 'a b c d e f g h i', 'x'.repeat(longest + 1), 'a b c d e f g h', '<b>'].map(fits),
    [false, false, false, true, true]);
  assert.deepEqual(clean([' Good ', 'Good', '', 7, null, 'x'.repeat(99)]), ['Good']);
  assert.deepEqual(clean('nonsense'), []);
  assert.equal(clean(Array.from({ length: most + 9 }, (_, i) => `phrase ${i}`)).length, most);
});
