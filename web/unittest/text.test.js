import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { afterEach, test } from 'node:test';
import { flag, number, withUnit } from '../static/pure/format.js';
import { known, setLanguage, t } from '../static/pure/text.js';
import { inUnits, laneTicks, setUnits } from '../static/pure/units.js';
import { parts } from '../static/text/de.js';

afterEach(() => {
  setLanguage('en');
  setUnits('aviation');
});

test('every text the pages ask for has a German entry', () => {
  const root = new URL('../static/', import.meta.url);
  const missing = [];
  for (const name of readdirSync(root, { recursive: true })) {
    if (!name.endsWith('.js') || name.startsWith('text')) continue;
    const code = readFileSync(new URL(name, root), 'utf8')
      .replace(/^\s*(\/\/|\*|\/\*).*$/gm, '') // comments
      .replace(/' \+\s*'/g, ''); // texts of several lines
    for (const [, , key] of code.matchAll(/\bt\(\s*(?:[^'"`()]*\?\s*)?(['"])((?:(?!\1)[^\\\n])*)\1/g)) {
      if (!known(key)) missing.push(`${name}: ${key}`);
    }
    for (const [, , key] of code.matchAll(/\bt\(\s*[^'"`]*\?\s*'[^']*'\s*:\s*(['"])((?:(?!\1)[^\\\n])*)\1/g)) {
      if (!known(key)) missing.push(`${name}: ${key}`);
    }
  }
  assert.deepEqual(missing, []);
});

// The International System of Units in the United States (NIST SP 811, appendix B.8):
// 1 nautical mile = 1,852 m, 1 ft = 0.3048 m.
test('units are converted on choice', () => {
  assert.equal(withUnit(100, 'kt'), '100\u00a0kt');
  setUnits('metric');
  assert.equal(withUnit(100, 'kt'), '185\u00a0km/h');
  assert.equal(flag('height', 'ft', 1000), '+305\u00a0m');
  assert.equal(withUnit(5, 'NM'), '9.3\u00a0km');
  assert.equal(withUnit(1000, 'ft/min'), '5.1\u00a0m/s');
  assert.equal(withUnit(45, '°'), '45°');
  assert.equal(inUnits(1, 'g').unit, 'g');
});

test('German has a decimal comma and points at the thousands', () => {
  setLanguage('de');
  assert.equal(number(-1234.5, 1), '\u22121.234,5');
  assert.equal(t('leg {n} of {of}', { n: 1, of: 2 }), 'Teil 1 von 2');
});

test('lanes are ruled in round numbers of the chosen unit', () => {
  assert.deepEqual(laneTicks([80, 100, 120], 'kt').ticks.map((x) => x.value), [80, 100, 120]);
  setUnits('metric');
  const { unit, ticks } = laneTicks([80, 100, 120], 'kt');
  assert.equal(unit, 'km/h');
  assert.deepEqual(ticks.map((x) => x.value), [150, 200]);
  assert.deepEqual(laneTicks([110, 150], 'kt').ticks.map((x) => x.value), [225, 250, 275]);
  assert.deepEqual(laneTicks([0, 600], 'ft').ticks.map((x) => x.value), [0, 100]);
  for (const x of ticks) assert.ok(Math.abs(x.at * 1.852 - x.value) < 1e-9);
});

test('each word of the pages has its German in one place', () => {
  const seen = new Set();
  const twice = parts.flatMap((p) => Object.keys(p)).filter((key) => seen.has(key) || !seen.add(key));
  assert.deepEqual(twice, []);
});
