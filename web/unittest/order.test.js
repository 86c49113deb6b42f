// What holds a set-up back is told as an order.

import assert from 'node:assert/strict';
import { afterEach, test } from 'node:test';
import { holding, order, readyWords } from '../static/pure/order.js';
import { setUnits } from '../static/pure/units.js';

/** @import { Gate } from '../static/types.d.ts' */

afterEach(() => setUnits('aviation'));

const entry = {
  code: 'want.speed', text: '130 kt, within 5 kt',
  args: { speed: { value: 130, unit: 'kt' }, within: { value: 5, unit: 'kt' } },
};

/** @param {string} id @param {number | null} value @param {string} unit @returns {Gate} */
const gate = (id, value, unit) => ({
  id, label: id, want: id === 'entry-speed' ? entry : 'within 5', value, unit, ok: false,
});

for (const { of, words } of [
  { of: gate('entry-speed', 147, 'kt'), words: 'Slow down: 147, want 130\u00a0kt' },
  { of: gate('entry-speed', 112, 'kt'), words: 'Speed up: 112, want 130\u00a0kt' },
  { of: { ...gate('entry-speed', 112, 'kt'), want: 'steady' }, words: 'Hold the speed steady: steady' },
  { of: gate('wings-level', -8, '°'), words: 'Level the wings: 8°' },
  { of: gate('height-held', -450, 'ft/min'), words: 'Stop the descent: 450\u00a0ft/min' },
  { of: gate('height-held', 450, 'ft/min'), words: 'Stop the climb: 450\u00a0ft/min' },
  { of: { ...gate('hard-deck', 1200, 'ft'), want: 'at least 1,500 ft' },
    words: 'Climb: 1,200\u00a0ft, want at least 1,500 ft' },
  { of: gate('ball', 0.6, 'balls'), words: 'Center the ball: 0.60\u00a0ball widths' },
  { of: gate('on-the-line', -12, '°'), words: 'Turn onto the line: 12° off' },
  { of: gate('another', 3, ''), words: 'another: within 5' },
]) {
  test(`${of.id} at ${of.value}`, () => assert.equal(order(of), words));
}

test('in metric units both numbers are metric', () => {
  setUnits('metric');
  assert.equal(order(gate('entry-speed', 147, 'kt')), 'Slow down: 272, want 241\u00a0km/h');
});

test('what takes longest to mend is named first; what is advised or not measured holds nothing back', () => {
  const all = [gate('entry-speed', 147, 'kt'), { ...gate('clearing-turns', 0, '°'), optional: true },
    gate('hard-deck', 900, 'ft')];
  assert.equal(holding(all)?.id, 'hard-deck');
  assert.equal(holding(all.slice(0, 2))?.id, 'entry-speed');
  assert.equal(holding([{ ...gate('entry-speed', 130, 'kt'), ok: true }]), null);
});

test('ready says so when the speed is not known', () => {
  assert.equal(readyWords([gate('entry-speed', 130, 'kt')], true), 'Ready');
  assert.equal(readyWords([gate('entry-speed', null, 'kt')], true), 'Ready, speed not known');
  assert.equal(readyWords([gate('entry-speed', null, 'kt')], false), 'Not ready');
  assert.equal(readyWords([], true), '');
});
