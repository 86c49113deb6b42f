// What is chosen and what was flown: each leg on its own corridor, and two choices that cross on the way.

import assert from 'node:assert/strict';
import { faces, fed, sharing, until } from './harness.js';

const own = sharing();

const corridor = (page) => page.locator('ht-ribbon .corridor').first().getAttribute('d');

const flown = ['station', 'level ready', 'fly 0 179', 'finish'];

fed(own, 'a leg stays on the corridor it was flown on, whatever is chosen after it', { steps: flown },
  async (page, server) => {
    await page.waitForSelector(faces.after.ready);
    const its = await corridor(page);
    await server.do('aircraft Another trainer');
    await until(page, '.subtitle', 'Another trainer');
    assert.equal(await corridor(page), its);
    await until(page, 'ht-debrief h2', 'flown in: generic turboprop trainer');
    await page.reload(); // and for one who comes later
    await until(page, 'ht-debrief h2', 'flown in: generic turboprop trainer');
    assert.equal(await corridor(page), its);
    await server.do('level ready', 'fly 0 20');
    await until(page, '.pen-words', '20° turned');
    assert.notEqual(await corridor(page), its, 'what is flown now is flown on its own');
    assert.equal(await page.locator('.trace.pale[d^="M"]').count(), 0, 'no shadow of another aircraft');
  });

fed(own, 'two choices within one round trip both hold', { steps: ['station', 'keep'] }, async (page) => {
  await page.waitForSelector('#aircraft option[value="light-single"]', { state: 'attached' });
  const posted = [];
  let release = () => {};
  const held = new Promise((resolve) => { release = resolve; });
  await page.route(/\/choose$/, async (route) => {
    posted.push(route.request().postDataJSON());
    if (posted.length === 1) await held;
    await route.continue();
  });
  await page.selectOption('#aircraft', 'light-single');
  await page.waitForFunction(() => document.activeElement?.blur() ?? true);
  const frames = await page.evaluate(() => new Promise((done) => { // drawn meanwhile, with what the server has
    requestAnimationFrame(() => requestAnimationFrame(() => done(document.querySelector('#aircraft').value)));
  }));
  assert.equal(frames, 'light-single');
  await page.selectOption('#maneuver', 'auto');
  await page.evaluate(() => document.activeElement?.blur());
  release();
  await until(page, 'ht-gates', 'each leg counts for the one it fits');
  assert.deepEqual(posted.map((p) => p.maneuver), ['wing-over', 'auto']);
  assert.deepEqual(posted.map((p) => p.aircraft), ['light-single', 'light-single']);
  assert.equal(await page.locator('#aircraft').inputValue(), 'light-single');
  assert.equal(await page.locator('#maneuver').inputValue(), 'auto');
});

fed(own, 'a choice that is refused shows what holds', { steps: ['station', 'keep'], allow: ['422'] }, async (page) => {
  await page.waitForSelector('#maneuver option[value="lazy-eight"]', { state: 'attached' });
  await page.selectOption('#maneuver', 'lazy-eight');
  await until(page, 'ht-controls .control-error', 'choose wing-over');
  await page.waitForFunction(() => document.querySelector('#maneuver').value === 'wing-over');
});
