// The first page in a browser: a simulator is found, an aircraft and a maneuver are chosen or measured, one is flown
// well to be looked at. The simulators are stand-ins on this machine.

import assert from 'node:assert/strict';
import dgram from 'node:dgram';
import { readFile } from 'node:fs/promises';
import { nothingInTheWay, openPage, sharing, startHouse, test, until } from './harness.js';

const own = sharing();

/** Sends lines of JSON until it is stopped, each a tenth of a second of flight, twenty times faster than it is. */
function simulator({ host, port }) {
  const socket = dgram.createSocket('udp4');
  const state = { values: {}, time: 100 };
  const timer = setInterval(() => {
    state.time += 0.1;
    socket.send(JSON.stringify({ time: state.time, ...state.values }), port, host);
  }, 10);
  return {
    set: (values) => Object.assign(state.values, values),
    stop() {
      clearInterval(timer);
      socket.close();
    },
  };
}

const attitude = { heading: 90, pitch: 2, bank: 0 };
const level = { ...attitude, airspeed: 110, altitude: 5000, 'vertical-speed': 0, 'normal-load': 1 };

/**
 * A test on a page of a server of its own, which nobody has sent anything. The page may complain of nothing but what
 * is allowed (see openPage).
 */
function alone(name, run, { path = '', ...options } = {}) {
  test(name, async () => {
    const house = await startHouse([]);
    const { page, complaints, close } = await openPage(own.browser, new URL(path, house.url).href, options);
    try {
      await run(page, house);
      assert.deepEqual(complaints, []);
      await close();
    } finally {
      await house.stop();
    }
  });
}

const first = 'main[data-mode="empty"] ht-welcome';
const tile = (name) => `.choice-tile[data-name="${name}"]`;

alone('who changes nothing has three choices made; every look has room for them', async (page) => {
  await until(page, '.found', 'Nothing is heard yet; this machine is asked');
  await page.waitForSelector(`${tile('wing-over')} .aim[d^="M"]`);
  for (const name of ['wing-over', 'radial-trainer']) {
    assert.equal(await page.locator(tile(name)).getAttribute('aria-pressed'), 'true');
  }
  assert.match(await page.locator(tile('radial-trainer')).innerText(), /130\s+entry\s+70\s+slowest\s+59\s+stall/);
  assert.equal(await page.locator('.ticks li[data-there="true"]').count(), 0);
  assert.equal(await page.locator('.ticks li').count(), 11);
  assert.equal(await page.locator('#first-fly').isDisabled(), true);
  assert.equal(await page.locator('#first-show').isEnabled(), true);
  await page.locator(tile('lazy-eight')).click();
  await until(page, '#first-fly', 'Fly: Lazy eight');
  const all = await page.locator('#first-show').boundingBox();
  assert.ok(all.y + all.height <= 800, 'both buttons are seen without scrolling');
  await nothingInTheWay(page);
});

alone('a channel is ticked as it arrives, and the pilot goes on when ready', async (page, house) => {
  await page.waitForSelector(first);
  const sim = simulator(house.udp);
  try {
    sim.set(attitude);
    await page.waitForFunction(() => document.querySelectorAll('.ticks li[data-there="true"]').length >= 3);
    await until(page, '.ticks-cost', 'You can fly now. Until');
    assert.match(await page.locator('.ticks-cost').innerText(), /\d+ of \d+ checks read “not measured”/);
    assert.match(await page.locator('.found').innerText(), /^Data from 127\.0\.0\.1:\d+/);
    sim.set({ ...level, latitude: 50, longitude: 8, ball: 0, throttle: 0.7, 'stall-warning': false });
    await until(page, '.ticks-count', '11 of 11');
    await until(page, '.ticks-cost', 'Everything arrives.');
    assert.equal(await page.locator('main').getAttribute('data-mode'), 'empty', 'the page stays');
    await page.locator(tile('light-single')).click();
    await page.locator('#first-fly').click();
    await page.waitForSelector('main[data-mode="set-up"]');
    await until(page, '.subtitle', 'Light single');
    await page.reload();
    await page.waitForSelector('main[data-mode="set-up"]'); // from now on it opens at once
    await page.goto(new URL('setup', house.url).href);
    await page.locator('#to-first').click(); // and the tiles are found again
    await page.waitForSelector(first);
    await page.locator(tile('turboprop-trainer')).click();
    await page.locator('#first-fly').click();
    await until(page, '.subtitle', 'urboprop trainer');
    assert.doesNotMatch(page.url(), /first/);
  } finally {
    sim.stop();
  }
});

