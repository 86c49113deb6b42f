// The debrief as one file, opened from the disk without a network.

import assert from 'node:assert/strict';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { nothingInTheWay, openPage, sharing, startFlights, test } from './harness.js';
import { answer } from './logbook.js';

const own = sharing({ flights: startFlights });

const id = 'wo-turboprop-b-good-1';

test('a debrief is shared as one file that opens from the disk, without a server', async () => {
  const dir = await mkdtemp(join(tmpdir(), 'halfturn-share-'));
  try {
    const file = join(dir, 'debrief.html');
    const answered = await fetch(new URL(`api/sessions/${id}/share.html`, own.flights.url));
    assert.equal(answered.status, 200);
    await writeFile(file, Buffer.from(await answered.arrayBuffer()));
    const asked = [];
    const { page, complaints, close } = await openPage(own.browser, pathToFileURL(file).href, {
      offline: true,
      prepare: (page) => page.on('request', (r) => asked.push(r.url())),
    });
    await page.waitForSelector('main:not([hidden]) .values .now');
    assert.match(await page.locator('.verdict').first().innerText(), /All 26 checks within limits/);
    assert.equal(await page.locator('ht-sheet .trace').count(), 4);
    assert.ok(await page.locator('.checklist li').count() > 15);
    assert.match(await page.locator('#caution').innerText(), /Simulator practice only/);
    assert.equal(await page.locator('ht-nav, #student, #keep, #files, #remark, #by-cards, #replay').count(), 0);
    await page.locator('.leg-button').nth(1).click(); // the other leg is in it too
    await page.waitForFunction(() => document.querySelector('.leg-about')?.textContent?.includes('leg 2 of 2'));
    await page.locator('[data-from="behind"]').click();
    await page.locator('[data-lane="energy"]').click();
    assert.match(await page.locator('.outside-canvas').getAttribute('aria-label'), /from behind/);
    assert.deepEqual(asked.filter((url) => !/^(file|data|blob):/.test(url)), []);
    assert.deepEqual(complaints, []);
    await nothingInTheWay(page);
    await close();
  } finally {
    await rm(dir, { recursive: true, force: true });
  }
});

test('one picture of the leg is saved, with its verdict, that stands for itself', async () => {
  const { page, complaints, close } = await openPage(
    own.browser,
    new URL(`sessions/${id}?leg=1&turn=70`, own.flights.url).href,
    { prepare: (page) => answer(page, [], []) },
  );
  await page.waitForSelector('main:not([hidden]) .values .now');
  await page.locator('#files summary').click();
  const [saved] = await Promise.all([page.waitForEvent('download'), page.locator('#share-svg').click()]);
  assert.equal(saved.suggestedFilename(), 'leg-1.svg');
  const [painted] = await Promise.all([page.waitForEvent('download'), page.locator('#share-png').click()]);
  assert.equal(painted.suggestedFilename(), 'leg-1.png');
  const png = await readFile(await painted.path());
  assert.equal(png.subarray(1, 4).toString('latin1'), 'PNG');
  assert.ok(png.readUInt32BE(16) > 1200 && png.length > 30_000, 'it is drawn, two pixels for one of the page');
  const svg = await readFile(await saved.path(), 'utf8');
  assert.match(svg, /All 26 checks within limits/);
  assert.match(svg, /Simulator practice only/);
  assert.doesNotMatch(svg, /Ada|var\(--|light-dark|https?:\/\/(?!www\.w3\.org)/);
  const { page: alone, complaints: said, close: done } = await openPage(own.browser, 'about:blank');
  await alone.setContent(svg);
  const box = await alone.locator('svg').first().boundingBox();
  assert.ok(box.width > 600 && box.height > 300);
  assert.ok(await alone.locator('path').count() > 10);
  assert.deepEqual([...complaints, ...said], []);
  await done();
  await close();
});
