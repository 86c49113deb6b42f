// Takes a picture of the pages beside the panel at every size in every theme:
// node browsertest/pages.js DIRECTORY [PAGE[-SIZE[-THEME]]...]
// Those named phone, upright, desk, large; light, dark, contrast.
//
// HALFTURN_LANGUAGE  the language of the pages, en when not set
// HALFTURN_WHOLE     1: the whole page, not only what the window shows

import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { launch, openPage, sizes as some, startFeed, startHouse } from './harness.js';
import { answer } from './logbook.js';

const sizes = { ...some, upright: { width: 820, height: 1180 } };
const themes = ['light', 'dark', 'contrast'];

/** Of each page: its server, its address there, what to wait for, and whether the invented logbook answers. */
const pages = {
  debrief: {
    of: 'flown',
    path: (id) => `sessions/${id}?leg=1&with=2&turn=70`,
    ready: 'main:not([hidden]) .values .over:not(:empty)',
  },
  rushed: { of: 'house', path: (id) => `sessions/${id}?leg=1&turn=70`, ready: 'main:not([hidden]) .values .now' },
  sessions: { of: 'house', path: () => 'sessions', ready: 'main:not([hidden]) .session-row', invented: true },
  few: { of: 'house', path: () => 'sessions', ready: 'main:not([hidden]) .session-row' },
  brief: {
    of: 'house',
    path: () => 'brief?maneuver=wing-over&aircraft=turboprop-trainer',
    ready: 'main:not([hidden]) ht-sheet svg .lane',
  },
  unknown: { of: 'house', path: () => 'brief?maneuver=wing-over', ready: 'main:not([hidden]) ht-sheet svg .lane' },
  setup: { of: 'feed', path: () => 'setup', ready: '#senders .sender' },
  desk: { of: 'feed', path: () => 'desk?station=Seat%203', ready: 'ht-opened .pen-words' },
  silent: { of: 'house', path: () => 'setup', ready: '#guides details' },
};

const [dir, ...wanted] = process.argv.slice(2);
if (!dir) throw new Error('usage: node browsertest/pages.js DIRECTORY [PAGE[-SIZE[-THEME]]...]');
await mkdir(dir, { recursive: true });
const names = Object.keys(pages)
  .flatMap((page) =>
    Object.keys(sizes).flatMap((size) =>
      themes.map((theme) => ({ page, size, theme, name: `${page}-${size}-${theme}` })),
    ),
  )
  .filter(({ name }) => wanted.length === 0 || wanted.some((w) => `${name}-`.startsWith(`${w}-`)));
const needs = new Set(names.map((n) => pages[n.page].of));
const browser = await launch();
const servers = {};
/** Of each server, the session with the most to say. */
const worst = {};
const worstOf = async (url) =>
  encodeURIComponent(
    (await (await fetch(new URL('/api/sessions', url))).json()).sessions.sort((a, b) => a.score - b.score)[0].id,
  );
if (needs.has('feed')) {
  servers.feed = await startFeed();
  await servers.feed.do('station', 'level ready', 'fly 0 60');
}
if (needs.has('house')) {
  servers.house = await startHouse([
    'wo-turboprop-b-good-1',
    'wo-turboprop-a-rushed-1',
    'wing-over-turboprop-a-turbulence-good',
  ]);
  worst.house = await worstOf(servers.house.url);
}
if (needs.has('flown')) { // a pair, the first leg with too much bank, in a wind
  servers.flown = await startHouse([], '--maneuver', 'wing-over', '--aircraft', 'turboprop-trainer');
  servers.flown.fly(
    '--pace',
    '20',
    '--maneuver',
    'wing-over',
    '--aircraft',
    'turboprop-trainer',
    '--flaw',
    'overbanked',
    '--legs',
    '2',
    '--wind',
    '330/18',
  );
  const call = async (path, body) =>
    (
      await fetch(
        new URL(path, servers.flown.url),
        body && { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) },
      )
    ).json();
  const [station] = (await call('/api/stations')).stations;
  await call(`/api/stations/${encodeURIComponent(station.name)}/student`, { student: 'Ada' });
  await call(`/api/stations/${encodeURIComponent(station.name)}/end`, {});
  worst.flown = await worstOf(servers.flown.url);
}
for (const { page: which, size, theme, name } of names) {
  const face = pages[which];
  const { page, complaints, close } = await openPage(
    browser,
    new URL(face.path(worst[face.of]), servers[face.of].url).href,
    {
      viewport: sizes[size],
      timezoneId: 'UTC',
      kept: { theme, language: process.env.HALFTURN_LANGUAGE ?? 'en' },
      prepare: face.invented ? (page) => answer(page) : undefined,
    },
  );
  await page.waitForSelector(face.ready);
  await page.screenshot({ path: join(dir, `${name}.png`), fullPage: process.env.HALFTURN_WHOLE === '1' });
  for (const c of complaints) console.error(`${name}: ${c}`);
  await close();
}
await browser.close();
await servers.feed?.stop();
await servers.house?.stop();
await servers.flown?.stop();
