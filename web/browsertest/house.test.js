// The pages on the program itself and a logbook of recorded flights: from the list to the debrief, a remark found
// again, a replay.

import assert from 'node:assert/strict';
import { openPage, sharing, startHouse, test, until, violations } from './harness.js';

const own = sharing({
  house: () => startHouse(['wo-turboprop-b-good-1', 'wo-turboprop-a-rushed-1', 'wo-single-b-rolled-out-early-1']),
});

test('from the list to a remark, and back by its words', async () => {
  const { page, complaints, close } = await openPage(own.browser, new URL('sessions', own.house.url).href, {
    allow: ['503'],
  });
  await page.waitForFunction(() => document.querySelectorAll('.session-row').length === 3);
  assert.ok(await page.locator('.multiple').count() > 10);
  assert.ok(await page.locator('.trend-middle').count() > 10);
  assert.deepEqual(await violations(page), []);

  await page.locator('.session-link').first().click();
  await page.waitForSelector('main:not([hidden]) .values .now');
  await page.locator('#student').selectOption({ label: 'a new name …' });
  await page.keyboard.type('Ada');
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.querySelector('#student')?.value === 'Ada');
  await page.locator('#remark').fill('The point off the wing was lost.');
  await page.locator('.remark-form button').click();
  await page.waitForSelector('.remark');
  await page.locator('#keep').click();
  await page.waitForSelector('#keep[aria-pressed="true"]');
  assert.deepEqual(await violations(page), []);

  await page.locator('#files summary').click();
  const [file] = await Promise.all([
    page.waitForEvent('download'),
    page.locator('#files a', { hasText: 'GPX' }).first().click(),
  ]);
  assert.match(file.suggestedFilename(), /\.gpx$/);
  const full = 'as many exports are being written as can be at once; try again in a moment';
  await page.route(/export\?format=csv/, (route) => route.fulfill({ status: 503, json: { error: full } }));
  await page.locator('#files a', { hasText: 'CSV' }).first().click();
  await page.waitForFunction((words) => document.querySelector('#state')?.textContent === words, `A${full.slice(1)}`);
  assert.match(page.url(), /\/sessions\//); // still there

  await page.goto(new URL('sessions?text=wing+lost&student=Ada', own.house.url).href);
  await page.waitForFunction(() => document.querySelectorAll('.session-row').length === 1);
  assert.match(
    await page.locator('.session-row').innerText(),
    /Ada[\s\S]*protected · one remark[\s\S]*The point off the wing was lost\./,
  );
  assert.deepEqual(complaints, []);
  await close();
});

test('a recording is taken in on the page, once', async () => {
  const { page, complaints, close } = await openPage(own.browser, new URL('sessions', own.house.url).href);
  await page.waitForSelector('.session-row');
  const before = await page.locator('.session-row').count();
  const flight = new URL('../../coach/session/testdata/flights/wo-jet-entry-banked-1.pcap.gz', import.meta.url)
    .pathname;
  await page.locator('#take').setInputFiles(flight);
  await page.waitForFunction((n) => document.querySelectorAll('.session-row').length === n, before + 1);
  assert.match(await page.locator('#taken').innerText(), /One session was imported/);
  await page.locator('#take').setInputFiles(flight);
  await page.waitForFunction(() => document.querySelector('#taken')?.textContent?.includes('It is here already.'));
  assert.deepEqual(complaints, []);
  await close();
});

test('a text log is imported like a recording, and one without a flight says what it lacks', async () => {
  const { page, complaints, close } = await openPage(own.browser, new URL('sessions', own.house.url).href, {
    allow: ['400'],
  });
  await page.waitForSelector('.session-row');
  const before = await page.locator('.session-row').count();
  const { sessions: [{ id }] } = await (await fetch(new URL('api/sessions', own.house.url))).json();
  const log = await fetch(new URL(`api/sessions/${encodeURIComponent(id)}/export?format=csv`, own.house.url));
  const csv = await log.text();
  const [heads = '', ...rows] = csv.split('\n').filter((line) => line !== '' && !line.startsWith('#'));
  const names = heads.split(',');
  const jsonl = rows.map((row) => JSON.stringify(Object.fromEntries(
    row.split(',').map((v, i) => [names[i], Number(v)]).filter(([, v]) => !Number.isNaN(v))))).join('\n');
  const take = (name, words) =>
    page.locator('#take').setInputFiles({ name, mimeType: 'text/plain', buffer: Buffer.from(words) });
  assert.match(await page.locator('#take').getAttribute('accept'), /\.csv.*\.jsonl/);
  await take('flight.csv', csv);
  await page.waitForFunction((n) => document.querySelectorAll('.session-row').length === n, before + 1);
  assert.match(await page.locator('#taken').innerText(), /One session was imported/);
  await take('flight.jsonl', jsonl);
  await page.waitForFunction((n) => document.querySelectorAll('.session-row').length === n, before + 2);
  await take('notes.csv', 'a,b\n1,2\n');
  await until(page, '#taken', 'notes.csv');
  assert.deepEqual(complaints, []);
  await close();
});

test('a session is replayed on the panel, and leads back', async () => {
  const { page, complaints, close } = await openPage(own.browser, new URL('sessions', own.house.url).href);
  await page.locator('.session-link').last().click();
  await page.waitForSelector('main:not([hidden]) .values .now');
  const debrief = page.url().replace(/\?.*/, '');
  await page.locator('#replay').click();
  await page.waitForSelector('ht-replay:not([hidden])');
  await page.waitForSelector('main[data-mode="leg"], main[data-mode="set-up"]');
  await page.locator('#replay-pace').selectOption('8');
  await page.waitForSelector('main[data-mode="after"] .verdict');
  await page.locator('#replay-back').click();
  await page.waitForSelector('main:not([hidden]) .values .now');
  assert.equal(page.url().replace(/\?.*/, ''), debrief);
  assert.deepEqual(complaints, []);
  await close();
});
