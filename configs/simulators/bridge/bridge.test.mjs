// The bridge against a stand-in for the client. Run with: node --test (nothing needs installing).
//
// Signs: PLANE PITCH DEGREES is positive nose down, PLANE BANK DEGREES positive left, GPS GROUND
// SPEED in m/s: the simulator's development kit, and its own avionics framework, which turns both
// angles round before use.

import assert from 'node:assert/strict';
import dgram from 'node:dgram';
import { test } from 'node:test';
import { check, heardAt, isNewEnough, line, pace, subscribe, targetOf, variables } from './bridge.mjs';

/** The constants a client has, as node-simconnect 4.2.0 numbers them. */
const constants = {
  SimConnectDataType: { FLOAT64: 4 }, SimConnectPeriod: { SIM_FRAME: 3 }, SimConnectConstants: { OBJECT_ID_USER: 0 },
};

/** Values by the name of the variable; all others are 0. */
const values = (given) => variables.map(({ name }) => given[name] ?? 0);
const parsed = (given, state) => JSON.parse(line(values(given), state));

/** A stand-in for the client's connection. */
class Fake {
  asked = [];
  events = [];
  requests = [];
  #listeners = new Map();
  addToDataDefinition(id, name, unit, type) { this.asked.push({ id, name, unit, type }); }
  requestDataOnSimObject(...args) { this.requests.push(args); }
  subscribeToSystemEvent(id, name) { this.events.push({ id, name }); }
  on(event, listener) { this.#listeners.set(event, listener); }
  emit(event, message) { this.#listeners.get(event)(message); }
  frame(given, requestID = 0) {
    const list = values(given);
    this.emit('simObjectData', { requestID, data: { readFloat64: () => list.shift() } });
  }
}

test('pitch and bank are turned round: a climbing right turn', () => {
  // Nose 12° up and 30° of right bank, as the simulator has it.
  const got = parsed({ 'PLANE PITCH DEGREES': -12, 'PLANE BANK DEGREES': -30, 'PLANE HEADING DEGREES TRUE': 271.5 });
  assert.equal(got.pitch, 12);
  assert.equal(got.bank, 30);
  assert.equal(got.heading, 271.5);
});

test('level is 0, not minus 0', () => {
  assert.match(line(values({})), /"pitch":0,"bank":0,/);
});

test('units: 1 m/s is 1.943844 kt (3600/1852), percent is a share', () => {
  const got = parsed({ 'GPS GROUND SPEED': 50, 'GENERAL ENG THROTTLE LEVER POSITION:1': 62, 'TURN COORDINATOR BALL': -127 });
  assert.ok(Math.abs(got['ground-speed'] - 97.1922) < 1e-4);
  assert.equal(got.throttle, 0.62);
  assert.equal(got.ball, -2);
});

test('flags are flags, what an engine lacks is left out, what is no number too', () => {
  const got = parsed({ 'SIM ON GROUND': 1, 'GENERAL ENG RPM:1': 2400, 'G FORCE': NaN }, { paused: true });
  assert.equal(got['on-ground'], true);
  assert.equal(got['stall-warning'], false);
  assert.equal(got.paused, true);
  assert.equal(got.rpm, 2400);
  assert.ok(!('n1' in got) && !('normal-load' in got));
  assert.equal(parsed({ 'GENERAL ENG RPM:1': 2400, 'PROP RPM:1': 1950 }).rpm, 1950);
});

test('a line with everything is what Halfturn reads', () => {
  const given = Object.fromEntries(variables.map(({ name }, i) => [name, i + 1]));
  assert.deepEqual(Object.keys(parsed(given)), [
    'time', 'heading', 'pitch', 'bank', 'airspeed', 'true-airspeed', 'ground-speed', 'track', 'vertical-speed', 'altitude', 'height',
    'latitude', 'longitude', 'angle-of-attack', 'ball', 'normal-load', 'throttle', 'rpm', 'n1', 'elevator', 'aileron', 'rudder',
    'stall-warning', 'on-ground', 'paused',
  ]);
});

test('every variable is asked for by name and unit, at every frame of the simulation', () => {
  const fake = new Fake();
  subscribe(fake, constants, () => {});
  assert.equal(fake.asked.length, variables.length);
  assert.deepEqual(fake.asked[2], { id: 0, name: 'PLANE PITCH DEGREES', unit: 'degrees', type: 4 });
  assert.ok(fake.asked.every((a) => a.id === 0 && a.type === 4));
  assert.deepEqual(fake.requests, [[0, 0, 0, 3]]);
  assert.deepEqual(fake.events, [{ id: 0, name: 'Pause' }]);
});

test('frames become lines, 60 a second at most; others’ data does not; a pause is told', () => {
  const fake = new Fake();
  const lines = [];
  let now = 0;
  subscribe(fake, constants, (l) => lines.push(JSON.parse(l)), { now: () => now });
  for (let i = 0; i < 144; i++, now += 1000 / 144) fake.frame({ 'SIMULATION TIME': now / 1000, 'PLANE BANK DEGREES': 20 });
  assert.ok(lines.length >= 58 && lines.length <= 61, `${lines.length} lines of 144 frames in a second`);
  assert.equal(lines[0].bank, -20);
  const before = lines.length;
  now += 1000;
  fake.frame({}, 7);
  assert.equal(lines.length, before);
  fake.emit('event', { clientEventId: 0, data: 1 });
  fake.frame({});
  assert.equal(lines.at(-1).paused, true);
  fake.emit('event', { clientEventId: 9, data: 0 });
  now += 1000;
  fake.frame({});
  assert.equal(lines.at(-1).paused, true);
});

test('a simulator that draws 30 pictures a second has each of them sent', () => {
  const due = pace(60);
  let n = 0;
  for (let i = 0; i < 300; i++) n += Number(due(i * (1000 / 30) + (i % 3)));
  assert.equal(n, 300);
});

test('60 uneven frames a second are nearly all sent', () => {
  const due = pace(60);
  let n = 0;
  for (let i = 0; i < 600; i++) n += Number(due(i * (1000 / 60) + (i % 2 ? 3 : -3)));
  assert.ok(n >= 590, `${n} of 600`);
});

test('where it sends: this machine unless told otherwise', () => {
  assert.deepEqual(targetOf(undefined), { host: '127.0.0.1', port: 7181 });
  assert.deepEqual(targetOf('192.168.1.20'), { host: '192.168.1.20', port: 7181 });
  assert.deepEqual(targetOf('192.168.1.20:7200'), { host: '192.168.1.20', port: 7200 });
  assert.deepEqual(targetOf('[::1]:7200'), { host: '::1', port: 7200 });
  assert.equal(targetOf('seat:0'), null);
  assert.equal(targetOf('seat:99999'), null);
});

test('the least version of Node.js', () => {
  assert.deepEqual(['20.17.0', '20.16.9', '22.0.1', '18.20.0'].map(isNewEnough), [true, false, true, false]);
});

/** A socket that listens on this machine. */
async function listener() {
  const socket = dgram.createSocket('udp4');
  await new Promise((resolve) => socket.bind(0, '127.0.0.1', () => resolve(undefined)));
  return socket;
}

test('the check says of each thing whether it is there, and what to do', async () => {
  const socket = await listener();
  const target = { host: '127.0.0.1', port: socket.address().port };
  const client = {
    Protocol: { KittyHawk: 4 },
    open: async () => ({ recvOpen: { applicationName: 'KittyHawk' }, handle: { close() {} } }),
  };
  const well = await check(target, { version: '22.1.0', load: async () => client });
  assert.deepEqual(well.map(({ ok }) => ok), [true, true, true, true], JSON.stringify(well));
  const away = { ...client, open: async () => Promise.reject(new Error('connect ENOENT')) };
  const alone = await check(target, { version: '22.1.0', load: async () => away });
  assert.match(alone[2].words, /^no simulator \(connect ENOENT\): start it on this machine and load a flight$/);
  const mute = { ...client, open: () => new Promise(() => {}) };
  const waits = await check(target, { version: '22.1.0', load: async () => mute, patience: 1 });
  assert.match(waits[2].words, /it does not answer/);
  socket.close();
  const bare = await check(target, { version: '18.1.0', load: async () => Promise.reject(new Error('not found')) });
  assert.deepEqual(bare.map(({ ok }) => ok), [false, false, false]);
  assert.match(bare[0].words, /install 20\.17 or later/);
  assert.match(bare[1].words, /npm install node-simconnect@4\.2\.0/);
  assert.match(bare[2].words, /nobody listens at 127\.0\.0\.1 port \d+: start halfturn serve there/);
});

test('somebody who listens is heard of', async () => {
  const socket = await listener();
  assert.equal(await heardAt('127.0.0.1', socket.address().port), '');
  socket.close();
});
