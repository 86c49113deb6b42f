// A device that was let in goes on to the page it asked for, and nowhere else.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { destination } from '../static/pure/enter.js';

test('a device goes on to a path of this server alone', () => {
  for (const [to, want] of [
    ['/', '/'],
    ['/sessions?student=A%20B', '/sessions?student=A%20B'],
    ['//evil.example/', '/'],
    ['/\\evil.example/', '/'],
    ['https://evil.example/', '/'],
    ['javascript:alert(1)', '/'],
    ['', '/'],
  ]) {
    assert.equal(destination(`?${new URLSearchParams({ to })}`), want, to);
  }
  assert.equal(destination(''), '/');
});
