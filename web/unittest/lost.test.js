// What the machine lost, in words.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { clock } from '../static/pure/format.js';
import { lostWords, strainWords } from '../static/pure/lost.js';

test('what the machine lost is said once it lost something', () => {
  assert.equal(lostWords(undefined), '');
  const last = '2026-05-04T10:15:00Z';
  assert.equal(lostWords({ datagrams: 0, last }), '');
  assert.equal(lostWords({ datagrams: 57, last }),
    `Datagrams that this machine lost since it started: 57, the last at ${clock(Date.parse(last))}. ` +
    'They came faster than it read them.');
});

test('what is given up now takes the place of what was lost before', () => {
  const lost = { datagrams: 57, last: '2026-05-04T10:15:00Z' };
  const lacking = [{ code: '', text: 'Busy.', args: {} }, { code: '', text: 'Lost.', args: {} }];
  assert.equal(strainWords(null), '');
  assert.equal(strainWords({}), '');
  assert.equal(strainWords({ lost }), lostWords(lost));
  assert.equal(strainWords({ lost, lacking: [] }), lostWords(lost));
  assert.equal(strainWords({ lost, lacking }), 'Busy. Lost.');
});
