// The rules that the server and the pages share, by the tables in testdata/rules: the Go tests of web and web/speech
// read the same files.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { keepLevel, levelApart, levelKept, sinceEntry } from '../static/pure/entry.js';
import { verdictWords } from '../static/pure/format.js';
import { blind, decideCue, lengthOf, setBack, step, syllables, tolerance } from '../static/pure/schedule.js';
import { grades } from '../static/pure/sessions.js';
import { inTurn, seriesKept } from '../static/pure/store.js';
import { decide, kinds, late, patience } from '../static/pure/voice.js';
import { vocabulary } from '../static/text/languages.js';
import './languages.js';

const read = (name) => JSON.parse(readFileSync(new URL(`../testdata/rules/${name}.json`, import.meta.url), 'utf8'));

/** The rows of a table, which is never empty. */
function rows(name) {
  const all = read(name).rows;
  assert.ok(all.length > 0, name);
  return all;
}

test('limits', () => {
  const { what, ...limits } = read('constants');
  assert.ok(what);
  assert.deepEqual({ late, patience, tolerance, blind, setBack, step, levelKept, levelApart, seriesKept }, limits);
});

test('what gives way to what', () => {
  for (const r of rows('give-way')) {
    const callout = { time: 0, kind: r.comes, id: r.id, words: r.words, tone: '', turn: 0 };
    const now = { words: r.level, age: r.age, speaking: r.speaking || null, voice: true };
    const order = decide(callout, now);
    const said = order.say !== '';
    assert.deepEqual(
      { cancel: order.cancel, say: said, wait: said && order.wait },
      { cancel: r.cancel, say: r.say, wait: r.wait },
      JSON.stringify(r),
    );
  }
});

test('when a cue is begun', () => {
  for (const r of rows('cues')) assert.equal(decideCue(r.cue, r.frame, r.age, r.length), r.want, r.why);
});

test('how long words take', () => {
  for (const r of rows('syllables')) {
    assert.equal(syllables(r.words), r.syllables, r.words);
    assert.ok(Math.abs(lengthOf(r.words, 1, undefined) - r.seconds) < 1e-9, r.words);
  }
});

test('the first degrees of a turn', () => {
  const frame = ({ time, turn = 0, climb = null, ...values }, state, direction) =>
    ({ time, turn, climb, state, direction, values: { pitch: 0, ...values } });
  for (const r of rows('entry')) {
    let level = [];
    for (const f of r.level) level = keepLevel(level, frame(f, 'set-up', ''));
    const back = sinceEntry(level, frame(r.first, 'turn', r.direction));
    const got = back.map(({ turn, time, bank, height }) => ({ turn, time, bank, height }));
    const rounded = got.map((p) => ({ ...p, turn: Math.round(p.turn * 1e6) / 1e6 }));
    assert.deepEqual(rounded, r.want, r.why);
  }
});

test('the words of messages and files', () => {
  const words = read('vocabulary');
  assert.deepEqual(grades, words.grades);
  assert.deepEqual(kinds, words.callouts);
  for (const v of words.verdicts) assert.ok(Object.hasOwn(vocabulary('de').pages, verdictWords(v)), v);
  for (const state of words.turning) assert.ok(inTurn({ state }), state);
  for (const state of words.level) assert.ok(!inTurn({ state }), state);
  // The types, so that the compiler holds the rest of the pages to the same words.
  const types = readFileSync(new URL('../static/types.d.ts', import.meta.url), 'utf8');
  const union = (name) => new RegExp(`export type ${name} =([^;]+);`).exec(types)?.[1] ?? '';
  const listed = (name) => [...union(name).matchAll(/'([^']*)'/g)].map((m) => m[1]).filter((w) => w !== '');
  assert.deepEqual(listed('Verdict'), words.verdicts);
  assert.deepEqual(listed('Grade'), words.grades);
  assert.deepEqual(listed('CalloutKind'), words.callouts);
  assert.deepEqual(listed('Outcome'), words.outcomes);
});
