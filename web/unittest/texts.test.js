// Each language has the texts of shipped cards, guides and tables: testdata/texts.json, which go test writes, has them.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { afterEach, test } from 'node:test';
import { told } from '../static/pure/phrase.js';
import { cardText, setLanguage } from '../static/pure/text.js';
import { readOf, wordsOf } from '../static/pure/voice.js';
import * as de from '../static/text/de.js';
import * as es from '../static/text/es.js';
import { vocabulary } from '../static/text/languages.js';
import './languages.js';

/** @type {Record<string, string[]>} */
const golden = JSON.parse(readFileSync(new URL('../testdata/texts.json', import.meta.url), 'utf8'));

afterEach(() => setLanguage('en'));

/** Names, and words that are the same in all languages. */
const same = new Set(['Wing-over', '1950 rpm', 'N1', 'GDL 90', 'DIS entity state', 'MAVLink 1', 'MAVLink 2',
  'native FDM 24', 'native FDM 25', 'FlightGear', 'JSBSim', 'Microsoft Flight Simulator']);

/** Words that tell a text translated only in part; simulators and their menus have English names. */
const english = /\b(the|nose|within|of|and|up|down|level|turn|is|held|hold)\b(?!-)/;

const shipped = { de: de.shipped, es: es.shipped };

for (const [code, parts] of Object.entries(shipped)) {
  const language = /** @type {import('./languages.js').Language} */ (code);
  const { form, texts } = vocabulary(language);

  test(`${form.name} has every text, and none is left over`, () => {
    const all = Object.values(golden).flat();
    assert.ok(all.length > 300);
    assert.deepEqual(Object.keys(texts).sort(), [...new Set(all)].sort());
  });

  for (const [of, all] of Object.entries(golden)) {
    test(`${form.name} of ${of}`, () => {
      assert.ok(all.length > 0);
      setLanguage(language);
      const places = (/** @type {string} */ s) => (of === 'said' ? [...s.matchAll(/\{\w+\}/g)].map(String) : []);
      const wrong = all.filter((text) => {
        const words = cardText(text);
        if (words === text) return !same.has(text);
        return (of !== 'guides' && !same.has(text) && english.test(words)) ||
          String(places(words)) !== String(places(text));
      });
      assert.deepEqual(wrong, []);
    });
  }

  test(`${form.name} has each text in one place`, () => {
    const seen = new Set();
    assert.deepEqual(parts.flatMap((p) => Object.keys(p)).filter((key) => seen.has(key) || !seen.add(key)), []);
  });
}

// The aspects and grades of coach/assess and coach, which a student touches: the pages find their words by variable.
for (const [code, { pages }] of Object.entries({ de, es })) {
  test(`what a student rates has words of ${code}`, () => {
    const rated = ['bank', 'nose', 'speed', 'height', 'heading', 'ball', 'timing', 'nothing', 'unable', 'fair', 'good',
      'excellent'];
    assert.deepEqual(rated.filter((word) => !Object.hasOwn(pages, word)), []);
  });
}

test('a text of a user’s own card stays as it is written', () => {
  setLanguage('de');
  assert.equal(cardText('Steep turn, 47° of bank'), 'Steep turn, 47° of bank');
  assert.equal(cardText('constructor'), 'constructor');
  const phrase = { code: 'Bank {bank}, my way', args: { bank: { value: 47 } }, text: 'Bank 47, my way' };
  assert.equal(told(phrase), 'Bank 47, my way');
});

test('the figures of a heading are said one by one, and read together', () => {
  const phrase = { code: 'Level on {heading}', args: { heading: '3 6 0' }, text: 'Level on 3 6 0' };
  const cue = { time: 0, kind: 'cue', id: 'cue-180', words: phrase.text, tone: '', turn: 170, phrase };
  const call = /** @type {import('../static/types.d.ts').Callout} */ (cue);
  assert.deepEqual([wordsOf(call), readOf(call)], ['Level on 3 6 0', 'Level on 360']);
  setLanguage('es');
  assert.equal(readOf(call), 'Alas niveladas, 360');
});

test('what a card has said with numbers is translated as the card has it', () => {
  const cue = { time: 0, kind: 'cue', id: 'cue-90', words: 'Bank 60, nose level', tone: '', turn: 80 };
  const phrase = { code: 'Bank {bank}, nose level', args: { bank: { value: 60 } }, text: cue.words };
  const call = /** @type {import('../static/types.d.ts').Callout} */ ({ ...cue, phrase });
  const level = { code: 'Level on {heading}', args: { heading: '2 7 0' }, text: 'Level on 2 7 0' };
  const opposite = [{ code: 'heading.opposite', text: 'the opposite heading' }];
  const before = { ...level, args: { heading: opposite }, text: 'Level on the opposite heading' };
  assert.deepEqual([wordsOf(call), told(level), told(before)], [cue.words, level.text, before.text]);
  setLanguage('de');
  assert.equal(wordsOf(call), 'Querlage 60, Nase gerade');
  assert.equal(told(level), 'Gerade auf 2 7 0');
  assert.equal(told(before), 'Gerade auf dem Gegenkurs');
});
