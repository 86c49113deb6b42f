// Sends what the simulator's local client interface tells to Halfturn. One file, and one module beside it:
//
//   npm install node-simconnect@4.2.0   once, in the folder of this file
//   node bridge.mjs --check             says what is missing
//   node bridge.mjs [HOST:PORT]         127.0.0.1:7181 unless told otherwise
//
// For simulator practice only: never in an aircraft. This bridge was tested against a stand-in for
// the client, not against the simulator itself: check it with halfturn probe before you trust it.

import dgram from 'node:dgram';
import { realpathSync } from 'node:fs';
import { setTimeout as wait } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';

/** Knots in one meter per second: 3600/1852. */
const knots = 3600 / 1852;

/**
 * A simulation variable, the unit it is asked in, and the channel it feeds. Feed turns its
 * number into the channel's unit and sign; undefined leaves it out. Names and units are those of
 * the simulator's development kit, the signs of pitch, bank and ground speed too:
 *
 * - PLANE PITCH DEGREES is positive with the nose DOWN, PLANE BANK DEGREES with the LEFT wing down;
 *   Halfturn wants nose up and right wing down positive, so both are turned round.
 * - GPS GROUND SPEED is in meters a second.
 *
 * The signs of the control positions and the travel of the ball are from memory. Body rates,
 * sideslip and lateral load are left out: their signs are not certain, and Halfturn works the
 * rates out from the attitude.
 *
 * @typedef {{ name: string, unit: string, channel: string, feed?: Feed }} Variable
 * @typedef {(value: number) => number | boolean | undefined} Feed
 * @type {readonly Variable[]}
 */
export const variables = Object.freeze([
  { name: 'SIMULATION TIME', unit: 'seconds', channel: 'time' },
  { name: 'PLANE HEADING DEGREES TRUE', unit: 'degrees', channel: 'heading' },
  { name: 'PLANE PITCH DEGREES', unit: 'degrees', channel: 'pitch', feed: turned },
  { name: 'PLANE BANK DEGREES', unit: 'degrees', channel: 'bank', feed: turned },
  { name: 'AIRSPEED INDICATED', unit: 'knots', channel: 'airspeed' },
  { name: 'AIRSPEED TRUE', unit: 'knots', channel: 'true-airspeed' },
  { name: 'GPS GROUND SPEED', unit: 'meters per second', channel: 'ground-speed', feed: (v) => v * knots },
  { name: 'GPS GROUND TRUE TRACK', unit: 'degrees', channel: 'track' },
  { name: 'VERTICAL SPEED', unit: 'feet per minute', channel: 'vertical-speed' },
  { name: 'PLANE ALTITUDE', unit: 'feet', channel: 'altitude' },
  { name: 'PLANE ALT ABOVE GROUND', unit: 'feet', channel: 'height' },
  { name: 'PLANE LATITUDE', unit: 'degrees', channel: 'latitude' },
  { name: 'PLANE LONGITUDE', unit: 'degrees', channel: 'longitude' },
  { name: 'INCIDENCE ALPHA', unit: 'degrees', channel: 'angle-of-attack' },
  // two widths to the stop
  { name: 'TURN COORDINATOR BALL', unit: 'position 128', channel: 'ball', feed: (v) => (v / 127) * 2 },
  { name: 'G FORCE', unit: 'gforce', channel: 'normal-load' },
  { name: 'GENERAL ENG THROTTLE LEVER POSITION:1', unit: 'percent', channel: 'throttle', feed: (v) => v / 100 },
  { name: 'GENERAL ENG RPM:1', unit: 'rpm', channel: 'rpm' },
  { name: 'PROP RPM:1', unit: 'rpm', channel: 'rpm', feed: unlessZero }, // the propeller's, where there is one
  { name: 'TURB ENG N1:1', unit: 'percent', channel: 'n1', feed: unlessZero }, // 0 in a piston engine
  { name: 'ELEVATOR POSITION', unit: 'position', channel: 'elevator' },
  { name: 'AILERON POSITION', unit: 'position', channel: 'aileron' },
  { name: 'RUDDER POSITION', unit: 'position', channel: 'rudder' },
  { name: 'STALL WARNING', unit: 'bool', channel: 'stall-warning', feed: (v) => v !== 0 },
  { name: 'SIM ON GROUND', unit: 'bool', channel: 'on-ground', feed: (v) => v !== 0 },
]);

