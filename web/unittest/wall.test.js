// The sheets of the desk as the messages of the wall change them.

import assert from 'node:assert/strict';
import test from 'node:test';
import { heardAs } from '../static/pure/heard.js';
import { sheetLanes, sheetNames, sheetSentence, sheetTitle, sheetWords } from '../static/pure/sheet.js';
import { flown, Wall } from '../static/pure/wall.js';
import { messages } from './contract.js';

const now = 1_000_000;

const stage = {
  state: 'leg', direction: 'right', phase: 'over the top', ready: false, unclear: false, awaited: false, holds: '',
  gate: '',
};
const info = {
  student: 'Ada', link: 'live', since: now, rate: 60, advice: '', recording: 'on', session: 's', auto: false,
};
const plan = {
  maneuver: 'wing-over', title: 'Wing-over', turn: 180, legs: 2,
  posts: [45, 90, 135].map((turn) => ({ turn, label: `${turn}°` })),
  lanes: [
    { channel: 'bank', unit: '°', low: -8, high: 95, corridor: [[0, 0, 10], [90, 60, 85], [180, 0, 10]] },
    { channel: 'pitch', unit: '°', low: -40, high: 40, corridor: [[0, -5, 5], [45, 15, 25], [180, -5, 5]] },
    { channel: 'airspeed', unit: 'kt', low: 60, high: 140, corridor: [[0, 60, 140], [180, 60, 140]] },
    { channel: 'height', unit: 'ft', low: 0, high: 700, corridor: [[0, 0, 700], [180, 0, 700]] },
  ],
};
const callout = (kind, id, words, more = {}) => ({ time: 1, kind, id, words, tone: '', turn: 0, ...more });

/** A wall that took these sheets of one station, one message each. */
function walled(...sheets) {
  const wall = new Wall();
  sheets.forEach((sheet, i) =>
    wall.take({
      type: 'wall', station: '', run: 'r', mark: i + 1, time: now, names: i === 0 ? ['Seat 3'] : null,
      sheets: [{ name: 'Seat 3', ...sheet }],
    }, now));
  return { wall, tile: wall.tiles.get('Seat 3') };
}

const flying = { plan, info, stage, trace: [[1, 2, 1, 130, 0]], now: { turn: 5, lanes: [8, 3, 129, 12.5] } };

test('a wall knows the stations, what changed, and where it stands', () => {
  const wall = new Wall();
  const take = (m) => wall.take({ type: 'wall', station: '', run: 'r', time: now + 700, names: null, ...m }, now);
  assert.equal(take({ mark: 1, names: ['a', 'b'], sheets: [{ name: 'a', info }, { name: 'b', info }] }), null);
  assert.deepEqual(take({ mark: 2, sheets: [{ name: 'b', stage }] }), new Set(['b']));
  assert.deepEqual([wall.mark, wall.ahead, wall.whole], [2, 700, true]);
  take({ mark: 3, names: ['b'], sheets: [] });
  assert.deepEqual([...wall.tiles.keys()], ['b']);
  take({ mark: 4, names: ['b', 'c'], sheets: [] });
  assert.equal(wall.whole, false, 'nothing is known of c');
  take({ run: 'other', mark: 1, names: ['d'], sheets: [{ name: 'd' }] });
  assert.deepEqual([...wall.tiles.keys()], ['d'], 'a server that was started again');
});

test('what the server writes is understood', () => {
  const wall = new Wall();
  for (const message of messages.filter((m) => m.type === 'wall')) wall.take(message, now);
  const tile = wall.tiles.get('Seat 3');
  assert.equal(sheetNames(tile).name, 'Ada');
  assert.equal(sheetLanes(tile).length, 2);
  assert.ok(flown(tile) && tile.trace.length > 0 && tile.ticks.length > 20);
  assert.match(sheetSentence(tile, sheetWords(tile, now, 0)), /^Ada, Seat 3; /);
});

