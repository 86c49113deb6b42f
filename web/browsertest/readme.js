// Takes the pictures of README.md, with few colors, so that all of them together stay small; pngquant must be there:
// node browsertest/readme.js [NAME...], then look at them.

import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { faces, launch, openPage, sizes, startFeed, startHouse, startPrepared } from './harness.js';
import { answer } from './logbook.js';

const halfturn = new URL('../../bin/halfturn', import.meta.url).pathname;
const flights = new URL('../../coach/session/testdata/flights/', import.meta.url).pathname;
const colors = 48;

/** A student who has flown wing-overs, and of whom an instructor has seen the first steps. @param {string} data */
function flown(data) {
  const run = (/** @type {string[]} */ ...words) =>
    execFileSync(halfturn, [...words, '--data', data], { stdio: ['ignore', 'ignore', 'pipe'] });
  const names = ['wing-over-turboprop-a-turbulence-good', 'wo-turboprop-a-rushed-1', 'wo-turboprop-b-good-1'];
  for (const name of names) {
    run('sessions', 'import', '--maneuver', 'wing-over', '--standard', 'practice', `${flights}${name}.pcap.gz`);
    run('sessions', 'student', 'last', 'Ada', 'Example');
  }
  for (const step of ['level-roll', 'wing-over-to-45', 'wing-over-to-90', 'wing-over-roll-out']) {
    run('course', 'rule', step, 'flown', 'well', '--student', 'Ada Example', '--verdict', 'passed', '--by',
      'Bo Example');
  }
}

const board = [
  ['station Seat 1', 'student Ada', 'level ready', 'fly 0 60'],
  ['station Seat 3', 'student Cleo', 'level ready', 'fly 0 179', 'finish'],
  ['station Seat 4', 'student Dara', 'level ready', 'fly 0 120'],
  ['station Seat 5', 'student Eli', 'level'],
  ['station Seat 6', 'student Finn', 'level ready', 'fly 0 92'],
  ['station Seat 2', 'student Bo', 'level ready', 'steep 0 78', 'safety bank-limit Less bank'],
];

async function feed(...steps) {
  const server = await startFeed();
  await server.do(...steps);
  return server;
}

async function pair() { // the first leg with too much bank, in a wind
  const house = await startHouse([], '--maneuver', 'wing-over', '--aircraft', 'turboprop-trainer');
  house.fly('--pace', '20', '--maneuver', 'wing-over', '--aircraft', 'turboprop-trainer', '--flaw', 'overbanked',
    '--legs', '2', '--wind', '330/18');
  const { stations: [station] } = await (await fetch(new URL('api/stations', house.url))).json();
  await fetch(new URL(`api/stations/${encodeURIComponent(station.name)}/end`, house.url),
    { method: 'POST', headers: { 'content-type': 'application/json' }, body: '{}' });
  return house;
}

const session = async (server) => (await (await fetch(new URL('api/sessions', server.url))).json()).sessions[0].id;

/** Of each picture: its server, the page, what to wait for. */
const pictures = {
  panel: { of: () => feed(...faces.leg.steps), path: '', ready: faces.leg.ready },
  after: { of: () => feed(...faces.after.steps), path: '', ready: faces.after.ready },
  brief: {
    of: () => feed(),
    path: 'brief?maneuver=wing-over&aircraft=turboprop-trainer',
    ready: 'main:not([hidden]) ht-sheet svg .lane',
  },
  debrief: {
    of: pair,
    path: async (server) => `sessions/${await session(server)}?leg=1&with=2&turn=70`,
    ready: 'main:not([hidden]) .values .over:not(:empty)',
  },
  sessions: { of: () => feed(), path: 'sessions', ready: 'main:not([hidden]) .session-row', prepare: answer },
  setup: { of: () => feed('station', 'level ready', 'fly 0 60'), path: 'setup', ready: '#senders .sender' },
  desk: { of: () => feed(...board.flat()), path: 'desk?station=Seat%202', ready: 'ht-opened .pen-words' },
  course: { of: () => startPrepared(flown), path: 'course?student=Ada%20Example', ready: '.next-card' },
};

/** A picture in few colors, by a tool of that name from the system's packages. @param {Buffer} png */
const small = (png) =>
  execFileSync('pngquant', ['--speed', '1', '--nofs', '--strip', String(colors), '-'], { input: png });

const wanted = process.argv.slice(2);
const browser = await launch();
let total = 0;
for (const [name, { of, path, ready, prepare }] of Object.entries(pictures)) {
  if (wanted.length > 0 && !wanted.includes(name)) continue;
  const server = await of();
  const where = typeof path === 'string' ? path : await path(server);
  const { page, close } = await openPage(browser, new URL(where, server.url).href,
    { viewport: sizes.desk, timezoneId: 'UTC', prepare: prepare && ((p) => prepare(p)) });
  await page.waitForSelector(ready);
  await page.evaluate(() => document.fonts.ready);
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  const png = small(await page.screenshot());
  writeFileSync(new URL(`../testdata/${name}.png`, import.meta.url), png);
  total += png.length;
  console.log(`${name}: ${png.length} bytes`);
  await close();
  await server.stop();
}
console.log(`together: ${total} bytes`);
await browser.close();
