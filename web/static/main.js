// Joins the socket, the state, the elements and the sound.

/** @import { Callout, Message } from './types.d.ts' */
/** @import { House, Settings, State } from './view.d.ts' */

import { post } from './api.js';
import { Awake } from './awake.js';
import { caution } from './caution.js';
import * as house from './house.js';
import { First } from './first.js';
import { Hands } from './hands.js';
import { LiveLink } from './link.js';
import { seeMany } from './many.js';
import { Remarked } from './remarked.js';
import { fullScreen } from './elements/controls.js';
import { Nav } from './elements/nav.js';
import { find, register } from './elements/register.js';
import { current, flying, heir, mode, staleAfter, unclear } from './pure/mode.js';
import { isYou } from './pure/company.js';
import { briefOf } from './pure/path.js';
import { heard } from './pure/replay.js';
import { empty, inTurn, reduce, withLink } from './pure/store.js';
import { load, save } from './settings.js';
import { keepShell } from './shell.js';
import { may, mayOnceKnown, watching } from './rights.js';
import { language, setLanguage, t } from './pure/text.js';
import { setUnits } from './pure/units.js';
import { whoWords } from './pure/voice.js';
import { Sound } from './sound.js';
import { knows, learn } from './text/languages.js';

/** A live stream that says nothing for so long, ms, is asked for again. */
const deadAfter = 8000;

/** How long after its answer a choice may take to show, ms; then what the server has is shown. */
const settleAfter = 2000;

/** How often the list of stations is asked for, ms, while the page is seen. */
const listEvery = 5000;

register();
const awake = new Awake();
const remarked = new Remarked();
const main = /** @type {HTMLElement} */ (document.querySelector('main'));
const parts = {
  title: find('ht-title'),
  link: find('ht-link'),
  ribbon: find('ht-ribbon'),
  sight: find('ht-sight'),
  next: find('ht-next'),
  margins: find('ht-margins'),
  gates: find('ht-gates'),
  brief: find('ht-brief'),
  debrief: find('ht-debrief'),
  band: find('ht-band'),
  controls: find('ht-controls'),
  replay: find('ht-replay'),
  session: find('ht-session'),
  keys: find('ht-keys'),
  welcome: find('ht-welcome'),
  showing: find('ht-showing'),
};

/** @type {State} */ let state = empty(Date.now());
/** @type {House} */ const known = { cards: null, list: null };
/** @type {Settings} */ let settings = load();
let error = '';
let lineError = '';
/** @type {{ students: readonly string[], error: string }} */ const session = { students: [], error: '' };
let heardAt = Date.now();
let planned = false;
let expiring = false;
let way = '';
let kept = true;

const sound = new Sound(
  () => plan(),
  () => ({ ...settings, words: heard(settings.words, state.info) }),
  (measured) => set({ measured }),
);
const live = new LiveLink({
  position: () => ({ seq: state.seq, run: state.run }),
  message: take,
  link: (link) => {
    state = withLink(state, link);
    heardAt = Date.now();
    plan();
    if (link.state === 'open') void refresh();
  },
});

/** @param {Message} message */
function take(message) {
  const now = Date.now();
  heardAt = now;
  const before = state;
  if (message.type === 'frame') expire();
  state = remarked.follow(reduce(state, message, now), now);
  if (message.type === 'callout' && state !== before) speak(message);
  if (message.type === 'act' && state !== before) mute();
  if (message.type === 'mark' && state !== before) marked(message);
  if (message.type === 'handover' && state !== before && !state.info?.replay) first.handed(message.shown);
  tick();
  if (message.type === 'hello') watching(state.station);
  if (message.type === 'hello' || message.type === 'plan' || message.type === 'station') lead();
  if (message.type === 'hello' || message.type === 'plan') void refresh();
  plan();
}

/** Draws again as soon as what is shown is no longer of now: nobody stays ready because nothing comes. */
function expire() {
  if (expiring) return;
  expiring = true;
  const look = () => {
    const left = staleAfter - (Date.now() - state.frameAt);
    if (left >= 0) return void setTimeout(look, left + 10);
    expiring = false;
    plan();
  };
  setTimeout(look, staleAfter + 10);
}

/** @param {Callout} callout */
function speak(callout) {
  // What was missed while the link was lost comes before the next frame: count on from the last. A person also speaks
  // while nothing is flown.
  const idle = callout.kind === 'said' && !current(state, Date.now()) && callout.time >= (state.frame?.time ?? 0);
  const age = state.frame && !idle ? state.frame.time + sinceFrame() - callout.time : 0;
  sound.call(callout, age);
}

