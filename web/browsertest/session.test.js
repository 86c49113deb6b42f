// The debrief of a recorded flight in a browser: scrubbing, laying over, replaying.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { buildFlights, launch, openPage, sizes, violations } from './harness.js';

/** Wing-overs to the right and to the left, flown in a flight-dynamics library; see coach/session. */
const flight = 'sessions/wo-turboprop-b-good-1';

let browser;
let server;

before(async () => {
  [browser, server] = await Promise.all([launch(), buildFlights()]);
});

after(async () => {
  await browser?.close();
  await server?.stop();
});

/** Opens the debrief; the page may complain of nothing. */
function debrief(name, query, run, options = {}) {
  test(name, async () => {
    const { page, complaints, close } = await openPage(browser, new URL(`${flight}${query}`, server.url).href, options);
    await page.waitForSelector('main:not([hidden]) .values tbody tr');
    await page.waitForFunction(() => document.querySelector('ht-sheet .pen')?.hasAttribute('transform'));
    await run(page);
    assert.deepEqual(complaints, []);
    await close();
  });
}

/** Where the cursor stands in every picture. */
const cursors = (page) => page.evaluate(() => ({
  ribbon: document.querySelector('ht-sheet .pen')?.getAttribute('transform'),
  ground: document.querySelector('ht-ground .little-plane')?.getAttribute('transform'),
  plot: document.querySelector('ht-plots .pen')?.getAttribute('transform'),
  scrub: document.querySelector('#scrub')?.value,
  bank: document.querySelector('.values tbody .now')?.textContent,
  when: document.querySelector('.when')?.textContent,
}));

const drawn = (page) => page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));

debrief('one cursor moves through every picture', '?leg=1', async (page) => {
  await page.locator('#time summary').click();
  assert.ok(await page.locator('.plot').count() >= 4);
  const moved = async (act) => {
    const from = await cursors(page);
    await act();
    await drawn(page);
    const to = await cursors(page);
    for (const name of Object.keys(to)) assert.notEqual(to[name], from[name], name);
    return to;
  };
  await page.locator('ht-sheet').scrollIntoViewIfNeeded();
  const sheet = await page.locator('ht-sheet').boundingBox();
  const to = await moved(async () => { // from the entry to the middle, with the mouse
    await page.mouse.move(sheet.x + sheet.width * 0.2, sheet.y + 100);
    await page.mouse.down();
    await page.mouse.move(sheet.x + (sheet.width + 74) / 2, sheet.y + 100, { steps: 5 });
    await page.mouse.up();
  });
  assert.match(to.when, /9\d° turned|8\d° turned/);
  await page.mouse.move(sheet.x + sheet.width * 0.8, sheet.y + 100); // without a press it stays
  await drawn(page);
  assert.deepEqual(await cursors(page), to);
  await moved(async () => {
    for (let i = 0; i < 8; i++) await page.keyboard.press('Shift+ArrowRight');
  });
  await moved(() => page.locator('#scrub').evaluate((n) => {
    n.value = '60';
    n.dispatchEvent(new Event('input'));
  }));
  await page.locator('.plot').first().scrollIntoViewIfNeeded();
  const plot = await page.locator('.plot').first().boundingBox();
  await moved(() => page.mouse.click(plot.x + plot.width * 0.7, plot.y + plot.height / 2));
  await moved(() => page.locator('.moment').first().click());
});

debrief('scrubbing keeps up with the screen', '?leg=1&over=2', async (page) => {
  await page.locator('#time summary').click();
  // What the page itself does in a picture, script and layout, is half of the 16.7 ms of a
  // screen of 60 a second at most; the rest is the screen's own. Common practice, no source.
  const spent = await page.evaluate(async () => {
    const scrub = document.querySelector('#scrub');
    const times = [];
    for (let i = 0; i < 120; i++) {
      scrub.value = String((i * 7) % Number(scrub.max));
      let began = 0;
      requestAnimationFrame(() => (began = performance.now()));
      scrub.dispatchEvent(new Event('input')); // asks for the next picture
      await new Promise((done) => requestAnimationFrame(() => {
        void document.body.offsetHeight;
        done(times.push(performance.now() - began));
      }));
    }
    return times.sort((a, b) => a - b)[60];
  });
  assert.ok(spent < 8.3, `half of the moves take over ${spent.toFixed(1)} ms`);
  console.log(`a move of the cursor takes ${spent.toFixed(1)} ms`);
});

debrief('a leg is laid over another one', '?leg=1', async (page) => {
  assert.equal(await page.locator('ht-sheet .trace.pale').count(), 0);
  await page.locator('#over').selectOption({ index: 1 });
  await page.waitForSelector('ht-sheet .trace.pale');
  assert.equal(await page.locator('ht-sheet .trace.pale').count(), 4);
  assert.match(page.url(), /over=2/);
  await page.waitForFunction(() => document.querySelector('.values tbody td:last-child')?.textContent !== '');
  await page.locator('.leg-button').nth(1).click();
  await page.waitForFunction(() => document.querySelector('.leg-head')?.textContent?.includes('leg 2 of 2'));
  assert.match(page.url(), /leg=2/);
});

debrief('the checks, with their bands, and what was said', '?leg=2', async (page) => {
  const rows = page.locator('.check-table tbody tr');
  assert.ok(await rows.count() > 15);
  assert.match(await page.locator('.check-table').innerText(), /Bank at 90°\s+78°\s+75°\s+60 to 88°/);
  assert.match(await page.locator('.said-table').innerText(), /s before 90°/);
  assert.match(await page.locator('.caution').textContent(), /Simulator practice only/);
});

debrief('it is replayed on the panel', '?leg=1&turn=45', async (page) => {
  await page.locator('#replay').click();
  await page.waitForSelector('main[data-mode="leg"]');
  assert.match(page.url(), /station=replay\+?(%20)?wo-turboprop-b-good-1/);
  await page.waitForFunction(() => document.querySelectorAll('ht-ribbon .trace:not(.pale)').length === 4);
  await page.waitForSelector('ht-replay:not([hidden])');
  await page.locator('#replay-pause').click();
  await page.waitForFunction(() => document.querySelector('#replay-pause')?.textContent === 'Go on');
  await page.locator('#replay-pace').selectOption('8');
  await page.locator('#replay-pause').click();
  await page.waitForSelector('main[data-mode="after"] .verdict');
  assert.match(await page.locator('.verdict').textContent(), /Excellent/);
  await page.locator('#replay-place').evaluate((n) => {
    n.value = '5';
    n.dispatchEvent(new Event('change'));
  });
  await page.waitForSelector('main[data-mode="set-up"]');
  await page.locator('#replay-back').click();
  await page.waitForSelector('main:not([hidden]) .values tbody tr');
});

for (const [name, options] of [['wide', {}], ['large and dark', { viewport: sizes.large, colorScheme: 'dark' }], ['narrow', { viewport: sizes.phone }],
  ['in high contrast', { contrast: 'more' }]]) {
  debrief(`nothing stands in anybody’s way, ${name}`, '?leg=2&over=1&turn=70', async (page) => {
    await page.locator('#time summary').click();
    assert.deepEqual(await violations(page), []);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    assert.ok(wide <= 0, `${wide} pixels stick out`);
  }, options);
}

test('a session that is not there is told in words', async () => {
  const { page, close } = await openPage(browser, new URL('sessions/none', server.url).href);
  await page.waitForFunction(() => document.querySelector('#state')?.textContent?.includes('there is no session none'));
  await close();
});
