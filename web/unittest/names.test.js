import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { kept, longest } from '../static/pure/names.js';

const table = JSON.parse(readFileSync(new URL('../../coach/names/testdata/names.json', import.meta.url), 'utf8'));

// The server is held to the same table: coach/names.
test('a name becomes what the server keeps, and what it refuses still holds why', () => {
  assert.equal(longest, table.longest);
  assert.ok(table.vectors.length > 20);
  for (const v of table.vectors) {
    const name = kept(v.in);
    if (v.refused === undefined) assert.equal(name, v.name, v.what);
    else if (/^U\+/.test(v.refused))
      assert.ok(name.includes(String.fromCodePoint(parseInt(v.refused.slice(2), 16))), v.what);
    else assert.ok([...name].length > longest, v.what);
  }
});