/** @param {number} v */
function turned(v) {
  return v === 0 ? 0 : -v; // no minus zero
}

/** @param {number} v */
function unlessZero(v) {
  return v === 0 ? undefined : v;
}

/**
 * Makes the line for Halfturn from the values, in the order of the variables. What is no number is
 * left out.
 *
 * @param {readonly number[]} values
 * @param {{ paused?: boolean }} [state]
 * @returns {string} one JSON object, without a line end
 */
export function line(values, { paused = false } = {}) {
  /** @type {Record<string, number | boolean>} */
  const out = {};
  variables.forEach(({ channel, feed }, i) => {
    const value = values[i];
    if (value === undefined || !Number.isFinite(value)) return;
    const fed = feed ? feed(value) : value;
    if (fed !== undefined) out[channel] = typeof fed === 'number' ? rounded(fed) : fed;
  });
  out['paused'] = paused;
  return JSON.stringify(out);
}

/** Seven digits behind the point: a centimeter of latitude. @param {number} v */
function rounded(v) {
  return Math.round(v * 1e7) / 1e7;
}

/**
 * Lets through at most a number a second, evenly: a simulator that draws 144 pictures a second
 * need not send them all.
 *
 * @param {number} rate a second
 * @returns {(now: number) => boolean} now in ms
 */
export function pace(rate) {
  const gap = 1000 / rate;
  let next = -Infinity;
  return (now) => {
    if (now < next - gap / 4) return false;
    next = Math.max(next, now - gap) + gap;
    return true;
  };
}

/**
 * Asks the simulator for every variable at every frame, and hands each line to send. The client
 * is that of node-simconnect: its connection and the constants it needs.
 *
 * @param {any} handle the open connection
 * @param {{ SimConnectDataType: any, SimConnectPeriod: any, SimConnectConstants: any }} client
 * @param {(line: string) => void} send
 * @param {{ rate?: number, now?: () => number }} [options]
 */
export function subscribe(handle, client, send, { rate = 60, now = () => performance.now() } = {}) {
  const data = 0, request = 0, pauseEvent = 0;
  const due = pace(rate);
  let paused = false;
  for (const { name, unit } of variables) {
    handle.addToDataDefinition(data, name, unit, client.SimConnectDataType.FLOAT64);
  }
  handle.on('simObjectData', (/** @type {any} */ message) => {
    if (message.requestID !== request || !due(now())) return;
    send(line(variables.map(() => message.data.readFloat64()), { paused }));
  });
  handle.on('event', (/** @type {any} */ message) => {
    if (message.clientEventId === pauseEvent) paused = message.data !== 0;
  });
  handle.subscribeToSystemEvent(pauseEvent, 'Pause');
  const { SimConnectConstants: of, SimConnectPeriod: every } = client;
  handle.requestDataOnSimObject(request, data, of.OBJECT_ID_USER, every.SIM_FRAME);
}

/** The least version of Node.js: before it, parts of the language that the module uses are missing. */
const leastNode = [20, 17];

/** Where lines are sent. @param {string | undefined} word HOST:PORT @returns {{ host: string, port: number } | null} */
export function targetOf(word) {
  const [host = '127.0.0.1', port = '7181'] = (word ?? '').split(/:(?=\d+$)/).filter((part) => part !== '');
  const number = Number(port);
  return /^\d+$/.test(port) && number >= 1 && number <= 65535
    ? { host: host.replace(/^\[|\]$/g, ''), port: number }
    : null;
}

/** Whether a version of Node.js will do. @param {string} version such as 20.17.0 */
export function isNewEnough(version) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  return major > leastNode[0] || (major === leastNode[0] && minor >= leastNode[1]);
}

/** @param {string} host */
function socketFor(host) {
  return dgram.createSocket(host.includes(':') ? 'udp6' : 'udp4');
}

/**
 * Whether a program listens there: this machine answers at once when none does, another one need not.
 * @param {string} host @param {number} port @returns {Promise<string>} '' or what is wrong
 */
export async function heardAt(host, port) {
  const socket = socketFor(host);
  try {
    return await new Promise((resolve) => {
      socket.on('error', (/** @type {any} */ error) => resolve(error.code === 'ECONNREFUSED'
        ? `nobody listens at ${host} port ${port}: start halfturn serve there`
        : `${host} cannot be sent to: ${error.message}`));
      socket.connect(port, host, () => {
        socket.send('{}\n');
        setTimeout(() => resolve(''), 500);
      });
    });
  } finally {
    socket.close();
  }
}

