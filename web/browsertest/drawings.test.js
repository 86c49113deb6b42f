// What the panel draws and offers beside the callouts, fed by the made-up flight.

import assert from 'node:assert/strict';
import { faces, fed, sharing, sizes, until, violations } from './harness.js';

const own = sharing();

/** What is posted to the station's line while something is done. */
async function posted(page, act) {
  const [request] = await Promise.all([page.waitForRequest((r) => r.url().endsWith('/line')), act()]);
  assert.equal(request.method(), 'POST');
  assert.match(request.headers()['content-type'], /^application\/json/);
  return request.postDataJSON();
}

fed(
  own,
  'the ground line is taken with one touch, and its point moved with one more',
  { steps: ['station', 'level'] },
  async (page) => {
    await page.waitForSelector(faces.setup.ready);
    assert.deepEqual(await posted(page, () => page.click('#line-here')), {
      heading: null,
      side: 'right',
      distance: null,
    });
    await until(page, '.line-words', 'Along 090°, point off the right wing');
    assert.deepEqual(await posted(page, () => page.click('[data-side="left"]')), {
      heading: 90,
      side: 'left',
      distance: null,
    });
    await until(page, '.line-words', 'point off the left wing');
    assert.equal(await page.locator('[data-side="left"]').getAttribute('aria-pressed'), 'true');
    assert.deepEqual(await posted(page, () => page.selectOption('#line-distance', '3')), {
      heading: 90,
      side: 'left',
      distance: 3,
    });
    await until(page, '.line-words', 'left wing, 3\u00a0NM');
    assert.deepEqual(await posted(page, () => page.click('#line-clear')), { clear: true });
    await until(page, '.line-words', 'None chosen');
    assert.equal(await page.locator('#line-clear').isVisible(), false);
  },
);

fed(own, 'a line that is refused is told in words', { steps: ['station', 'level'], allow: ['422'] }, async (page) => {
  await page.route(/\/line$/, (route) =>
    route.fulfill({ status: 422, json: { error: 'the heading of now is not known yet: wait for the stream' } }),
  );
  await page.waitForSelector(faces.setup.ready);
  await page.click('#line-here');
  await until(page, 'ht-line [role="alert"]', 'heading of now is not known');
});

fed(
  own,
  'ready is read from two metres, and clearing turns are among the gates',
  { steps: ['station', 'keep ready'] },
  async (page) => {
    await until(page, 'ht-gates .ready', 'Ready');
    const { size, seen } = await page
      .locator('.ready')
      .evaluate((n) => ({
        size: parseFloat(getComputedStyle(n).fontSize),
        seen: n.querySelector('svg').checkVisibility(),
      }));
    // Characters of 16 minutes of arc (ISO 9241-303's least, from memory) are 9.3 mm at 2 m; a capital is some 0.72
    // of the size,
    // a pixel of a 24-inch screen of 1,920 is 0.277 mm: 46 px. This page is 1,280 wide; what is measured grows with
    // the window.
    assert.ok(size >= 45 && seen, `${size} px`);
    assert.match(
      await page.locator('ht-gates .rows').textContent(),
      /Clearing turns 180° of turn, or 90° each way · advised185°/,
    );
  },
);

fed(own, 'the set-up in German and metric units', { steps: ['station', 'level'] }, async (page) => {
  await page.evaluate(() => localStorage.setItem('halfturn', JSON.stringify({ language: 'de', units: 'metric' })));
  await page.reload();
  await page.waitForSelector(faces.setup.ready);
  await until(page, '#line-here', 'Dieser Kurs');
  assert.deepEqual(await violations(page), []);
});

fed(
  own,
  'the sight picture: line, point, where it should stand, drift and wind',
  { steps: faces.leg.steps },
  async (page) => {
    const told = '4.5\u00a0NM away, by position · drift 4° right · wind from 010°, 12\u00a0kt';
    await until(page, '.ground-words', told);
    const turned = (selector) => page.locator(selector).getAttribute('transform');
    assert.equal(await turned('.point-due'), 'rotate(-24 160 160)'); // 90° − 114°
    assert.equal(await turned('.track-line'), 'rotate(4 160 160)');
    assert.equal(await turned('.ground'), 'rotate(66 160 160)'); // the line is 114° behind, and a line has two ends
    assert.notEqual(await page.locator('.ground-line').getAttribute('x1'), '160', 'the line lies to a side');
  },
);

fed(own, 'after a leg the posts have a shape and a word', { steps: faces.after.steps }, async (page) => {
  await page.waitForSelector(faces.after.ready);
  assert.deepEqual(await page.locator('.verdicts li').allTextContents(), [
    '45° met',
    '90° missed',
    '135° met',
    'out met',
    'whole leg not measured',
  ]);
  assert.deepEqual(await page.locator('.verdicts g.mark').evaluateAll((all) => all.map((n) => n.classList[1])), [
    'mark-met',
    'mark-missed',
    'mark-met',
    'mark-met',
    'mark-not-measured',
  ]);
});
