import assert from 'node:assert/strict';
import { test } from 'node:test';
import { empty, lastHere, reduce } from '../static/pure/store.js';
import { parse } from '../static/pure/parse.js';
import { current, heir, hint, linkWords, mode, stale, subtitle, unclear } from '../static/pure/mode.js';
import { messages } from './contract.js';

const at = Date.UTC(2026, 0, 2, 12);

/** All messages of the contract, in the order a viewer hears them. */
function after(list, state = { ...empty(at), link: { state: 'open', since: at, retryAt: null, reason: '' } }) {
  return list.reduce((s, m) => reduce(s, parse(JSON.stringify(m)), at), state);
}

const hello = {
  ...messages.find((m) => m.type === 'hello'),
  station: 'Seat 3',
  seq: 0,
  info: null,
  plan: null,
  frame: null,
};
const of = (type) => messages.find((m) => m.type === type);
const frame = (turn, more = {}) => ({
  ...of('frame'),
  state: 'leg',
  direction: 'right',
  turn,
  values: { bank: turn / 2, pitch: 5 },
  climb: turn,
  ...more,
});
const event = (seq, type, body) => ({ type, station: 'Seat 3', seq, ...body });
const callout = (seq, body) =>
  event(seq, 'callout', { time: 1, kind: 'cue', id: 'x', words: 'now', tone: '', turn: 0, ...body });

test('every message of the contract is read and none breaks the state', () => {
  const types = new Set(messages.map((m) => m.type));
  assert.equal(types.size, 17, 'all types are there');
  for (const m of messages) assert.deepEqual(parse(JSON.stringify(m)), m);
  const state = after(messages);
  assert.equal(state.station, 'Seat 3');
  assert.equal(state.private, true, 'the last hello is of a station that is private');
  const shared = messages.filter((m) => m.type !== 'hello' || m.private !== true);
  assert.equal(after(shared).seq, shared.findLast((m) => m.seq !== undefined).seq);
});

test('what is no message is left aside', () => {
  for (const text of ['', '{', 'null', '3', '[]', '{"type":"frame"}', '{"type":"later","station":"a"}', new Blob()]) {
    assert.equal(parse(text), null);
  }
});

test('an event heard twice counts once', () => {
  const state = after([hello, event(1, 'leg', { ...of('leg'), seq: 1 })]);
  const again = reduce(state, { ...of('leg'), seq: 1, number: 9 }, at);
  assert.equal(again, state);
});

test('an event that comes after a later one changes nothing', () => {
  const state = after([hello, callout(2, { words: 'second' })]);
  assert.equal(state.seq, 2);
  assert.equal(reduce(state, callout(1, { words: 'first' }), at), state);
});

test('messages of other stations change nothing', () => {
  const state = after([hello, frame(10)]);
  assert.equal(reduce(state, { ...frame(50), station: 'Seat 4' }, at), state);
  assert.equal(reduce(state, { ...of('leg'), seq: 99, station: 'Seat 4' }, at), state);
});

test('the trace grows with the turn and begins again with it', () => {
  let state = after([hello, frame(0), frame(0.2), frame(1), frame(2)]);
  assert.deepEqual(state.trace.map((t) => t.turn), [0, 1, 2]);
  state = after([frame(1.8), frame(3)], state);
  assert.deepEqual(state.trace.map((t) => t.turn), [0, 1, 2, 3]);
  state = after([frame(120), frame(4)], state);
  assert.deepEqual(state.trace.map((t) => t.turn), [4]);
  state = after([frame(4, { direction: 'left' })], state);
  assert.equal(state.traceDirection, 'left');
  assert.equal(state.trace.length, 1);
  state = after([frame(0, { state: 'set-up' })], state);
  assert.equal(state.trace.length, 0);
});

test('safety words stand until a clear with the same id', () => {
  let state = after([
    hello,
    callout(1, { kind: 'safety', id: 'deck', words: 'Climb' }),
    callout(2, { words: 'Roll out' }),
  ]);
  assert.deepEqual(
    state.safety.map((c) => c.words),
    ['Climb'],
  );
  state = after([callout(3, { kind: 'clear', id: 'speed', words: '' })], state);
  assert.equal(state.safety.length, 1);
  state = after([callout(4, { kind: 'safety', id: 'deck', words: 'Climb' })], state);
  assert.equal(state.safety.length, 1, 'the same limit again is one');
  state = after([callout(5, { kind: 'clear', id: 'deck', words: '' })], state);
  assert.equal(state.safety.length, 0);
  assert.equal(state.band.callout.words, 'Climb', 'a clear has no words of its own');
});

