// Phones and upright tablets: the panel as it is laid out for them.

import assert from 'node:assert/strict';
import { faces, fed, sharing, sizes } from './harness.js';

const own = sharing();

const across = { width: 844, height: 390 };
const upright = { width: 820, height: 1180 };

/** Where what is seen stands, by selector. */
const boxes = (page, ...selectors) =>
  page.evaluate((all) => Object.fromEntries(all.map((s) => {
    const seen = [...document.querySelectorAll(s)].filter((n) => n.checkVisibility({ visibilityProperty: true }));
    const { top, bottom, left, right } = (seen[0] ?? document.createElement('i')).getBoundingClientRect();
    return [s, { top, bottom, left, right, count: seen.length }];
  })), selectors);

for (const [name, viewport] of Object.entries({ phone: sizes.phone, 'phone on its side': across, tablet: upright })) {
  for (const face of ['leg', 'trouble']) {
    fed(own, `${name}, ${face}: one screen, and nothing lies on anything`, {
      steps: faces[face].steps, options: { viewport },
    }, async (page) => {
      await page.waitForSelector(faces[face].ready);
      await page.waitForSelector('.lane-cell', { state: 'attached' });
      const parts = ['ht-nav', 'ht-next', 'ht-ribbon', 'ht-margins', 'ht-band', '#sound-check', '.caution-short'];
      const at = await boxes(page, ...parts, 'ht-ribbon .lane', 'ht-ribbon .corridor');
      assert.equal(await page.evaluate(() => document.documentElement.scrollHeight), viewport.height);
      const seen = parts.filter((p) => at[p].count > 0);
      assert.deepEqual(parts.filter((p) => !seen.includes(p)), face === 'trouble' && name !== 'tablet'
        ? ['#sound-check'] : seen.includes('#sound-check') ? [] : ['#sound-check']);
      for (const a of seen) {
        for (const b of seen) {
          if (a >= b) continue;
          const apart = at[a].right <= at[b].left + 1 || at[b].right <= at[a].left + 1 ||
            at[a].bottom <= at[b].top + 1 || at[b].bottom <= at[a].top + 1;
          assert.ok(apart, `${a} and ${b}`);
        }
      }
      const lanes = name === 'tablet' ? 4 : face === 'trouble' ? 1 : 2;
      assert.equal(at['ht-ribbon .lane'].count, lanes);
      const corridor = at['ht-ribbon .corridor'];
      assert.ok(corridor.bottom - corridor.top > 40, 'the corridor is not flattened');
    });
  }
}

fed(own, 'on a phone the verdict comes first, and nothing floats over it', {
  steps: faces.after.steps, options: { viewport: sizes.phone },
}, async (page) => {
  await page.waitForSelector(faces.after.ready);
  const at = await boxes(page, '.verdict', 'ht-ribbon', '.change', '.checks', 'ht-band');
  assert.ok(at['.verdict'].bottom <= at['ht-ribbon'].top && at['ht-ribbon'].bottom <= at['.change'].top);
  assert.ok(at['.checks'].bottom <= at['ht-band'].top, 'what was said is a line in the page');
  const floats = await page.evaluate(() =>
    [...document.querySelectorAll('body *')].filter((n) => n.checkVisibility())
      .filter((n) => ['sticky', 'fixed'].includes(getComputedStyle(n).position)).map((n) => n.localName));
  assert.deepEqual(floats, []);
});

fed(own, 'the value in trouble takes the place of the next checkpoint', {
  steps: faces.trouble.steps, options: { viewport: sizes.phone },
}, async (page) => {
  await page.waitForSelector(faces.trouble.ready);
  await page.waitForSelector('.trouble-value');
  assert.equal(await page.locator('.trouble-value').textContent(), '109°');
  assert.equal(await page.locator('.next-label').isVisible(), false);
  assert.equal(await page.locator('.lane-cell').first().isVisible(), false, 'it is told once');
});
