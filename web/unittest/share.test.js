import assert from 'node:assert/strict';
import { test } from 'node:test';

import { shareWords } from '../static/pure/share.js';

const home = { with: 'desk.example', as: 'Seat 3', up: true, behind: 0, clock: 2, why: '' };

test('how a station is shared, in words', () => {
  for (const [share, words] of [
    [undefined, ''],
    [home, 'Shared with desk.example as Seat 3'],
    [
      { ...home, up: false, behind: 31.4, clock: 9000 },
      'Shared with desk.example: no link now, what is flown is sent later; 31 s of the recording are still to be sent',
    ],
    [{ ...home, up: false, why: 'the key is not known' }, 'Not shared with desk.example: the key is not known'],
    [{ ...home, clock: -3600 }, 'Shared with desk.example as Seat 3; the clocks differ by 3600 s'],
    [{ ...home, with: '', as: '' }, 'Flown at another Halfturn'],
    [
      { ...home, with: '', as: '', up: false, behind: 4 },
      'Flown at another Halfturn: no link now; 4 s of the recording are still to be sent',
    ],
    [
      { ...home, with: '', as: '', up: false, behind: 90000, why: 'The home did not return.' },
      'The home did not return.',
    ],
  ]) {
    assert.equal(shareWords(/** @type {any} */ (share)), words);
  }
});