test('a hello replaces all, and keeps a safety call that is not over', () => {
  const state = after(
    [{ ...hello, callouts: [{ ...callout(1, { kind: 'safety', id: 'deck', words: 'Climb' }) }] }],
    after([hello, frame(10), of('leg')]),
  );
  assert.equal(state.last, null);
  assert.equal(state.trace.length, 0);
  assert.deepEqual(state.safety.map((c) => c.words), ['Climb']);
});

test('a turn by which its maneuver was found stays on the sheet', () => {
  const found = after([
    hello,
    { ...of('plan'), seq: 1 },
    frame(100),
    event(2, 'plan', { ...of('plan'), seq: 2, maneuver: 'chandelle' }),
    frame(101),
  ]);
  assert.deepEqual(
    found.trace.map((p) => p.turn),
    [100, 101],
  );
});

test('where the simulator was started again at once, its new station is gone on with', () => {
  const station = (name, address, link) => ({ ...of('station'), name, address, link });
  const here = station('a', '10.0.0.1:5000', 'silent');
  const [again, other] = [station('b', '10.0.0.1:5001', 'live'), station('c', '10.0.0.2:5000', 'live')];
  assert.equal(heir(here, [here, again, other]), 'b');
  assert.equal(heir({ ...here, link: 'live' }, [here, again]), '', 'nothing is wrong here');
  assert.equal(heir({ ...here, link: 'paused' }, [here, again]), '', 'it will go on');
  assert.equal(heir(here, [here, other]), '', 'of another computer');
  assert.equal(heir(here, [again, station('d', '10.0.0.1:5002', 'live')]), '', 'which of two cannot be told');
  assert.equal(heir(station('a', '[::1]:5000', 'gone'), [station('b', '[::1]:5001', 'live')]), 'b');
  assert.equal(heir(null, [again]), '');
});

test('a cue stands in the band when a usual voice would say it', () => {
  const cue = (seq, id, to, words) => callout(seq, { time: 10, id, words, turn: 50, to, due: 14 });
  const at = (time, turn, cues) => frame(turn, { time, cues });
  let state = after([
    hello,
    at(10, 50, []),
    callout(1, { time: 9, kind: 'after', words: 'Bank more' }),
    cue(2, 'cue-90', 90, 'Roll out slowly'),
    cue(3, 'cue-135', 135, 'Bank 45 now'),
  ]);
  assert.equal(state.band.callout.words, 'Bank more', 'both were sent early');
  state = after([at(11, 60, [{ to: 90, seconds: 3 }, { to: 135, seconds: 8 }])], state);
  assert.equal(state.band.callout.words, 'Bank more');
  state = after([at(12.6, 76, [{ to: 90, seconds: 1.2 }, { to: 135, seconds: 6 }])], state);
  assert.equal(state.band.callout.words, 'Roll out slowly');
  state = after([at(14, 91, [{ to: 135, seconds: 4 }])], state);
  assert.deepEqual(state.cues.map((c) => c.id), ['cue-135'], 'the other waits on');
  assert.equal(after([at(20, 140, [])], state).band.callout.words, 'Roll out slowly', 'it was passed: too late to say');
  assert.equal(after([frame(0, { time: 21, state: 'after' })], state).cues.length, 0, 'the leg is over');
});

test('a cue that comes after a gap of the link waits for the frames behind it', () => {
  const state = after([hello, frame(30, { time: 8, cues: [] })]); // of two seconds ago
  const m = callout(1, { time: 10, id: 'cue-90', words: 'Roll out slowly', turn: 50, to: 90, due: 14 });
  assert.deepEqual(reduce(state, m, at + 2000).cues.map((c) => c.id), ['cue-90']);
});

test('a simulator that began again leaves no words of the flight before', () => {
  let state = after([hello, frame(10, { time: 100 }), callout(1, { time: 100, words: 'Good' })]);
  state = after([frame(10, { time: 99.8 })], state);
  assert.equal(state.band?.callout.words, 'Good', 'frames need not come in order');
  assert.equal(after([frame(0, { time: 1, state: 'set-up' })], state).band, null);
  const late = {
    ...hello,
    plan: of('plan'),
    frame: frame(50, { time: 20 }),
    last: { ...of('leg'), end: 130 },
    callouts: [callout(1, { time: 19, kind: 'after', tone: 'met', turn: 45 })],
  };
  assert.deepEqual([...after([late]).marks], [[45, 'met']], 'the leg before ended by another clock');
  assert.deepEqual(
    [...after([{ ...late, frame: frame(44.6, { time: 18.98 }) }]).marks],
    [[45, 'met']],
    'said just after the frame',
  );
  const chandelle = { ...late, last: null, series: [{ ...of('series'), legs: [{ ...of('leg'), end: 19.5 }] }] };
  assert.deepEqual([...after([chandelle]).marks], [], 'said in a leg of another maneuver');
});

