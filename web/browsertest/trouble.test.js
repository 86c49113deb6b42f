// Trouble as it looks: outside the corridor, past a limit, the way back, and when it is over.

import assert from 'node:assert/strict';
import { faces, fed, sharing, until } from './harness.js';

const own = sharing();

const textOf = (page, selector) => page.locator(selector).first().textContent();

/** How many things on the panel are inverted: in the ink of the page, with words on it. */
const inverted = (page) =>
  page.evaluate(() => {
    const ink = getComputedStyle(document.body).color;
    return [...document.querySelectorAll('main *')]
      .filter((n) => n.checkVisibility() && n.textContent && getComputedStyle(n).backgroundColor === ink)
      .map((n) => n.closest('[data-channel]')?.dataset.channel ?? n.className);
  });

fed(own, 'a bank past its limit: hatched, named, with the way back in lane and band', {
  steps: ['station', 'level ready'],
}, async (page, server) => {
  await page.waitForSelector(faces.setup.ready);
  await server.do('steep 0 60');
  await until(page, '.pen-words', '60° turned');
  const calm = await page.locator('ht-band').evaluate((n) => n.getBoundingClientRect().toJSON());
  assert.deepEqual(await inverted(page), []);
  assert.equal(await page.locator('.post.next').count(), 1);
  await server.do('steep 61 78', 'safety bank-limit Less bank');
  await page.waitForSelector(faces.trouble.ready);
  assert.deepEqual(await inverted(page), ['bank'], 'one thing, beside the band');
  assert.equal(await page.locator('[data-channel="bank"] .way').getAttribute('data-way'), 'down');
  assert.match(await textOf(page, '[data-channel="bank"] .cell-sub'), /^allowed here 59 to 88°$/);
  assert.match(await textOf(page, '.pen-fault:not([hidden])'), /^21° too steep$/);
  assert.equal(await page.locator('ht-band').getAttribute('data-way'), 'left', 'it is banked to the right');
  assert.match(await textOf(page, '.band-age'), /^stays until the bank is back/);
  assert.match(await textOf(page, '.next-words'), /^Cues wait until the bank is back/);
  assert.equal(await textOf(page, '.next-seconds'), '');
  assert.equal(await page.locator('.post.next').count(), 0, 'red is now, and no cue comes now');
  const alarmed = await page.locator('ht-band').evaluate((n) => n.getBoundingClientRect().toJSON());
  assert.deepEqual(alarmed, calm, 'nothing changes place');
  await server.do('clear bank-limit', 'steep 110 125');
  await page.waitForSelector('ht-band:not([data-kind="safety"])');
  await until(page, '.pen-words', '125° turned');
  assert.deepEqual(await inverted(page), []);
  assert.equal(await textOf(page, '.next-label'), '135°');
});

fed(own, 'after the leg the excursion stays, heavier and hatched', {
  steps: ['station', 'level ready', 'fly 0 179', 'finish'],
}, async (page) => {
  await page.waitForSelector(faces.after.ready);
  const widths = await page.evaluate(() =>
    ['.trace:not(.outside, .pale, .over)', '.trace.outside'].map((s) =>
      parseFloat(getComputedStyle(document.querySelector(`ht-ribbon .sheet ${s}`)).strokeWidth)));
  assert.ok(widths[1] / widths[0] >= 2, widths.join());
  assert.match(await page.locator('ht-ribbon .past').first().evaluate((n) => getComputedStyle(n).fill), /#past/);
});

fed(own, 'the margins tell what they were at the entry and at 45°', {
  steps: ['station', 'level ready'],
}, async (page, server) => {
  await page.waitForSelector(faces.setup.ready);
  await server.do('fly 0 70');
  await until(page, '.pen-words', '70° turned');
  await until(page, '[data-wall="stall"] .margin-value', '40\u00a0kt');
  assert.match(await textOf(page, '[data-wall="stall"] .margin-words'), /^Over the stall, closing40/);
  const stood = await page.locator('[data-wall="stall"] .margin-stood').evaluateAll((all) =>
    all.map((n) => [n.nextSibling.textContent, Number(n.getAttribute('cx'))]));
  assert.equal(stood.length, 2);
  const now = Number(await page.locator('[data-wall="stall"] .margin-now').getAttribute('cx'));
  assert.ok(stood[0][1] > stood[1][1] && stood[1][1] > now && now > 24, 'nearer the wall each time');
  assert.equal(await page.locator('[data-wall="stall"]').getAttribute('data-large'), 'false');
  await server.do('safety stall Push, unload');
  await page.waitForSelector('[data-wall="stall"][data-large="true"]');
  assert.equal(await page.locator('ht-band').getAttribute('data-way'), 'down');
});

fed(own, 'the stall is the floor of the speed lane', { steps: ['station', 'level ready'] }, async (page, server) => {
  await page.waitForSelector(faces.setup.ready);
  await server.do('fly 0 60');
  await until(page, '.pen-words', '60° turned');
  await page.waitForFunction(() => {
    const canvas = document.querySelector('.live-trace');
    const cell = document.querySelector('[data-channel="airspeed"]').getBoundingClientRect();
    const sheet = canvas.getBoundingClientRect();
    const dense = canvas.width / sheet.width;
    const copy = document.createElement('canvas');
    [copy.width, copy.height] = [canvas.width, canvas.height];
    const pen = copy.getContext('2d');
    pen.drawImage(canvas, 0, 0);
    const from = Math.round((cell.top + cell.height / 2 - sheet.top) * dense);
    const { data } = pen.getImageData(0, from, canvas.width, Math.round(60 * dense));
    return data.filter((v, i) => i % 4 === 3 && v > 0).length > 1000; // pixels under the speed
  });
});

fed(own, 'ready is gone with the link, at once, and when nothing comes', {
  steps: ['station', 'keep ready'],
}, async (page, server) => {
  await until(page, 'ht-gates .ready', 'Ready');
  await server.do('link silent');
  await until(page, 'ht-gates .ready', 'Waiting for the simulator');
  await page.waitForSelector('ht-gates[data-ready="false"][data-old="true"]');
  await server.do('link live', 'level ready');
  await until(page, 'ht-gates .ready', 'Ready');
  await until(page, 'ht-gates .ready', 'No data arrives'); // nothing is sent any more
});

fed(own, 'before a leg nothing is drawn as flown', { steps: ['station', 'keep'] }, async (page) => {
  await page.waitForSelector(faces.setup.ready);
  for (const part of ['.pen-line', '.pen-words', '.pen-dot-now']) {
    assert.equal(await page.locator(part).first().isVisible(), false, part);
  }
  assert.equal(await page.locator('.flag-text').first().isVisible(), true, 'values of now are');
});
