// What the machine lost, in words.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { clock } from '../static/pure/format.js';
import { lostWords } from '../static/pure/lost.js';

test('what the machine lost is said once it lost something', () => {
  assert.equal(lostWords(undefined), '');
  const last = '2026-05-04T10:15:00Z';
  assert.equal(lostWords({ datagrams: 0, last }), '');
  assert.equal(lostWords({ datagrams: 57, last }),
    `Datagrams that this machine lost since it started: 57, the last at ${clock(Date.parse(last))}. ` +
    'They came faster than it read them.');
});