/** Seconds of flight a second: other than one in a replay. */
function pace() {
  return state.info?.replay?.pace ?? 1;
}

/** Seconds of flight since the latest frame came. */
function sinceFrame() {
  return (state.info?.replay?.paused ? 0 : (Date.now() - state.frameAt) / 1000) * pace();
}

/**
 * Begins the cues whose time has come, while the flight goes on; also driven by each message, as a hidden page's
 * timers are slow.
 */
function tick() {
  if (current(state, Date.now())) sound.tick(state.frame, sinceFrame, pace());
}

/** Draws once before the next picture, however much came. */
function plan() {
  if (planned) return;
  planned = true;
  requestAnimationFrame(draw);
}

/** Leads the way to the brief to that of what is flown here. */
function lead() {
  const to = briefOf(state);
  const nav = document.querySelector('ht-nav');
  if (to === way && nav?.firstElementChild?.getAttribute('aria-label') === t('Pages')) return;
  way = to;
  if (nav instanceof Nav) nav.update(to === '' ? {} : { brief: to });
}

/** Puts the desk among the pages, once there is more than one station. */
function toDesk() {
  const nav = document.querySelector('ht-nav');
  if (nav instanceof Nav) nav.update();
}

function draw() {
  planned = false;
  const now = Date.now();
  const face = first.face(mode(state));
  if (main.dataset['mode'] !== face) main.dataset['mode'] = face;
  const old = String(state.frame !== null && !current(state, now));
  if (main.dataset['stale'] !== old) main.dataset['stale'] = old;
  const open = String(unclear(state));
  if (main.dataset['unclear'] !== open) main.dataset['unclear'] = open;
  awake.want(flying(state, now));
  parts.title.update(face === 'empty' ? { ...state, plan: null, frame: null } : state);
  parts.link.update(state, now);
  parts.band.update(state, now);
  parts.replay.update(state, now, remarked.places);
  parts.session.update(state, session);
  parts.keys.update(settings.buttons);
  parts.controls.update(state, {
    house: known,
    settings,
    sound: sound.state,
    voice: sound.voice,
    voices: sound.voices,
    said: sound.said,
    kept,
    error,
  });
  first.update(face);
  if (face === 'empty') return;
  parts.ribbon.update(state);
  switch (face) {
    case 'leg':
      parts.sight.update(state);
      parts.next.update(state);
      parts.margins.update(state);
      break;
    case 'set-up':
      parts.gates.update(state, lineError, now);
      parts.brief.update(state);
      break;
    default:
      parts.debrief.update(state);
      parts.gates.update(state, lineError, now);
  }
}

async function refresh() {
  const [list, cards, students] = await Promise.all([
    house.stations(),
    known.cards ?? house.cards(),
    state.info?.recording && (await mayOnceKnown('fly')) ? house.students() : null,
  ]);
  session.students = students?.students ?? session.students;
  known.list = list ?? known.list;
  if ((list?.stations ?? []).filter((s) => !s.replay && !s.demonstration).length > 1) {
    seeMany();
    toDesk();
  }
  known.cards = cards;
  const next = chosen() === '' ? heir(state.info, known.list?.stations ?? []) : '';
  if (next !== '') watch(next);
  plan();
}

/** The station somebody chose, '' when nobody did. */
function chosen() {
  return new URLSearchParams(location.search).get('station') ?? '';
}

/** @param {string} station */
function watch(station) {
  state = { ...empty(Date.now()), link: state.link };
  live.watch(station);
}

/** @param {Partial<Settings>} change */
function set(change) {
  settings = { ...settings, ...change };
  kept = save(settings);
  if (change.measured === undefined) sound.choose();
  if (knows(settings.language)) return dress();
  void learn(settings.language).catch(stay).then(dress);
}

/** Where the server is away, the language stays as it is. */
const stay = () => void (settings = { ...settings, language: language() });

/** Puts the settings into effect, once the words of the language are there. */
function dress() {
  if (!knows(settings.language)) return; // another was chosen meanwhile
  setLanguage(settings.language);
  setUnits(settings.units);
  document.documentElement.lang = settings.language;
  caution();
  document.documentElement.dataset['theme'] = settings.theme;
  lead();
  plan();
}

