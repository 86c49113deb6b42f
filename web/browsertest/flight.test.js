// A whole leg in a browser, end to end: the program's own demonstration sends datagrams over
// UDP, the page shows what the coach made of them. With HALFTURN_URL it watches a server that runs.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { openPage, sharing, startDemo, violations } from './harness.js';

const given = process.env.HALFTURN_URL ?? '';
const patience = Number(process.env.HALFTURN_PATIENCE ?? 180) * 1000; // ms for a whole leg

const own = sharing(given ? {} : { demo: () => startDemo(3) });

test('a leg from set-up to its result', { timeout: patience + 30_000 }, async () => {
  const { page, complaints, close } = await openPage(own.browser, given || own.demo.url);
  page.setDefaultTimeout(patience);
  await page.waitForSelector('main[data-mode="leg"]');
  await page.waitForSelector('.pen-line', { state: 'visible' });
  const pen = () => page.locator('.pen-line').evaluate((n) => n.getBoundingClientRect().x);
  const start = await pen();
  await page.waitForFunction((x) => document.querySelector('.pen-line').getBoundingClientRect().x > x + 60, start);
  await page.waitForFunction(() => document.querySelector('ht-band')?.dataset.kind === 'news');
  assert.notEqual(await page.locator('.band-words').textContent(), '');
  assert.equal(await page.locator('.flag-text').count(), 4);
  assert.deepEqual(await violations(page), []);
  await page.waitForSelector('main[data-mode="after"] .verdict');
  assert.match(await page.locator('.verdict').textContent() ?? '', /Excellent|Good|Fair|Unable|Met|Near|Missed|Not measured|Broken off|Stopped for safety/);
  assert.ok(await page.locator('.checks li').count() > 0);
  assert.deepEqual(await violations(page), []);
  assert.deepEqual(complaints, []);
  await close();
});
