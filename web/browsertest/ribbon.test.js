// The ribbon after a leg: the leg again, the other way laid over it, and room beyond the plan.

import assert from 'node:assert/strict';
import { faces, fed, inked, openPage, sharing, sizes, until, violations } from './harness.js';

const own = sharing();

const flown = ['fly 0 179', 'finish'];

/** Runs a test on a page that saw the steps from the set-up on. */
function ribbon(name, { steps, options = {} }, run) {
  fed(own, name, { steps: ['station', 'level ready'], options }, async (page, server) => {
    await page.waitForSelector(faces.setup.ready);
    await server.do(...steps);
    await page.waitForSelector(faces.after.ready);
    await run(page, server);
  });
}

const turned = (page) =>
  page
    .locator('.pen-words')
    .textContent()
    .then((s) => parseInt(s ?? '', 10));

ribbon('the last leg is flown again, paused, and moved by the keyboard', { steps: flown }, async (page, server) => {
  await page.click('#again-play');
  await page.waitForFunction(() => parseInt(document.querySelector('.pen-words')?.textContent ?? '', 10) >= 3);
  await page.click('#again-play');
  const at = await turned(page);
  assert.equal(await page.locator('#again-play').textContent(), 'See it again');
  await page.locator('#again-turn').focus();
  for (let i = 0; i < 5; i++) await page.keyboard.press('PageUp');
  await page.waitForFunction(
    (a) => parseInt(document.querySelector('.pen-words')?.textContent ?? '', 10) > a + 40,
    at,
  );
  assert.equal(await page.locator('.trace.pale[d^="M"]').count(), 4);
  assert.deepEqual(await violations(page), []);
  await server.do('level ready', 'fly 0 30'); // a new leg ends it
  await page.waitForFunction(() => document.querySelector('.pen-words')?.textContent?.startsWith('30'));
  assert.equal(await page.locator('ht-again').isVisible(), false);
});

ribbon(
  'who wants no motion steps from post to post',
  { steps: flown, options: { reducedMotion: 'reduce' } },
  async (page) => {
    const seen = [];
    for (let i = 0; i < 4; i++) {
      await page.click('#again-play');
      seen.push(await turned(page));
    }
    assert.deepEqual(seen, [45, 90, 135, 178]);
    assert.equal(await page.locator('#again-play').textContent(), 'Next post');
    await page.click('#again-play');
    await page.waitForSelector('.pen-words', { state: 'hidden' });
  },
);

ribbon(
  'left is laid over right, told apart by line and word',
  { steps: [...flown, 'level ready', 'fly 0 179', 'finish'] },
  async (page) => {
    await page.waitForSelector('#again-over');
    assert.equal(await page.locator('#again-over').textContent(), 'Compare right with left');
    await page.click('#again-over');
    await page.waitForSelector('ht-ribbon .sheet .trace.over[d^="M"]');
    assert.equal(await page.locator('ht-ribbon .sheet .trace.over[d^="M"]').count(), 4);
    assert.notEqual(
      await page
        .locator('.sheet .trace.over')
        .first()
        .evaluate((n) => getComputedStyle(n).strokeDasharray),
      'none',
    );
    assert.match(
      await page.locator('ht-again').innerText(),
      /full line: leg 2, to the left\s+dashed: leg 1, to the right/,
    );
    assert.equal(await page.locator('#again-over').getAttribute('aria-pressed'), 'true');
    assert.deepEqual(await violations(page), []);
    await page.click('#again-over');
    assert.equal(await page.locator('ht-ribbon .sheet .trace.over[d^="M"]').count(), 0);
  },
);

ribbon('the picture is told in words', { steps: flown }, async (page) => {
  const title = page.locator('ht-ribbon svg[role="img"] > title');
  assert.match(await title.textContent(), /Wing-over: the flight over the turn\. 45°: met\. 90°: missed/);
});

ribbon(
  'the canvas takes on the look that is chosen',
  { steps: flown, options: { viewport: sizes.large } },
  async (page, server) => {
    await server.do('level ready', 'fly 0 90');
    await page.waitForFunction(() => document.querySelector('.pen-words')?.textContent?.startsWith('90'));
    await page.reload(); // what is told to one who comes late is the whole trace
    await page.waitForFunction(() => document.querySelector('.pen-words')?.textContent?.startsWith('90'));
    for (const theme of ['dark', 'light', 'contrast']) {
      await page.evaluate((to) => {
        document.documentElement.dataset.theme = to;
      }, theme);
      const wanted = await page.evaluate(() => getComputedStyle(document.body).color);
      assert.equal((await inked(page)).color, wanted, theme);
    }
  },
);

fed(own, 'the sheet stays as it was flown until the verdict, also for one who comes in meanwhile', {
  steps: ['station', 'level ready'],
}, async (page, server) => {
  await page.waitForSelector(faces.setup.ready);
  await server.do('fly 0 179', 'recover');
  await until(page, '.next-words', 'the recovery counts');
  const sheet = async (of) => ({
    ink: (await inked(of)).count > 500,
    marks: await of.locator('.marks > *').count(),
    mode: await of.locator('main').getAttribute('data-mode'),
    verdict: await of.locator('.verdict').isVisible(),
  });
  const kept = await sheet(page);
  assert.ok(kept.marks > 0);
  assert.deepEqual({ ...kept, marks: 0 }, { ink: true, marks: 0, mode: 'leg', verdict: false });
  await server.do('recover', 'recover'); // it goes on for ten seconds
  assert.deepEqual(await sheet(page), kept);
  const late = await openPage(own.browser, server.url);
  await until(late.page, '.next-words', 'the recovery counts');
  assert.deepEqual(await sheet(late.page), kept);
  await late.close();
  assert.deepEqual(await violations(page), []);
  await server.do('finish');
  await page.waitForSelector(faces.after.ready);
});