test('a leg takes its place and its marks', () => {
  const plan = of('plan');
  const leg = of('leg');
  const state = after([hello, event(1, 'plan', { ...plan, seq: 1 }), frame(100), { ...leg, seq: 2 }]);
  assert.equal(state.last.number, 1);
  assert.equal(state.trace.length, 0);
  assert.deepEqual(
    [...state.marks],
    [
      [45, 'met'],
      [90, 'missed'],
      [135, 'met'],
      [180, 'met'],
    ],
  );
  assert.equal(
    subtitle({ ...state, frame: { ...state.frame, state: 'leg' } }),
    'leg 2 of 2 · course standard · generic turboprop trainer',
  );
  assert.match(
    subtitle({ ...state, frame: { ...state.frame, state: 'after' }, info: { ...of('station'), auto: true } }),
    /^found from what is flown · course standard/,
  );
});

test('a leg that fits no maneuver clearly is shown as none of theirs', () => {
  const state = after([
    hello,
    event(1, 'plan', { ...of('plan'), seq: 1 }),
    event(2, 'leg', { ...of('leg'), seq: 2 }),
    event(3, 'series', { ...of('series'), seq: 3, maneuver: 'unclear' }),
  ]);
  assert.equal(state.last?.number, of('leg').number);
  assert.equal(state.lastPlan, null);
});

test('another maneuver begins with a clean sheet, another aircraft does not', () => {
  const plan = of('plan');
  const state = after([hello, { ...plan, seq: 1 }, { ...of('leg'), seq: 2 }]);
  const aircraft = after([{ ...plan, seq: 3, aircraft: 'another' }], state);
  assert.equal(aircraft.last, state.last);
  assert.equal(aircraft.plan.aircraft, 'another');
  const maneuver = after([{ ...plan, seq: 3, maneuver: 'lazy-eight' }], state);
  assert.equal(maneuver.last, state.last, 'the debrief stays to be read');
  assert.equal(lastHere(maneuver), null, 'but not on the sheet');
  assert.equal(after([frame(5)], maneuver).last, null, 'until the next turn');
  assert.equal(maneuver.marks.size, 0);
});

test('tones in flight mark the post just passed, the worse one stays', () => {
  let state = after([hello, event(1, 'plan', { ...of('plan'), seq: 1 }), frame(46)]);
  state = after([callout(2, { kind: 'after', tone: 'met', turn: 45 })], state);
  assert.deepEqual([...state.marks], [[45, 'met']]);
  state = after([callout(3, { kind: 'after', tone: 'missed', turn: 47 })], state);
  state = after([callout(4, { kind: 'after', tone: 'met', turn: 48 })], state);
  assert.deepEqual([...state.marks], [[45, 'missed']]);
  state = after(
    [callout(5, { kind: 'after', tone: 'met', turn: 80 }), callout(6, { kind: 'cue', tone: 'met', turn: 91 })],
    state,
  );
  assert.deepEqual([...state.marks], [[45, 'missed']], 'far from a post, or no verdict');
});

test('the faces of the panel', () => {
  const plan = event(1, 'plan', { ...of('plan'), seq: 1 });
  const station = (link) => event(2, 'station', { ...of('station'), seq: 2, link });
  assert.equal(mode(empty(at)), 'empty');
  assert.equal(mode(after([hello, plan, station('live')])), 'empty', 'no frame yet');
  assert.equal(mode(after([hello, plan, station('live'), frame(0, { state: 'set-up' })])), 'set-up');
  assert.equal(mode(after([hello, plan, station('live'), frame(9)])), 'leg');
  assert.equal(
    mode(after([hello, plan, station('live'), { ...of('leg'), seq: 3 }, frame(0, { state: 'after' })])),
    'after',
  );
  assert.equal(mode(after([hello, plan, station('gone'), frame(0, { state: 'set-up' })])), 'empty');
});

