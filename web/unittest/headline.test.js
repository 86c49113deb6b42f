// What stands over a debrief: the count beside the verdict is the one the server's headline gives, and is told once.

import assert from 'node:assert/strict';
import { afterEach, test } from 'node:test';
import { remedyOf, shortHead, withinWords } from '../static/elements/headline.js';
import { setLanguage } from '../static/pure/text.js';
import './languages.js';

afterEach(() => setLanguage('en'));

/** The headline as the server codes it; stream/phrase/english_grade.go. */
const headline = {
  code: 'head.not-yet',
  args: {
    what: ['Ball within a quarter of its width'],
    within: [{ code: 'head.count', args: { met: { value: 24 }, of: { value: 25 } }, text: '24 of 25 within limits' }],
  },
  text: 'Not yet: Ball within a quarter of its width; 24 of 25 within limits',
};

/** @param {object} of @returns {import('../static/types.d.ts').Leg} */
const leg = (of) => /** @type {any} */ ({
  headline,
  outcome: 'finished',
  checks: [...Array(24).fill('met'), 'missed', 'not-measured'].map((verdict) => ({ verdict, weight: 1 })),
  ...of,
});

test('how many were within limits, of those that were measured', () => {
  assert.equal(withinWords(leg({})), '24 of 25 within limits, 1 not measured');
  assert.equal(withinWords(leg({ checks: [{ verdict: 'not-measured', weight: 1 }] })), '');
  const nothing = [{ verdict: 'met', weight: 1 }, { verdict: 'missed', weight: 0 }];
  assert.equal(withinWords(leg({ checks: nothing })), '1 of 1 within limits');
});

test('how many were not measured stands beside the headline, too', () => {
  const inner = leg({}).headline;
  const args = { headline: [inner], none: { value: 1 }, all: { value: 26 } };
  const head = { code: 'head.unmeasured', args, text: '' };
  assert.equal(shortHead(leg({ headline: head })), 'Not yet: Ball within a quarter of its width');
});

test('the count stands beside the headline, not in it too, in either language', () => {
  assert.equal(shortHead(leg({})), 'Not yet: Ball within a quarter of its width');
  setLanguage('de');
  const german = shortHead(leg({}));
  assert.doesNotMatch(german, /24|25/);
  assert.match(german, /^Noch nicht/);
});

test('only a leg that was stopped has a remedy, each of its own', () => {
  assert.equal(remedyOf(leg({})), '');
  const codes = ['end.stalled', 'end.below-deck', 'end.over-speed', 'end.over-load', 'end.over-bank'];
  const told = codes.map((code) => remedyOf(leg({ outcome: 'knock-off', reason: { code, text: code } })));
  assert.equal(new Set(told).size, codes.length);
  assert.match(told[0] ?? '', /^Lower the nose first/);
  assert.match(remedyOf(leg({ outcome: 'knock-off', reason: 'it was' })), /^Recover to level flight first/);
});
