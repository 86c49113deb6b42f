// The set-up page in a browser, fed by the made-up flight.

import assert from 'node:assert/strict';
import { fed, nothingInTheWay, sharing } from './harness.js';

const own = sharing();

fed(own, 'with nobody there it says where to send, and how', { path: 'setup' }, async (page) => {
  await page.waitForFunction(() => document.querySelector('#state')?.textContent?.includes('127.0.0.1:7181'));
  assert.match(await page.locator('.caution').textContent(), /Simulator practice only/);
  const guides = page.locator('#guides details');
  await guides.first().waitFor();
  assert.ok(await guides.count() >= 5);
  await page.locator('#guide-flightgear summary').click();
  assert.match(
    await page.locator('#guide-flightgear ol').innerText(),
    /--generic=socket,out,60,HOST,7181,udp,halfturn/,
  );
});

fed(own, 'a sender shows its format, what is missing, and the setting', { path: 'setup' }, async (page, server) => {
  await page.locator('#guides details').first().waitFor();
  await server.do('station', 'level');
  const card = page.locator('.sender');
  await card.waitFor();
  assert.match(await card.locator('h3').textContent(), /^Seat 3 \(127\.0\.0\.1:50123\), live$/);
  const text = await card.innerText();
  assert.match(text, /text lines, certain: 99\.8 % of 1,203 datagrams read/);
  assert.match(text, /Dropped: 3 late/);
  assert.match(await card.locator('.todo').innerText(), /For ball: let the bridge add the member "ball"/);
  assert.equal(await card.locator('tbody tr').first().getAttribute('data-state'), 'missing');
  assert.equal(await card.locator('tbody tr').count(), 5);
  assert.equal(await card.locator('tbody').isVisible(), true);
  await server.do('link gone');
  await card.waitFor({ state: 'detached' });
});

fed(
  own,
  'of several senders the channels are a press away',
  { steps: ['station', 'level'], path: 'setup', options: { prepare: twice } },
  async (page) => {
    await page.waitForFunction(() => document.querySelectorAll('.sender').length === 2);
    assert.equal(await page.locator('.sender tbody').first().isVisible(), false);
    await page.locator('.sender summary').first().click();
    assert.equal(await page.locator('.sender tbody').first().isVisible(), true);
  },
);

fed(
  own,
  'a sender that is refused is named, with the key that decides',
  { path: 'setup', options: { prepare: refused } },
  async (page) => {
    await page.waitForFunction(() => document.querySelector('#refused:not([hidden])') !== null);
    assert.match(
      await page.locator('#refused').textContent(),
      /192\.168\.1\.29:49001 are refused: 64 senders are followed already, and max-stations/,
    );
  },
);

/** Lets the page hear of a sender that is refused. */
async function refused(page) {
  await page.route(/\/api\/stations$/, async (route) => {
    const all = await (await route.fetch()).json();
    await route.fulfill({ json: { ...all, refused: { address: '192.168.1.29:49001', senders: 64 } } });
  });
}

/** Lets the page hear the one sender of the feed as two. */
async function twice(page) {
  await page.route(/\/api\/stations$/, async (route) => {
    const all = await (await route.fetch()).json();
    await route.fulfill({ json: { ...all, stations: all.stations.flatMap((s) => [s, { ...s, name: 'Seat 4' }]) } });
  });
  await page.route(/\/Seat%204\/probe$/, async (route) => {
    const one = await (await route.fetch({ url: route.request().url().replace('Seat%204', 'Seat%203') })).json();
    await route.fulfill({ json: { ...one, name: 'Seat 4' } });
  });
}

fed(own, 'nothing stands in anybody’s way', { steps: ['station', 'level'], path: 'setup' }, async (page) => {
  await page.locator('.sender tbody tr').first().waitFor();
  await page.locator('#guide-bridge summary').click();
  await nothingInTheWay(page);
});
