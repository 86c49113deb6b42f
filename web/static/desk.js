// The desk: all stations on one page, the one that is touched beside them.

/** @import { Cards, Message } from './types.d.ts' */
/** @import { Link } from './view.d.ts' */

import { h, show, text } from './dom.js';
import { Board } from './elements/board.js';
import { OpenedStation } from './elements/opened.js';
import * as house from './house.js';
import { LiveLink } from './link.js';
import { at, dress } from './page.js';
import { clock } from './pure/format.js';
import { heardAs } from './pure/heard.js';
import { strainWords } from './pure/lost.js';
import { sheetNames, sheetWords } from './pure/sheet.js';
import { counted } from './pure/urgency.js';
import { t } from './pure/text.js';
import { Wall } from './pure/wall.js';
import { seeMany } from './many.js';
import { mayOnceKnown, watching } from './rights.js';
import { load } from './settings.js';
import { keepShell } from './shell.js';
import { Sound } from './sound.js';

/** How often the lists of cards and students are asked for, ms, while a station is open. */
const listEvery = 10_000;

/** Twenty pictures a second suit what comes twenty times a second: each one draws on many sheets. ms */
const drawEvery = 45;

const board = /** @type {Board} */ (document.querySelector('ht-board'));
const opened = /** @type {OpenedStation} */ (document.querySelector('ht-opened'));
const settings = load();
const wall = new Wall();
/** @type {{ cards: Cards | null, students: readonly string[] }} */ const known = { cards: null, students: [] };
/** Stations whose sound is on. @type {Set<string>} */ const heard = new Set();
/** Stations in trouble that were told of. @type {Set<string>} */ let alarmed = new Set();
/** @type {Link | null} */ let linked = null;
let planned = false;
let drawn = 0;

const sound = new Sound(() => plan(), () => settings, () => {});

const live = new LiveLink({
  // where a sheet is missing, all are asked for again
  position: () => ({ seq: wall.mark, run: wall.whole ? wall.run : '' }),
  message: take,
  link: (link) => {
    linked = link;
    plan();
  },
});

/** @param {Message} message */
function take(message) {
  if (message.type !== 'wall') return;
  const changed = wall.take(message, Date.now());
  if (!wall.whole) return live.again();
  for (const sheet of message.sheets) {
    if (heard.has(sheet.name)) for (const callout of sheet.said ?? []) speak(sheet.name, callout);
  }
  board.changed(changed);
  if (wall.names.length > 1) seeMany();
  plan();
}

/** @param {string} name @param {import('./types.d.ts').Callout} callout */
function speak(name, callout) {
  const tile = wall.tiles.get(name);
  if (tile) sound.call(heardAs(callout, heard.size > 1 ? sheetNames(tile).name : ''), 0);
}

/** Draws once before the next picture, however much came: the sheets, and the station that is open, together. */
function plan() {
  if (planned) return;
  planned = true;
  const wait = drawn + drawEvery - performance.now();
  if (wait > 0) setTimeout(requestAnimationFrame, wait, draw);
  else requestAnimationFrame(draw);
}

function draw() {
  planned = false;
  drawn = performance.now();
  const now = Date.now();
  board.draw(wall, now, (name) => (heard.has(name) ? t('sound on') : ''));
  opened.update(now, heard.has(opened.station), known);
  const none = wall.run !== '' && wall.names.length === 0;
  show(at('empty'), none);
  show(board, !none);
  text(at('counts'), none ? '' : countWords());
  text(at('desk-link'), deskLink());
  tellTrouble(now);
}

function countWords() {
  const { trouble, maneuver } = counted(wall.tiles.values());
  const n = wall.tiles.size;
  return [
    n === 0 ? '' : n === 1 ? t('1 station') : t('{n} stations', { n }),
    trouble === 0 ? '' : t('{n} in trouble', { n: trouble }),
    maneuver === 0 ? '' : t('{n} in a maneuver', { n: maneuver }),
  ].filter(Boolean).join(' · ');
}