test('the link in words', () => {
  const station = (link, more = {}) => event(2, 'station', { ...of('station'), seq: 2, link, ...more });
  const state = after([hello, station('live'), frame(0)]);
  assert.match(linkWords(state, at), /^live · 60 a second · all channels$/);
  assert.ok(!stale(state, at + 1000));
  assert.ok(stale(state, at + 2000));
  assert.match(linkWords(state, at + 2000), /^stale since \d\d:\d\d:\d\d$/);
  assert.match(linkWords(after([hello, station('paused'), frame(0)]), at), /^paused since/);
  assert.match(linkWords(after([hello, station('silent'), frame(0)]), at), /^nothing heard since/);
  assert.equal(linkWords(after([hello, station('live', { advice: 'x', channels: [] })]), at), 'cannot be read');
  assert.equal(linkWords(after([hello, station('live', { advice: 'x' })]), at), 'something is wrong: see Set-up');
  const lost = { ...state, link: { state: 'lost', since: at, retryAt: at + 2500, reason: '' } };
  assert.match(linkWords(lost, at), /^lost Halfturn at .* · trying again in 3 s$/);
});

test('what is no longer of now is told in the band too', () => {
  const on = (link) => after([hello, event(2, 'station', { ...of('station'), seq: 2, link }), frame(9)]);
  const state = on('live');
  const lost = { ...state, link: { state: 'lost', since: at, retryAt: null, reason: '' } };
  assert.deepEqual(
    [current(state, at + 1000), hint(state, at + 1000)],
    [true, 'Up'],
    'the part of the turn, until something is said',
  );
  const open = {
    ...state,
    info: { ...state.info, auto: true },
    frame: { ...state.frame, unclear: true, phase: '', next: null },
  };
  assert.deepEqual(
    [unclear(state), unclear(open), hint(open, at + 1000)],
    [false, true, 'Cues begin when it is clear what is flown'],
  );
  assert.doesNotMatch(subtitle(open), /leg \d|found/, 'nothing of a maneuver that may be another');
  assert.deepEqual([current(state, at + 2000), hint(state, at + 2000)], [false, 'No data arrives']);
  assert.deepEqual([current(on('paused'), at), hint(on('paused'), at)], [false, 'Paused']);
  assert.deepEqual([current(lost, at), hint(lost, at)], [false, 'Halfturn does not answer']);
});

test('the band says what is amiss before a leg', () => {
  const want = { code: 'band.exactly', args: { value: { value: 155, unit: 'kt' } }, text: '155 kt' };
  const gates = [
    { id: 'a', label: 'Wings level', want: 'within 5°', value: 1, unit: '°', ok: true },
    { id: 'b', label: 'Entry speed', want, value: 140, unit: 'kt', ok: false },
  ];
  const state = after([
    hello,
    event(2, 'station', { ...of('station'), seq: 2 }),
    frame(0, { state: 'set-up', gates, ready: false }),
  ]);
  assert.equal(hint(state), 'Entry speed: 155\u00a0kt', 'of a gate that has no order');
  assert.equal(hint({ ...state, frame: { ...state.frame, ready: true } }), 'Set up. Ready when you are');
});

test('what was flown is kept until the verdict', () => {
  const waiting = frame(179, { state: 'after', awaited: { leg: 1, start: 3 } });
  const plan = event(1, 'plan', { ...of('plan'), seq: 1 });
  const live = event(2, 'station', { ...of('station'), seq: 2, link: 'live' });
  let state = after([hello, plan, live, frame(10), frame(100), callout(3, { kind: 'after', tone: 'met', turn: 45 })]);
  const flown = state.trace;
  state = after([waiting, waiting], state);
  assert.deepEqual([state.trace, state.marks.size, mode(state)], [flown, 1, 'leg']);
  const seen = after([{ ...hello, frame: waiting.frame ?? waiting, trace: flown }]);
  assert.deepEqual(seen.trace, flown, 'also by one who comes in now');
  state = after([frame(0, { state: 'after', awaited: null })], state);
  assert.deepEqual([state.trace, state.marks.size], [[], 0], 'and no longer');
});

test('the band shows what is said of the set-up, and nothing twice', () => {
  const said = (seq, kind, words) => callout(seq, { kind, id: kind, words });
  let state = after([hello, frame(0, { state: 'set-up' }), said(1, 'set-up', 'Level the wings')]);
  assert.equal(state.band?.callout.words, 'Level the wings');
  state = after([said(2, 'set-up', 'Ready'), said(3, 'again', 'Level the wings')], state);
  assert.equal(state.band?.callout.words, 'Ready', 'what is said again was shown');
});
