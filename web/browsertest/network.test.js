// A tablet beside the simulator: the network is opened on the set-up page, a device types the code, and is turned out
// when the network is closed. The pages open when the server is away.

import assert from 'node:assert/strict';
import { nothingInTheWay, openPage, sharing, sizes, startFeed, test } from './harness.js';

const own = sharing();

test('a device comes in with the code, and is out when the network is closed', async () => {
  const server = await startFeed();
  try {
    await server.do('station', 'level');
    const { page, complaints, close } = await openPage(own.browser, new URL('setup', server.url).href);
    const open = page.locator('#network-open');
    await open.click();
    await page.getByText('Open it only in a network you trust').waitFor();
    assert.equal(await page.locator('.ways li').count(), 0, 'the first press asks');
    await open.click();
    await page.locator('.ways img').first().waitFor();
    const picture = page.locator('.ways img').first();
    await picture.evaluate((img) => img.decode());
    const address = await page.locator('.ways code').first().textContent();
    const code = (await page.locator('.code strong').textContent()).replaceAll('\u00a0', '');
    assert.match(code, /^[0-9]{6}$/);
    await nothingInTheWay(page);

    const tablet = await openPage(own.browser, new URL('brief', address).href, { viewport: sizes.phone });
    await tablet.page.waitForURL(/\/enter\?to=%2Fbrief$/);
    await nothingInTheWay(tablet.page);
    await tablet.page.locator('#code').fill('12');
    await tablet.page.locator('#submit').click();
    await tablet.page.getByText('That is not the code').waitFor();
    await tablet.page.locator('#code').fill(code);
    await tablet.page.locator('#submit').click();
    await tablet.page.waitForURL(/\/brief$/);
    await tablet.page.goto(address);
    await tablet.page.getByText('Seat 3').first().waitFor();
    const told = await tablet.page.evaluate(async () => (await fetch('api/network')).json());
    assert.equal(told.code, undefined, 'the code is told at the simulator alone');
    const forbidden = await tablet.page.evaluate(async () => (await fetch('api/network', {
      method: 'POST', headers: { 'content-type': 'application/json' }, body: '{"open":false}',
    })).status);
    assert.equal(forbidden, 403);

    await open.click();
    await page.locator('.ways').waitFor({ state: 'hidden' });
    await tablet.page.getByText(/lost Halfturn/).first().waitFor();
    await tablet.close();
    assert.deepEqual(complaints, []);
    await close();
  } finally {
    await server.stop();
  }
});

test('the panel opens when the server is away, and says so', async () => {
  const server = await startFeed();
  const { page, close } = await openPage(own.browser, server.url, { serviceWorkers: 'allow' });
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await server.stop();
  await page.reload({ waitUntil: 'commit' });
  await page.locator('.welcome-title', { hasText: 'Halfturn does not answer' }).waitFor();
  await close();
});