/** @param {string} name @param {(detail: any) => void} act */
function on(name, act) {
  parts.controls.addEventListener(name, (event) => act(/** @type {CustomEvent} */ (event).detail));
}

on('settings', set);
on('sound-check', () => {
  set({ sound: true });
  sound.check();
});
on('mute', () => hands.do('mute'));
on('say-again', () => void sound.again());
on('by-ear', () => hands.do('ear'));
on('keys', () => hands.do('keys'));
parts.keys.addEventListener('buttons', (e) => set({ buttons: /** @type {CustomEvent} */ (e).detail }));

const hands = new Hands(parts.keys, /** @type {HTMLElement} */ (document.getElementById('acted')), {
  act: (act) => {
    if (act === 'repeat') return void sound.again();
    if (act === 'full') return void fullScreen();
    if (act === 'mute') return mute();
    if (act === 'ear') return byEar();
    // a slip of the hand ends no leg
    if ((act === 'end' || act === 'step') && state.frame && inTurn(state.frame)) return;
    void ask(act);
  },
  buttons: () => settings.buttons,
});

function mute() {
  set({ sound: !settings.sound });
  sound.want(settings.sound);
  hands.tell(settings.sound ? t('Sound on') : t('Sound off'));
}

function byEar() {
  const on = settings.words !== 'ear';
  set({ words: on ? 'ear' : 'full', sound: settings.sound || on });
  sound.want(settings.sound);
}

/** Asks the server for an act, as a button box does. @param {string} act */
async function ask(act) {
  if (!may('fly')) return;
  const { error: why } = await post(`do/${act}?station=${encodeURIComponent(state.station)}`, {});
  if (why !== '') hands.tell(why);
  void refresh();
}

/** @param {import('./types.d.ts').Marked} mark */
function marked({ by, turn }) {
  const what = turn === null ? t('Marked') : t('Marked at {turn}°', { turn: Math.round(turn) });
  hands.tell(isYou(state, by) ? what : t('{by}: {words}', { by: whoWords(by.name), words: what }));
}
/** Shows why a choice was refused. @param {string} why '' when it was not */
const refused = (why) => void ((error = why), plan());

on('private', async ({ on }) => refused(await house.keepPrivate(state.station, on)));
on('prompts', async ({ prompts }) => refused(await house.prompts(state.station, prompts)));
on('station', ({ station }) => {
  const url = new URL(location.href);
  url.searchParams.set('station', station);
  history.replaceState(null, '', url);
  watch(station);
});
/** Choices go one after another, so that the last one made is the last one heard. */
let choosing = Promise.resolve();
let choices = 0;

on('choose', (choice) => {
  const mine = ++choices;
  const { station } = state;
  choosing = choosing.then(async () => {
    error = await house.choose(station, choice);
    if (error !== '') parts.controls.settle();
    else if (mine === choices) setTimeout(settled, settleAfter, mine);
    plan();
  });
});

/** The answer and the news on the socket come by two ways: wait for the second. @param {number} mine */
function settled(mine) {
  if (mine !== choices) return;
  parts.controls.settle();
  plan();
}

const first = new First(parts.welcome, parts.showing, parts.session, {
  state: () => state,
  house: known,
  debrief: parts.debrief,
  watch,
  plan,
  refresh,
  chosen,
  choose: (choice) => house.choose(state.station, { standard: '', ...choice }),
});

house.flyBy([parts.gates, parts.controls], () => state.station, (why) => {
  lineError = why;
  if (why !== '') hands.tell(why);
  plan();
});

for (const act of ['student', 'end', 'drill']) {
  (act === 'drill' ? parts.debrief : parts.session).addEventListener(act, async (event) => {
    ({ error: session.error } = await post(
      `api/stations/${encodeURIComponent(state.station)}/${act}`,
      /** @type {CustomEvent} */ (event).detail ?? {},
    ));
    void refresh();
  });
}

for (const gesture of ['pointerdown', 'keydown']) addEventListener(gesture, () => sound.unlock(), { passive: true });
setInterval(() => {
  if (sound.waiting) tick();
}, 50);
addEventListener('online', () => live.again());
setInterval(() => {
  if (state.link.state === 'open' && state.info?.link === 'live' && Date.now() - heardAt > deadAfter) live.again();
  plan(); // ages in words
}, 1000);
setInterval(() => {
  if (document.visibilityState === 'visible' && state.link.state === 'open') void refresh();
}, listEvery);

set({});
sound.want(settings.sound);
live.watch(chosen());
void keepShell();
