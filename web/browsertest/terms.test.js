// Words that explain themselves, and what stands at the same place on each page: the ways to the pages and the caution.

import assert from 'node:assert/strict';
import { faces, fed, openPage, sharing, sizes, startHouse, test, violations } from './harness.js';

const own = sharing({ house: () => startHouse(['wo-turboprop-b-good-1', 'wo-turboprop-a-rushed-1']) });

/** The sentence that is open, '' when none is. */
const open = (page) => page.evaluate(() => document.querySelector('.term-says:popover-open')?.textContent ?? '');

/** Opens a page of the house; it may complain of nothing. */
async function visit(path, options, run) {
  const { page, complaints, close } = await openPage(own.browser, new URL(path, own.house.url).href, options);
  await run(page);
  assert.deepEqual(complaints, []);
  await close();
}

async function firstSession() {
  const { sessions } = await (await fetch(new URL('/api/sessions', own.house.url))).json();
  return `sessions/${encodeURIComponent(sessions[0].id)}`;
}

fed(own, 'after a leg the grade explains itself by key and by touch', faces.after, async (page) => {
  await page.waitForSelector(faces.after.ready);
  const grade = page.locator('ht-debrief .score .term');
  const said = await page.locator('ht-debrief .score').textContent();
  const { height, width } = await grade.boundingBox();
  assert.ok(height >= 44 && width >= 44, `${width} by ${height}`); // WCAG 2.2, 2.5.5
  await page.locator('ht-debrief').focus();
  await page.keyboard.press('Tab');
  assert.equal(await page.evaluate(() => document.activeElement?.className), 'term alone');
  assert.match(await open(page), /^A score /);
  assert.deepEqual(await violations(page), []);
  await page.keyboard.press('Escape');
  assert.equal(await open(page), '');
  assert.equal(await page.locator('ht-debrief .score').textContent(), said); // a closed sentence is not read with it
  await grade.click();
  assert.match(await open(page), /^A score /);
  await page.locator('ht-debrief .verdicts .term').first().click();
  assert.match(await open(page), /limits/); // one at a time
});

fed(own, 'the gates explain themselves, and nothing does in a leg', {
  steps: ['station', 'level ready'], options: { viewport: sizes.phone, hasTouch: true },
}, async (page, server) => {
  await page.waitForSelector(faces.setup.ready);
  await page.locator('ht-gates h2 .term').tap();
  assert.match(await open(page), /set-up gate/);
  const box = await page.locator('.term-says:popover-open').boundingBox();
  assert.ok(box.x >= 0 && box.x + box.width <= sizes.phone.width && box.y >= 0, JSON.stringify(box));
  await server.do('fly 0 60');
  await page.waitForSelector(faces.leg.ready);
  assert.equal(await page.locator('.term:visible, .term-says:visible').count(), 0);
});

test('the brief, the list and the debrief explain their words, in each language', async () => {
  const words = { en: /without wind/, de: /ohne Wind/, es: /sin viento/ };
  for (const [language, sentence] of Object.entries(words)) {
    await visit('brief?maneuver=wing-over&aircraft=turboprop-trainer', { kept: { language } }, async (page) => {
      await page.locator('.sheet-figure .term').click();
      assert.match(await open(page), sentence);
      for (const name of ['deck', 'clearing', 'gate']) {
        assert.ok((await page.locator(`[data-term="${name}"]`).count()) > 0, `${language}: ${name}`);
      }
      assert.deepEqual(await violations(page), []);
    });
  }
  await visit('sessions', {}, async (page) => {
    await page.locator('.session-grade .term').first().click();
    assert.match(await open(page), /^A score /);
    assert.deepEqual(await violations(page), []);
  });
  await visit(await firstSession(), {}, async (page) => {
    await page.locator('.verdict-within .term').click();
    assert.match(await open(page), /^A score /);
    await page.locator('.checklist .check-verdict .term').first().click();
    assert.match(await open(page), /limits/);
    assert.deepEqual(await violations(page), []);
  });
});

test('the ways and the caution stand at the same place on every page', async () => {
  const paths = ['', 'brief', 'sessions', await firstSession(), 'setup'];
  for (const viewport of [sizes.desk, sizes.phone]) {
    const places = [];
    for (const path of paths) {
      await visit(path, { viewport }, async (page) => {
        await page.waitForSelector('ht-nav a');
        if (path === '') await page.waitForSelector(faces.empty.ready);
        places.push(await page.evaluate((tall) => {
          const caution = document.querySelector('#caution');
          if (!tall) caution.scrollIntoView();
          const { left, top, right, bottom } = caution.getBoundingClientRect();
          const links = [...document.querySelectorAll('ht-nav a')].map((a) => {
            const r = a.getBoundingClientRect();
            return [r.left, r.top + scrollY, r.right].map(Math.round);
          });
          return {
            whole: caution.textContent.replace(/\s+/g, ' ').trim(),
            caution: tall ? [left, top, right, bottom].map(Math.round) : [left, right, bottom - top].map(Math.round),
            links,
          };
        }, viewport === sizes.desk));
      });
    }
    for (const place of places) assert.deepEqual(place, places[0]);
    assert.match(places[0].whole, /^Simulator practice only\. .* a licensed instructor come first\.$/);
  }
});

fed(own, 'the first page says what is to be done in the title’s place', {}, async (page) => {
  await page.waitForSelector(faces.empty.ready);
  await page.waitForFunction(() => document.querySelector('h1')?.innerText === 'Halfturn three choices, then fly');
});
