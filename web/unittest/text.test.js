import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { afterEach, test } from 'node:test';
import { flag, number, withUnit } from '../static/pure/format.js';
import { setLanguage, t } from '../static/pure/text.js';
import { inUnits, laneTicks, setUnits } from '../static/pure/units.js';
import { bestOf, isLanguage, languages, vocabulary } from '../static/text/languages.js';
import * as de from '../static/text/de.js';
import * as es from '../static/text/es.js';
import { codes } from './languages.js';

afterEach(() => {
  setLanguage('en');
  setUnits('aviation');
});

/** The words that the pages ask for, and where. */
function asked() {
  const root = new URL('../static/', import.meta.url);
  /** @type {Map<string, string>} */ const keys = new Map();
  for (const name of readdirSync(root, { recursive: true })) {
    if (typeof name !== 'string' || !name.endsWith('.js') || name.startsWith('text')) continue;
    const code = readFileSync(new URL(name, root), 'utf8')
      .replace(/^\s*(\/\/|\*|\/\*).*$/gm, '') // comments
      .replace(/' \+\s*'/g, ''); // texts of several lines
    for (const [, , key] of code.matchAll(/\bt\(\s*(?:[^'"`()]*\?\s*)?(['"])((?:(?!\1)[^\\\n])*)\1/g)) {
      keys.set(key, name);
    }
    for (const [, , key] of code.matchAll(/\bt\(\s*[^'"`]*\?\s*'[^']*'\s*:\s*(['"])((?:(?!\1)[^\\\n])*)\1/g)) {
      keys.set(key, name);
    }
  }
  return keys;
}

const parts = { de: de.parts, es: es.parts };

test('a language beside English has its parts in the tests', () => {
  assert.deepEqual(Object.keys(parts), codes.filter((code) => code !== 'en'));
  for (const code of codes) assert.equal(vocabulary(code).form.name, languages[code]);
});

for (const [code, of] of Object.entries(parts)) {
  const { form, pages } = vocabulary(/** @type {keyof typeof languages} */ (code));

  test(`${form.name} has all that the pages ask for`, () => {
    const keys = asked();
    assert.ok(keys.size > 300);
    assert.deepEqual([...keys].filter(([key]) => !Object.hasOwn(pages, key)), []);
  });

  test(`${form.name} has the words that the other languages have, with their places`, () => {
    const places = (/** @type {string} */ s) => [...s.matchAll(/\{\w+\}/g)].map(String).sort();
    assert.deepEqual(Object.keys(pages).sort(), Object.keys(vocabulary('de').pages).sort());
    for (const [key, words] of Object.entries(pages)) assert.deepEqual(places(words), places(key), key);
  });

  test(`${form.name} has each word in one place`, () => {
    const seen = new Set();
    assert.deepEqual(of.flatMap((p) => Object.keys(p)).filter((key) => seen.has(key) || !seen.add(key)), []);
  });
}

test('the language is the first of the browser’s that there is', () => {
  assert.equal(bestOf(['es-MX', 'en']), 'es');
  assert.equal(bestOf(['fr-FR', 'de-AT', 'en']), 'de');
  assert.equal(bestOf(['fr']), 'en');
  assert.equal(bestOf([]), 'en');
  assert.ok(!isLanguage('constructor'));
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

// Real Academia Española, Ortografía de la lengua española (2010): a thin space between groups of three, none in
// numbers of four figures. The comma is the mark in Spain.
test('Spanish has a decimal comma and a thin space at the thousands', () => {
  setLanguage('es');
  assert.equal(number(-1234.5, 1), '\u22121234,5');
  assert.equal(number(12345), '12\u202f345');
  assert.equal(t('leg {n} of {of}', { n: 1, of: 2 }), 'tramo 1 de 2');
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