test('a sheet has a student before the station, and of an address the end apart', () => {
  const titled = (name, student = '') => sheetTitle({ name, info: { ...info, student } });
  assert.deepEqual(titled('Seat 3'), { name: ['Seat 3', ''], seat: ['', ''] });
  assert.deepEqual(titled('Seat 3', 'Ada'), { name: ['Ada', ''], seat: ['Seat 3', ''] });
  assert.deepEqual(titled('192.168.1.101:49000').name, ['192.168.1', '.101:49000']);
  assert.deepEqual(titled('192.168.1.101:49000', 'Ada').seat, ['192.168.1', '.101:49000']);
  assert.deepEqual(titled('1.2.3.4:5').name, ['', '1.2.3.4:5']);
  const wall = new Wall();
  wall.take({ type: 'wall', station: '', run: 'r', time: now, names: ['10.0.0.7:9000'], mark: 1,
    sheets: [{ name: '10.0.0.7:9000', info: { ...info, student: '' } }] }, now);
  const tile = wall.tiles.get('10.0.0.7:9000');
  assert.match(sheetSentence(tile, sheetWords(tile, now, 0)), /^Simulator at 10\.0\.0\.7:9000; /, 'with words to hear');
});

test('the trace grows while a leg is flown, begins again with the next, and is cleared by another maneuver', () => {
  const { wall, tile } = walled(flying, { now: { turn: 5.3, lanes: [9, 3, 129, 14] } },
    { now: { turn: 7, lanes: [12, null, 128, 20] } });
  assert.deepEqual(tile.trace.map((p) => p.turn), [1, 5, 7], 'a point each half degree');
  assert.equal(tile.now.pitch, 0);
  const next = (sheet) => {
    wall.take({ type: 'wall', station: '', run: 'r', mark: 9, time: now, names: null,
      sheets: [{ name: 'Seat 3', ...sheet }] }, now);
    return wall.tiles.get('Seat 3');
  };
  const after = next({
    stage: { ...stage, state: 'after' },
    last: { number: 1, direction: 'right', outcome: 'finished', verdict: 'near', score: 71, headline: '',
      posts: [{ turn: 0, verdict: 'met' }, { turn: 90, verdict: 'missed' }, { turn: null, verdict: 'near' }] },
  });
  assert.deepEqual([after.trace.length, after.now, [...after.marks]], [3, null, [[0, 'met'], [90, 'missed']]]);
  assert.deepEqual([next({ stage, trace: [[2, 1, 1, 130, 0]] }).trace.length, tile.trace.length], [1, 3]);
  const other = next({ plan: { ...plan, maneuver: 'steep-turn' }, stage: { ...stage, state: 'set-up' } });
  assert.deepEqual([other.trace, other.last], [[], null]);
});

test('a turn that became no leg leaves no trace', () => {
  const { tile } = walled({ ...flying, stage: { ...stage, state: 'turn' } }, { stage: { ...stage, state: 'set-up' } });
  assert.deepEqual([tile.trace, tile.now], [[], null]);
});

test('a limit that is passed stays until it is cleared, and its lane is shown', () => {
  const steps = [{ ...flying, said: [callout('cue', 'at-45', 'Nose high')] },
    { said: [callout('safety', 'stall', 'Push, unload', { tone: 'safety' })] }];
  const { tile } = walled(...steps);
  assert.deepEqual(tile.safety.map((c) => c.id), ['stall']);
  assert.deepEqual(sheetLanes(tile).map((l) => l.channel), ['bank', 'airspeed']);
  const words = sheetWords(tile, now, 0);
  assert.deepEqual([words.box, words.boxKind], ['Push, unload', 'safety']);
  const cleared = walled(...steps, { said: [callout('clear', 'stall', '')] }).tile;
  assert.deepEqual([cleared.safety, sheetLanes(cleared)[1].channel], [[], 'pitch']);
});

test('a level turn shows its height in place of the nose', () => {
  const level = {
    ...plan,
    lanes: plan.lanes.map((l) => (l.channel === 'pitch' ? { ...l, corridor: [[0, -3, 3], [360, -2, 4]] } : l)),
  };
  assert.deepEqual(sheetLanes(walled({ ...flying, plan: level }).tile).map((l) => l.channel), ['bank', 'height']);
});