/** Nothing while all is well. */
function deskLink() {
  if (linked === null || linked.state === 'connecting') return t('connecting to Halfturn');
  if (linked.state === 'none') return t('this browser has no live link (WebSocket): take another browser');
  if (linked.state === 'lost') return t('lost Halfturn at {time} · trying again', { time: clock(linked.since) });
  return '';
}

/** Says once who came into trouble, for those who hear the page. @param {number} now */
function tellTrouble(now) {
  const inTrouble = [...wall.tiles.values()].filter((tile) => tile.safety.length > 0 && tile.info?.link === 'live');
  const fresh = inTrouble.filter((tile) => !alarmed.has(tile.name));
  alarmed = new Set(inTrouble.map((tile) => tile.name));
  if (fresh.length === 0) return;
  text(at('alarm'), fresh.map((tile) =>
    `${sheetNames(tile).name}: ${sheetWords(tile, now, wall.ahead).box}`).join('; '));
}

/** The station of the page’s address, '' for none. */
const chosen = () => new URLSearchParams(location.search).get('station') ?? '';

/** Shows what the address says. */
function follow() {
  const station = chosen();
  watching(station);
  if (station === '') opened.shut();
  else opened.open(station);
  document.body.dataset['open'] = String(station !== '');
  board.open = station;
  if (station !== '') void refresh();
  plan();
}

/** Opens a station, '' for none, so that the browser’s way back leads back. @param {string} station */
function go(station) {
  if (station === chosen()) return;
  const url = new URL(location.href);
  if (station === '') url.searchParams.delete('station');
  else url.searchParams.set('station', station);
  // from one station to another is no step back
  if (chosen() === '' || station === '') history.pushState(null, '', url);
  else history.replaceState(null, '', url);
  follow();
}

function close() {
  const was = opened.station;
  go('');
  board.focusOn(was);
}

async function refresh() {
  // without a recording there is no logbook to ask
  const kept = (await mayOnceKnown('fly')) && (wall.tiles.get(opened.station)?.info?.recording ?? '') !== '';
  const [cards, students] = await Promise.all([known.cards ?? house.cards(), kept ? house.students() : null]);
  known.cards = cards;
  known.students = students?.students ?? known.students;
  plan();
}

/** Says what the machine gives up, or has lost, of all streams; nothing while all is well. */
async function count() {
  text(at('lost'), strainWords(await house.stations()));
}

board.onneed = plan;
opened.onneed = plan;
board.addEventListener('open', (e) => {
  const station = /** @type {CustomEvent} */ (e).detail;
  if (station === chosen()) return close();
  go(station);
  opened.greet();
});
opened.addEventListener('shut', close);
opened.onsound = () => {
  const { station } = opened;
  if (!heard.delete(station)) heard.add(station);
  sound.want(heard.size > 0);
  board.changed(new Set([station]));
  plan();
};
addEventListener('popstate', follow);
addEventListener('keydown', (e) => {
  if (e.key === 'Escape' && opened.station !== '' && !e.defaultPrevented) close();
});
for (const gesture of ['pointerdown', 'keydown']) addEventListener(gesture, () => sound.unlock(), { passive: true });
addEventListener('online', () => live.again());
setInterval(plan, 1000); // ages in words
setInterval(() => {
  if (document.visibilityState !== 'visible') return;
  void count();
  if (opened.station !== '') void refresh();
}, listEvery);

dress('Desk');
board.name();
text(at('legend'), t('Link: one tick each half second, short where data was lost'));
at('empty').replaceChildren(
  h('h2', {}, t('No simulator yet')),
  h('p', {}, t('Each simulator that sends to this machine stands here as a small sheet: what is flown, how far ' +
    'around the turn, what is off, what was said, and how its data comes. Those in trouble come first, then those ' +
    'in a maneuver. A touch on a sheet opens that station beside the others.')),
  h('p', {}, h('a', { href: 'setup' }, t('Set up a simulator'))),
);
sound.choose();
follow();
void count();
live.wall();
void keepShell();
