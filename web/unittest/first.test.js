import assert from 'node:assert/strict';
import { test } from 'node:test';
import { chosen, cost, defaults, filled, found, offered, own, picture, ticks } from '../static/pure/first.js';

const everything = ['heading', 'pitch', 'bank', 'airspeed', 'altitude', 'vertical-speed', 'latitude', 'normal-load',
  'ball', 'throttle', 'stall-warning'];

/** A station that sends these. */
const station = (channels, derived = []) => ({ channels, derived });

test('a channel is ticked as it arrives, sent or worked out', () => {
  assert.equal(ticks(null).filter((c) => c.there).length, 0);
  assert.equal(ticks(station(everything)).filter((c) => c.there).length, 11);
  const some = ticks(station(['heading', 'pitch'], ['bank', 'vertical-speed']));
  assert.deepEqual(some.filter((c) => c.there).map((c) => c.title), ['heading', 'nose', 'bank', 'climb']);
  for (const power of ['rpm', 'n1', 'torque', 'throttle']) {
    assert.deepEqual(ticks(station([power])).filter((c) => c.there).map((c) => c.title), ['power']);
  }
});

test('what is missing is said by what it costs', () => {
  const words = (list, probe) => {
    const { head, rest } = cost(list, probe);
    return `${head} ${rest}`.trim();
  };
  assert.match(words(ticks(null), null), /^A channel is ticked as it arrives/);
  assert.equal(words(ticks(station(['heading', 'airspeed'])), null),
    'Not yet. Without nose and bank nothing can be coached.');
  assert.equal(words(ticks(station(everything)), null), 'You can fly now. Everything arrives.');
  const seven = ticks(station(everything.slice(0, 7)));
  assert.equal(words(seven, { checks: 26, unmeasured: 6 }),
    'You can fly now. Until load, ball, power and stall arrive, 6 of 26 checks read “not measured”.');
  assert.equal(words(seven, { checks: 26, unmeasured: 0 }),
    'You can fly now. Not sent: load, ball, power and stall. No check needs it.');
  assert.equal(words(seven, null), 'You can fly now. Not sent: load, ball, power and stall.');
});

test('the page says what it found', () => {
  const asked = (by, answers = false, waited = 9) =>
    ({ address: '192.168.1.31:49000', by, name: '', answers, waited });
  const finding = (more) => ({ machine: [], listen: [], port: 7181, open: false, fixed: false, asked: [],
    announced: [], ...more });
  const live = { link: 'live', address: '127.0.0.1:50123', rate: 59.8, channels: [], derived: [] };
  assert.equal(found(null, []), 'Nothing is heard yet');
  assert.equal(found(finding({ asked: [asked('itself')] }), []), 'Nothing is heard yet; this machine is asked');
  assert.equal(found(finding({ asked: [asked('page', false, 1)] }), []), 'Asking 192.168.1.31:49000 …');
  assert.equal(found(finding({ asked: [asked('page')] }), []), '192.168.1.31:49000 was asked, and does not answer');
  assert.equal(found(finding({ asked: [asked('page', true)] }), []), '192.168.1.31:49000 answers');
  const beacon = (here) => ({ address: '192.168.1.40:49000', name: 'loft', here });
  assert.equal(found(finding({ announced: [beacon(false)] }), []),
    'A simulator announces itself at 192.168.1.40:49000 (loft)');
  assert.equal(found(finding({ announced: [beacon(true)] }), []), 'A simulator is here (loft); it is asked');
  assert.equal(found(finding({}), [live]), 'Data from 127.0.0.1:50123, 60 a second');
  assert.equal(found(finding({}), [live, live]), 'Data from 127.0.0.1:50123, 60 a second, and 1 more');
  assert.equal(found(finding({}), [{ ...live, demonstration: true }]), 'Nothing is heard yet');
});

test('lines to copy carry this machine’s address and port', () => {
  assert.equal(filled('--native-fdm=socket,out,60,HOST,7181,udp', '192.168.1.20', 7200),
    '--native-fdm=socket,out,60,192.168.1.20,7200,udp');
  assert.equal(filled('node bridge.mjs HOST:7181', 'fd00::2', 7181), 'node bridge.mjs [fd00::2]:7181');
});

const cards = {
  auto: { name: 'auto', title: '' },
  standards: [],
  maneuvers: ['chandelle-civil', 'chandelle-traditional', 'clearing-turns', 'lazy-eight', 'steep-turn', 'wing-over']
    .map((name) => ({ name, title: name })),
  aircraft: [{ name: 'mine', title: 'Mine' }, { name: 'radial-trainer', title: 'Radial' }],
};

test('who changes nothing has a choice; what was pressed goes before what is flown', () => {
  assert.deepEqual(chosen({}, null, cards), defaults);
  assert.deepEqual(chosen({}, null, { ...cards, aircraft: [cards.aircraft[0]] }), { ...defaults, aircraft: 'mine' });
  assert.deepEqual(chosen({}, null, null), { maneuver: '', aircraft: '' });
  const flown = { maneuver: 'lazy-eight', aircraft: '', auto: false };
  assert.deepEqual(chosen({}, flown, cards), { maneuver: 'lazy-eight', aircraft: 'radial-trainer' });
  assert.deepEqual(chosen({}, { ...flown, aircraft: 'mine', auto: true }, cards),
    { maneuver: 'wing-over', aircraft: 'mine' });
  assert.deepEqual(chosen({ aircraft: 'mine', maneuver: 'steep-turn' }, flown, cards),
    { maneuver: 'steep-turn', aircraft: 'mine' });
});

test('four maneuvers are tiles, the chosen one among them; the others are in the list', () => {
  const names = (list) => list.map((c) => c.name);
  const usual = offered(cards, 'wing-over');
  assert.deepEqual(names(usual.tiles), ['wing-over', 'chandelle-civil', 'lazy-eight', 'steep-turn']);
  assert.deepEqual(names(usual.others), ['chandelle-traditional', 'clearing-turns']);
  const other = offered(cards, 'clearing-turns');
  assert.deepEqual(names(other.tiles), ['wing-over', 'chandelle-civil', 'lazy-eight', 'clearing-turns']);
  assert.ok(names(other.others).includes('steep-turn'));
  assert.deepEqual(offered(null, 'wing-over'), { tiles: [], others: [] });
  assert.deepEqual(names(offered({ ...cards, maneuvers: [{ name: 'own', title: 'Own' }] }, 'own').tiles), ['own']);
});

test('a corridor is a band and a line over the turn', () => {
  const corridor = [
    { turn: 0, low: 0, aim: 0, high: 10 },
    { turn: 90, low: 60, aim: 70, high: 80 },
    { turn: 180, low: 0, aim: 0, high: 10 },
  ];
  const p = picture(corridor, 180, { low: 0, high: 80 }, { w: 180, h: 80 });
  assert.equal(p.aim, 'M0.0 80.0L90.0 10.0L180.0 80.0');
  assert.equal(p.band, 'M0.0 70.0L90.0 0.0L180.0 70.0L180.0 80.0L90.0 20.0L0.0 80.0Z');
  assert.deepEqual(picture([], 180, { low: 0, high: 90 }, { w: 1, h: 1 }), { band: '', aim: '' });
});

test('a page is of this machine by its address', () => {
  for (const host of ['localhost', '127.0.0.1', '127.1.2.3', '[::1]']) assert.ok(own(host), host);
  for (const host of ['192.168.1.20', 'sim.lan', '127.0.0.1.example', '[fd00::1]']) assert.ok(!own(host), host);
});