/**
 * Looks at each thing that the bridge needs, in the order in which they are put right.
 * @param {{ host: string, port: number }} target
 * @param {{ version?: string, load?: () => Promise<any>, patience?: number }} [options] patience in ms
 * @returns {Promise<{ ok: boolean, words: string }[]>}
 */
export async function check(target, options = {}) {
  const { version = process.versions.node, load = () => import('node-simconnect'), patience = 5000 } = options;
  const found = [];
  const add = (/** @type {boolean} */ ok, /** @type {string} */ words) => found.push({ ok, words });
  const least = leastNode.join('.');
  add(isNewEnough(version), isNewEnough(version)
    ? `Node.js ${version}`
    : `Node.js ${version} is too old: install ${least} or later`);
  const client = await load().catch(() => null);
  add(client !== null, client !== null
    ? 'the module node-simconnect'
    : 'the module node-simconnect is not there: in the folder of this file run npm install node-simconnect@4.2.0');
  if (client !== null) {
    const stop = new AbortController();
    const late = wait(patience, undefined, { signal: stop.signal }).then(() => {
      throw new Error('it does not answer');
    });
    try {
      const { recvOpen, handle } = await Promise.race([client.open('Halfturn check', client.Protocol.KittyHawk), late]);
      add(true, `the simulator: ${recvOpen.applicationName}`);
      handle.close?.();
    } catch (error) {
      add(false, `no simulator (${words(error)}): start it on this machine and load a flight`);
    }
    late.catch(() => {});
    stop.abort();
  }
  const unheard = await heardAt(target.host, target.port);
  add(unheard === '', unheard === '' ? `Halfturn, as far as can be told: ${target.host} port ${target.port}` : unheard);
  return found;
}

/** @param {unknown} error */
function words(error) {
  return error instanceof Error ? error.message : String(error);
}

const again = 3000; // ms between attempts to reach the simulator

/** Sends until it is ended. @param {{ host: string, port: number }} target */
async function run({ host, port }) {
  let client;
  try {
    client = await import('node-simconnect');
  } catch {
    console.error('The module node-simconnect is not there. In the folder of this file run, once:\n' +
      '  npm install node-simconnect@4.2.0\nThen start the bridge again.');
    process.exit(1);
  }
  const socket = socketFor(host);
  socket.on('error', (error) => console.error(`cannot send to ${host} port ${port}: ${error.message}`));
  let sent = 0;
  setInterval(() => {
    if (sent > 0) console.log(`${(sent / 10).toFixed(0)} lines a second sent to ${host} port ${port}`);
    sent = 0;
  }, 10_000).unref();
  for (let told = false; ;) {
    try {
      const { recvOpen, handle } = await client.open('Halfturn bridge', client.Protocol.KittyHawk);
      console.log(`connected to ${recvOpen.applicationName}; sending to ${host} port ${port}; Ctrl-C ends it`);
      told = false;
      const over = new Promise((resolve) => {
        for (const event of ['quit', 'close', 'error']) handle.on(event, resolve);
      });
      handle.on('exception', (/** @type {any} */ e) => console.error(
        `the simulator does not know one of the values asked for (number ${e.index}); the others go on`));
      subscribe(handle, client, (text) => {
        socket.send(`${text}\n`, port, host);
        sent++;
      });
      await over;
      console.log('the simulator has gone; waiting for it');
    } catch (error) {
      if (!told) {
        console.log(`no simulator yet (${words(error)}); start it and load a flight. ` +
          `Trying again every ${again / 1000} s; node bridge.mjs --check says what is missing`);
      }
      told = true;
    }
    await wait(again);
  }
}

async function main() {
  const args = process.argv.slice(2);
  const checks = args[0] === '--check';
  const target = targetOf(args[checks ? 1 : 0]);
  if (target === null || args.length > (checks ? 2 : 1)) {
    console.error('usage: node bridge.mjs [--check] [HOST:PORT], such as node bridge.mjs 192.168.1.20:7181');
    process.exit(2);
  }
  if (!checks) return run(target);
  const found = await check(target);
  for (const { ok, words: said } of found) console.log(`${ok ? 'ok      ' : 'MISSING '} ${said}`);
  process.exit(found.every(({ ok }) => ok) ? 0 : 1);
}

const started = process.argv[1];
if (started !== undefined && realpathSync(started) === fileURLToPath(import.meta.url)) await main();
