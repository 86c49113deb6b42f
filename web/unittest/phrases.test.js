// Everything the server may say has its German: testdata/phrases.json, which go test writes from the
// shipped cards and the sources.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { after, before, test } from 'node:test';
import { keyOf, known, said, setLanguage } from '../static/pure/text.js';

/** @type {Record<string, string[]>} */
const phrases = JSON.parse(readFileSync(new URL('../testdata/phrases.json', import.meta.url), 'utf8'));

before(() => setLanguage('de'));
after(() => setLanguage('en'));

/** Words that are the same in German. */
const same = new Set(['Wing-over', 'Lazy eight', 'Chandelle', 'N1', '#', '#°']);

/** Words that tell a phrase put into German only in part. */
const english = /\b(the|nose|bank|within|at|of|and|up|down|level|speed|turn|is|held)\b(?!-)/;

/** How each part of the file is put into German; the rest by said(). */
const by = { guides: null };

for (const [from, all] of Object.entries(phrases)) {
  test(`German of ${from}`, () => {
    assert.ok(all.length > 0);
    const put = from in by ? by[from] : said;
    const missing = all.filter((words) => {
      if (put === null) return !known(words); // looked up as they stand
      if (english.test(put(words))) return true;
      return (
        put(words) === words &&
        !known(words) &&
        !known(keyOf(words)) &&
        !same.has(words) &&
        /[A-Za-z]{2}/.test(keyOf(words))
      );
    });
    assert.deepEqual(missing, []);
  });
}
