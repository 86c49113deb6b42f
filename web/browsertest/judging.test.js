// An instructor judges a session in a browser, after the student has: rate, overrule, fill in the form, sign.

import assert from 'node:assert/strict';
import { nothingInTheWay, openPage, sharing, startFlights, test } from './harness.js';
import { answer, detail, forms } from './logbook.js';

const own = sharing({ flights: startFlights });
const flight = 'wo-turboprop-b-good-1';

/** Answers what is added to the session; posts collects it. @param {import('playwright-core').Page} page */
async function judged(page, posts, first) {
  await answer(page);
  await page.route(/\/forms$/, (route) => route.fulfill({ json: { ...forms, first } }));
  await page.route(/\/(rate|overrule|observe|sign)$/, async (route) => {
    const to = route.request().url().split('/').at(-1);
    const body = route.request().postDataJSON();
    posts.push({ to, ...body });
    const now = detail(flight);
    const at = '2026-11-25T10:00:00Z';
    now.ended = '2026-11-24T20:00:00Z';
    if (to === 'rate') {
      const measured = { grade: 'good', thing: 'bank' };
      now.judging.ratings = [{ ...body, by: 'Ada', at, afterSigning: false, measured }];
    }
    if (to === 'sign') {
      const signed = { id: 'x', by: body.name, at, hash: 'ab'.repeat(32), acts: 3, after: 2, holds: true, removed: 1 };
      now.judging.signed = [signed];
    }
    await route.fulfill({ json: now });
  });
}

test('the student first, then the instructor', async () => {
  const posts = [];
  const { page, complaints, close } = await openPage(own.browser,
    new URL(`sessions/${flight}?leg=1`, own.flights.url).href, { prepare: (p) => judged(p, posts, true) });
  await page.waitForSelector('#rate');
  for (const tells of ['.verdict', '#worst', '#causes', '.series-line', '.leg-button .mark-inline']) {
    assert.equal(await page.locator(tells).filter({ visible: true }).count(), 0, tells);
  }
  await nothingInTheWay(page);
  await page.locator('#rate button', { hasText: 'fair' }).click();
  await page.locator('#rate button', { hasText: 'speed' }).click();
  await page.waitForSelector('.verdict');
  assert.match(await page.locator('.rated').innerText(), /fair, speed.*measured: good, bank/);
  assert.equal(await page.locator('.overrule-check').filter({ visible: true }).count(), 0);
  await page.locator('#judging summary').click();
  await page.locator('#judged-by').fill('B. <b>Example');
  const check = page.locator('.overrule-check').first();
  await check.click();
  await page.locator('.overrule-form button[type=submit]').click();
  assert.match(await page.locator('.overrule-form [role=alert]').innerText(), /Say why/);
  await page.locator('.overrule-form input').fill('a gust');
  await nothingInTheWay(page);
  await page.locator('.overrule-form button[type=submit]').click();
  await page.waitForFunction(() => document.querySelector('.overrule-form') === null);
  assert.match(await page.locator('.element').nth(1).innerText(), /marked by B. Example; by the checks: satisfactory/);
  await page.locator('.element').first().locator('[data-mark=satisfactory]').click();
  await page.locator('#sign').click();
  await page.waitForSelector('.signed-line');
  const signed = /Signed by B. <b>Example.*as it was signed.*added after signing: 2.*names removed since: 1/;
  assert.match(await page.locator('.signed-line').innerText(), signed);
  assert.deepEqual(posts.map((p) => p.to), ['rate', 'overrule', 'observe', 'sign']);
  assert.equal(posts[1].by, 'B. <b>Example');
  assert.deepEqual({ ...posts[0] }, { to: 'rate', leg: 1, grade: 'fair', thing: 'speed' });
  assert.deepEqual(complaints, []);
  await close();
});
