// What the server says by a code: web/static/text/en.js, which go test ./stream/phrase -update writes, has all of it.

import assert from 'node:assert/strict';
import { afterEach, test } from 'node:test';
import { sentence, told } from '../static/pure/phrase.js';
import { setLanguage } from '../static/pure/text.js';
import { setUnits } from '../static/pure/units.js';
import { en } from '../static/text/en.js';
import { vocabulary } from '../static/text/languages.js';
import { codes } from './languages.js';

afterEach(() => {
  setLanguage('en');
  setUnits('aviation');
});

for (const { form, coded } of codes.map(vocabulary)) {
  test(`${form.name} has every sentence, with the same places`, () => {
    const places = (/** @type {string} */ s) => [...s.matchAll(/\{(\w+)(?::\w+)?\}/g)].map((m) => m[1]).sort();
    assert.deepEqual(Object.keys(coded).sort(), Object.keys(en).sort());
    for (const [code, english] of Object.entries(en)) {
      assert.deepEqual(places(coded[code]), places(english), code);
      const joins = !/[a-z]/i.test(english.replace(/\{[\w:]+\}/g, ''));
      if (!joins && coded !== en) assert.notEqual(coded[code], english, code);
    }
  });
}

test('arguments take the form of the language and the chosen units', () => {
  const place = { code: 'replay.place', args: { place: { value: -1234.5, unit: 's', digits: 1 } }, text: 'x' };
  assert.equal(told(place), 'the place is \u22121,234.5\u00a0s; it counts from 0, where the recording begins');
  setLanguage('de');
  assert.equal(told(place), 'die Stelle ist \u22121.234,5\u00a0s; gezählt wird ab 0, wo die Aufnahme beginnt');
  // NIST Special Publication 811, B.8: 1 ft is 0.3048 m.
  setUnits('metric');
  const feet = { ...place, args: { place: { value: 1500, unit: 'ft' } } };
  assert.match(told(feet), /^die Stelle ist 457\u00a0m;/);
  const pace = { code: 'replay.pace', args: { pace: { value: 0.05, digits: -1 }, least: { value: 1 }, most: 'x' } };
  assert.equal(told({ ...pace, text: '' }), 'pace ist 0,05; muss zwischen 1 und x liegen');
});

test('names stay as they are, phrases within a phrase are translated', () => {
  setLanguage('de');
  const name = { code: 'station.unknown', args: { name: '"Seat 3 {x} 1.5"' }, text: '' };
  assert.equal(told(name), 'es gibt keinen Platz "Seat 3 {x} 1.5"; GET /api/stations nennt alle');
  const why = ['disk full', { code: 'server.stopping', text: 'the server is stopping' }];
  const nested = { code: 'recording.unreadable', args: { why }, text: '' };
  assert.equal(told(nested), 'die Aufnahme ist nicht lesbar: disk full, der Server wird beendet');
});

test('phrases that are put together are each translated', () => {
  setLanguage('de');
  const side = { code: 'ball.half', text: '' };
  const args = { turn: { value: 155, unit: '°' }, motion: [{ code: 'ball.slip', text: '' }], widths: [side] };
  const ball = [{ code: 'note.ball-right', args, text: '' }];
  const propeller = [{ code: 'propeller.ease-left', text: '' }];
  assert.equal(
    told({ code: 'note.propeller', args: { ball, propeller }, text: '' }),
    'am schlimmsten bei 155°: Schmieren nach innen, die Kugel um die Hälfte ihrer Breite rechts; mehr rechtes ' +
      'Seitenruder. Zuerst das linke Seitenruder nachlassen, das gegen den Propeller gehalten wird',
  );
  const what = [{ code: 'none.lacks', args: { what: ['stall-margin'] }, text: '' }];
  assert.equal(told({ code: 'list.and-then', args: { first: what, rest: ['x'] }, text: '' }),
    'in den Daten fehlt: Abstand zur Überziehfahrt, x');
});

test('what was measured is translated part by part, in the chosen units', () => {
  const number = (/** @type {number} */ value, unit = '°', digits = 0) => ({ value, unit, digits });
  /** @param {string} code @param {Record<string, import('../static/types.d.ts').PhraseArg>} args */
  const part = (code, args) => [{ code, args, text: '' }];
  const between = (/** @type {number} */ low, /** @type {number} */ high, unit = '°') => 
    part('band.between', { low: number(low, unit), high: number(high, unit) });
  const label = ['Bank at 90°'];
  const shown = part('evidence.flown', { label, flown: number(107), wanted: between(60, 88) });
  const came = part('evidence.flown-at', {
    label: ['Lowest speed'],
    flown: number(94.6, 'kt', 1),
    turn: number(86),
    wanted: between(-63, 85, 'kt'),
  });
  const evidence = { code: 'evidence.with', args: { shown, came }, text: '' };
  assert.equal(
    told(evidence),
    'Bank at 90°: 107°, wanted 60 to 88°; with it came lowest speed: 94.6\u00a0kt at 86° of turn, wanted \u221263 ' +
      'to 85\u00a0kt',
  );
  setLanguage('de');
  setUnits('metric');
  assert.equal(
    told(evidence),
    'Querlage bei 90°: 107°, gewünscht 60 bis 88°; dazu kam Kleinste Fahrt: 175\u00a0km/h bei 86° der Kurve, ' +
      'gewünscht \u2212117 bis 157\u00a0km/h',
  );
});

test('a list ends with and', () => {
  const setting = { code: 'stream.paused', text: '' };
  const of = (/** @type {string[]} */ and) => 
    told({ code: 'setup.for', args: { channels: { and }, setting: [setting] }, text: '' });
  assert.equal(of(['ball']), 'For ball: The simulator is paused. Let it run.');
  assert.equal(
    of(['airspeed', 'ball', 'heading']),
    'For airspeed, ball and heading: The simulator is paused. Let it run.',
  );
  setLanguage('de');
  assert.equal(of(['airspeed', 'ball']), 'Für Fahrt und Kugel: Der Simulator ist angehalten. Laufen lassen.');
});

test('what has no code, or one of a newer server, is shown as it is', () => {
  setLanguage('de');
  assert.equal(told('disk full'), 'disk full');
  assert.equal(told(''), '');
  assert.equal(told({ code: 'of.tomorrow', args: {}, text: 'a sentence of tomorrow' }), 'a sentence of tomorrow');
});

test('a phrase stands for itself as a sentence, in the chosen language', () => {
  const forbidden = {
    code: 'plan.bank-normal',
    args: { limit: { value: 60, unit: '°' }, bank: { value: 75, unit: '°' } },
    text: 'the normal category allows 60° of bank; this maneuver asks for 75°',
  };
  assert.equal(sentence(forbidden), 'The normal category allows 60° of bank; this maneuver asks for 75°.');
  setLanguage('de');
  assert.equal(
    sentence(forbidden),
    'Die Normalkategorie erlaubt 60° Querlage; dieses Manöver verlangt 75°.',
  );
});
