// The outside view in a browser: what it shows, and what a picture of it costs.

import assert from 'node:assert/strict';
import { openPage, sharing, startFlights, test } from './harness.js';
import { answer } from './logbook.js';

const own = sharing({ flights: startFlights });

/** Opens a leg, seen from behind. */
async function fromBehind(query, options = {}) {
  const opened = await openPage(own.browser, new URL(`sessions/wo-turboprop-b-good-1${query}`, own.flights.url).href,
    { ...options, prepare: (page) => answer(page, [], []) });
  await opened.page.waitForSelector('main:not([hidden]) .values .now');
  await opened.page.locator('[data-from="behind"]').click();
  await opened.page.waitForSelector('.outside-canvas[aria-label]');
  return opened;
}

/** The colors of the picture, each with how many pixels have it, those without any left out. */
const colors = (page) => page.locator('.outside-canvas').evaluate((n) => {
  const copy = document.createElement('canvas'); // reading the page's own would make the browser draw it otherwise
  [copy.width, copy.height] = [n.width, n.height];
  const pen = copy.getContext('2d', { willReadFrequently: true });
  pen.drawImage(n, 0, 0);
  const { data } = pen.getImageData(0, 0, n.width, n.height);
  const seen = {};
  for (let i = 0; i < data.length; i += 4) {
    if (data[i + 3] < 255) continue;
    const color = `${data[i]} ${data[i + 1]} ${data[i + 2]}`;
    seen[color] = (seen[color] ?? 0) + 1;
  }
  return seen;
});

/** How many pixels of the picture are inked. */
const inked = async (page) => Object.values(await colors(page)).reduce((sum, n) => sum + n, 0);

test('a leg is seen from behind and from the side, with the ideal beside it, by the cursor of the lanes', async () => {
  const { page, complaints, close } = await fromBehind('?leg=2&turn=90');
  const words = () => page.locator('.outside-canvas').getAttribute('aria-label');
  assert.match(await words(), /The leg from behind, (89|90|91)° turned\. flown: bank 7\d°.*ideal: bank 7\d°/);
  assert.ok(await inked(page) > 500);
  const before = await words();
  await page.keyboard.press('Shift+ArrowRight');
  await page.waitForFunction((w) => document.querySelector('.outside-canvas').getAttribute('aria-label') !== w, before);
  await page.locator('[data-from="side"]').click();
  assert.match(await words(), /The leg from the side/);
  assert.ok(await inked(page) > 500);
  assert.deepEqual(complaints, []);
  await close();
});

test('it is drawn in the inks of each theme', async () => {
  const inks = [];
  for (const theme of ['light', 'dark', 'contrast']) {
    const { page, close } = await fromBehind('?leg=1&turn=60', { kept: { theme } });
    inks.push(Object.keys(await colors(page)));
    await close();
  }
  const [light, dark, contrast] = inks;
  assert.ok(light.includes('28 39 48'), String(light)); // the ink of tokens.css
  assert.ok(dark.includes('239 232 216'), String(dark));
  assert.ok(contrast.includes('255 255 255') && contrast.includes('255 213 0'), String(contrast));
});

test('a picture takes less than 8 ms on a processor a quarter as fast', async () => {
  const { page, close } = await fromBehind('?leg=1', { deviceScaleFactor: 2, viewport: { width: 820, height: 1180 } });
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  const times = await page.evaluate(() => {
    const view = document.querySelector('ht-outside');
    const out = [];
    for (let i = 0; i < 200; i++) {
      const from = performance.now();
      view.cursor(i);
      out.push(performance.now() - from);
    }
    return out.sort((a, b) => a - b);
  });
  const median = times[100];
  console.log(`a picture from outside: median ${median.toFixed(2)} ms, 95 of 100 under ${times[190].toFixed(2)} ms`);
  assert.ok(median < 8, `${median} ms`);
  await close();
});