alone('a simulator is asked when it is named', async (page) => {
  const sim = dgram.createSocket('udp4');
  const asked = new Map();
  let asker;
  sim.on('message', (b, from) => {
    asker = from;
    const rate = b.readInt32LE(5);
    if (rate > 0) asked.set(b.readInt32LE(9), b.subarray(13).toString('latin1').split('\0')[0]);
  });
  await new Promise((resolve) => sim.bind(0, '127.0.0.1', resolve));
  const timer = setInterval(() => {
    if (!asker) return;
    const body = Buffer.alloc(5 + 8 * asked.size);
    body.write('RREF,');
    [...asked].forEach(([index, name], i) => {
      const value = name.endsWith('_time_sec') ? performance.now() / 1000 : /paused|replay/.test(name) ? 0 : 1;
      body.writeInt32LE(index, 5 + 8 * i);
      body.writeFloatLE(value, 9 + 8 * i);
    });
    sim.send(body, asker.port, asker.address);
  }, 30);
  try {
    await page.locator('#tile-x-plane-ask-address').fill(`127.0.0.1:${sim.address().port}`);
    await page.locator('#tile-x-plane-ask button').click();
    await until(page, '.found', `Data from 127.0.0.1:${sim.address().port}`);
    assert.equal(await page.locator('#tile-x-plane-ask').getAttribute('data-live'), 'true');
    await page.locator('#tile-x-plane-ask-address').fill('8.8.8.8');
    await page.locator('#tile-x-plane-ask button').click();
    await until(page, '#tile-x-plane-ask .tile-words', 'no address of this machine or of a private network');
  } finally {
    clearInterval(timer);
    sim.close();
  }
}, { allow: ['422'] });

alone('my own aircraft is measured in flight, and chosen', async (page, house) => {
  await page.waitForSelector(first); // a simulator heard before the page stands opens the panel
  const sim = simulator(house.udp);
  try {
    sim.set({ ...level, bank: 20 });
    await page.locator('.measure-mine:enabled').click();
    await until(page, '.measure-why', 'hold the wings level');
    sim.set(level);
    await until(page, '.tasks li[aria-current]', 'Slow down to the stall warning');
    await until(page, '.tasks li:first-child', '110');
    sim.set({ airspeed: 62, 'stall-warning': true });
    await until(page, '.tasks li[aria-current]', 'The entry speed');
    await until(page, '.tasks li:nth-child(2)', 'at the warning');
    sim.set({ airspeed: 70, 'stall-warning': false });
    await until(page, '.measure-why', 'is too slow to enter a maneuver');
    await nothingInTheWay(page);
    sim.set({ airspeed: 100 });
    await page.waitForFunction(() => !document.querySelector('.measure-why')?.textContent?.includes('too slow'));
    await page.locator('#measure-name').fill('Light single');
    await page.getByRole('button', { name: 'Keep its card' }).click();
    await until(page, 'ht-measure .control-error', 'There is an aircraft "light-single" already');
    await page.locator('#measure-name').fill('Old plane');
    await page.getByRole('button', { name: 'Keep its card' }).click();
    await page.waitForSelector(`${tile('old-plane')}[aria-pressed="true"]`);
    assert.match(await page.locator(tile('old-plane')).innerText(), /100\s+entry\s+78\s+slowest\s+62\s+stall/);
    const [station] = (await (await fetch(new URL('api/stations', house.url))).json()).stations;
    assert.equal(station.aircraft, 'old-plane');
  } finally {
    sim.stop();
  }
}, { allow: ['422'] });