test('the words of a sheet, from the first datum to the verdict', () => {
  const after = { ...stage, state: 'after', direction: '' };
  const leg = {
    number: 1, direction: 'right', outcome: 'finished', verdict: 'near', score: 71, headline: '', posts: [],
  };
  for (const [name, sheets, want] of [
    ['nothing yet', [{}], { large: 'Waiting', box: 'nothing heard yet', link: 'nothing' }],
    ['not ready', [{ plan, info, stage: { ...after, state: 'set-up', holds: 'ball', gate: 'Ball centered' } }],
      { large: 'Setting up', box: 'Ball centered', phase: 'Wing-over' }],
    ['ready', [{ plan, info, stage: { ...after, state: 'set-up', ready: true } }],
      { large: 'Ready', box: 'waits for the entry', link: '60 a second' }],
    ['in a leg', [flying], { large: '5°', turning: true, phase: 'over the top, to the right', off: false }],
    ['too steep', [{ ...flying, now: { turn: 90, lanes: [107, 3, 90, 500] } }], { phase: '22° too steep', off: true }],
    ['a checkpoint', [flying, { said: [callout('after', 'bank-at-45', 'More bank', { tone: 'missed', turn: 46 })] }],
      { verdict: 'missed', post: '45°', mark: 'missed', box: 'More bank', boxKind: 'said' }],
    ['between legs', [flying, { stage: after, last: leg }],
      { large: 'Near', verdict: 'near', mark: '71 of 100', phase: 'between legs, 1 of 2' }],
    ['ready again', [flying, { stage: { ...after, state: 'set-up', ready: true }, last: leg }],
      { large: 'Ready', mark: 'last 71 of 100' }],
    ['knocked off', [flying, { stage: after, last: { ...leg, outcome: 'knock-off', verdict: 'not-measured' } }],
      { large: 'Stopped', mark: '' }],
    ['broken off', [flying, { stage: after, last: { ...leg, outcome: 'broken-off' } }], { large: 'Broken off' }],
    ['paused', [flying, { info: { ...info, link: 'paused' } }], { large: 'Paused', box: 'nothing is judged' }],
    ['silent', [flying, { info: { ...info, link: 'silent', since: now - 14_000 } }],
      { large: '14\u202fs', small: 'silent', box: 'check the simulator', link: 'nothing' }],
    ['not recorded', [{ ...flying, info: { ...info, recording: 'failing' } }],
      { box: 'Nothing is being recorded', boxKind: 'said' }],
    ['a fault', [{ ...flying, info: { ...info, link: 'gone', trouble: 'a fault' } }],
      { box: 'A fault ended the session', boxKind: 'said' }],
    ['not read', [{ plan, info: { ...info, advice: 'nothing can be read' }, stage: after }], { box: 'see Set-up' }],
    ['its recording is late', [{ plan, info: { ...info, behind: 31.2 }, stage: after }], { link: '31 s behind' }],
  ]) {
    const words = sheetWords(walled(...sheets).tile, now, 0);
    for (const [part, is] of Object.entries(want)) assert.equal(words[part], is, `${name}: ${part}`);
  }
  const ahead = sheetWords(walled({ ...flying, info: { ...info, link: 'silent' } }).tile, now, 5000);
  assert.equal(ahead.large, '5\u202fs', 'by the server’s clock');
});

test('words between legs are news for a while only', () => {
  const { tile } = walled(
    { plan, info, stage: { ...stage, state: 'set-up' }, said: [callout('set-up', 'ready', 'Ready')] });
  assert.equal(sheetWords(tile, now + 7000, 0).box, 'Ready');
  assert.equal(sheetWords(tile, now + 9000, 0).box, '');
});

test('several stations are heard with whose words they are, one without; no cue waits', () => {
  const cue = callout('cue', 'at-45', 'Nose high', { due: 4, to: 45 });
  assert.deepEqual(heardAs(cue, ''), callout('cue', 'at-45', 'Nose high', { to: 45 }));
  assert.equal(heardAs(cue, 'Ada').words, 'Ada: Nose high');
  const phrased = { ...cue, phrase: { code: 'unknown', text: 'Slow down to 130' } };
  const whose = heardAs(phrased, 'Ada');
  assert.deepEqual([whose.words, whose.phrase], ['Ada: Slow down to 130', undefined]);
  assert.deepEqual(heardAs(phrased, '').phrase, phrased.phrase);
  assert.equal(heardAs(callout('clear', 'stall', ''), 'Ada').words, '');
});

test('of a private station its name stands there and that it is private, until it is shared again', () => {
  const { tile } = walled(flying, { said: [callout('safety', 'stall', 'Stall')] }, { private: true });
  const words = sheetWords(tile, now, 0);
  assert.deepEqual(
    [sheetNames(tile).name, words.large, words.off, words.boxKind], ['Seat 3', 'Private', false, 'idle']);
  assert.deepEqual(
    [words.phase, words.small, words.mark, words.box, words.link, tile.trace, tile.safety],
    ['', '', '', '', '', [], []]);
  assert.equal(sheetSentence(tile, words), 'Seat 3; Private');
  const shared = walled(flying, { private: true }, flying).tile;
  assert.deepEqual([shared.private, sheetNames(shared).name, sheetWords(shared, now, 0).large], [false, 'Ada', '5°']);
});