alone('one is flown well, marked all along, and hands over', async (page, house) => {
  await page.route('**/api/demonstration', (route) => { // as it is, but for the time it takes
    const asked = route.request().postDataJSON();
    return route.continue(asked ? { postData: JSON.stringify({ ...asked, pace: 6 }) } : {});
  });
  await page.locator(tile('light-single')).click();
  await page.locator('#first-show').click();
  const marked = (selector) => page.locator(selector).evaluate((n) => getComputedStyle(n, '::before').content);
  await until(page, '.station-name', 'Demonstration');
  await until(page, 'ht-showing', 'the built-in aircraft flies, not you');
  await page.waitForSelector('main[data-mode="leg"]');
  for (const part of ['ht-ribbon', 'ht-band', '.subtitle']) assert.match(await marked(part), /Demonstration|--mark/);
  await until(page, '.subtitle', 'Light single');
  await page.waitForSelector('main[data-mode="after"] .verdict');
  assert.match(await marked('ht-debrief'), /Demonstration|--mark/);
  await until(page, 'ht-showing', 'That was the demonstration');
  const sim = simulator(house.udp);
  try {
    sim.set(level);
    await until(page, '.station-name', 'Simulator at 127.0.0.1');
    await page.waitForSelector('ht-showing', { state: 'hidden' });
    const { sessions } = await (await fetch(new URL('api/sessions?empty=1', house.url))).json();
    assert.deepEqual(sessions.filter((s) => s.station === 'Demonstration'), []);
  } finally {
    sim.stop();
  }
});

alone('a demonstration is ended, and the first page is back', async (page) => {
  await page.locator('#first-show').click();
  await until(page, '.station-name', 'Demonstration');
  await nothingInTheWay(page); // here, where it is flown at its own pace: it is not over meanwhile
  await page.locator('#end-showing').click();
  await page.waitForSelector(first);
  await page.waitForSelector('ht-showing', { state: 'hidden' });
});

alone('the set-up page has a tile for each simulator, and its files', async (page) => {
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await page.waitForFunction(() => document.querySelectorAll('.tile').length >= 9);
  await page.locator('#tile-flightgear button').click();
  await until(page, '#tile-flightgear .tile-words', 'Copied');
  const line = await page.evaluate(() => navigator.clipboard.readText());
  assert.match(line, /^--native-fdm=socket,out,60,127\.0\.0\.1,\d+,udp$/);
  await page.locator('#tile-bridge a').click();
  await page.waitForSelector('#guide-bridge[open]');
  const [download] = await Promise.all([
    page.waitForEvent('download'), page.locator('#guide-bridge a[download]').click()]);
  assert.equal(download.suggestedFilename(), 'bridge.mjs');
  const { port } = await (await page.request.get(new URL('api/find', page.url()).href)).json();
  const bridge = await readFile(await download.path(), 'utf8');
  assert.ok(bridge.includes(`port = '${port}'`), 'it sends to the port that the page shows');
  assert.equal(await page.locator('ht-buttonbox li').count(), 9);
  await page.locator('ht-buttonbox .copy').first().click();
  const request = await page.evaluate(() => navigator.clipboard.readText());
  assert.equal(request, `POST ${new URL('do/mark', page.url())}`);
  assert.doesNotMatch(await page.locator('#guides').innerText(), /configs\//);
  await nothingInTheWay(page);
}, { path: 'setup' });

alone('the first page speaks German', async (page) => {
  await until(page, '.found', 'Noch ist nichts zu hören');
  const text = await page.locator(first).innerText();
  for (const words of ['Der Simulator', 'Das Flugzeug', 'Das Manöver', 'Eines gut geflogen zeigen', 'Querlage']) {
    assert.ok(text.includes(words), words);
  }
  assert.doesNotMatch(text, /\b(the|your|slowest|entry)\b/i);
}, { kept: { language: 'de' } });
