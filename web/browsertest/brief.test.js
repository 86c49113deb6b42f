// The brief page in a browser: choosing, the drawings, what is not known, paper, and the ways between the pages.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { nothingInTheWay, openPage, printedWords, sharing, startDemo, test, violations } from './harness.js';

const own = sharing({ demo: () => startDemo(1) });

/** Opens a brief; the page may complain of nothing. */
function brief(name, query, run, options = {}) {
  test(name, async () => {
    const { page, complaints, close } = await openPage(
      own.browser,
      new URL(`brief${query}`, own.demo.url).href,
      options,
    );
    await drawn(page);
    await run(page);
    assert.deepEqual(complaints, []);
    await close();
  });
}

const drawn = (page) => page.waitForSelector('main:not([hidden]) ht-sheet svg .lane', { state: 'attached' });
const titled = (page, words) => page.waitForFunction((w) => document.querySelector('#title')?.textContent === w, words);

brief(
  'the sheet of the maneuver and aircraft in the address',
  '?maneuver=lazy-eight&aircraft=light-single',
  async (page) => {
    assert.equal(await page.locator('#title').innerText(), 'Lazy eight');
    assert.match(await page.locator('[data-number="bank"]').innerText(), /30°/); // FAA-S-ACS-7B CA.V.D: about 30°
    // the same: at or above 1,500 ft AGL
    assert.match(await page.locator('[data-number="deck"]').innerText(), /1,500\sft/);
    assert.equal(await page.locator('.path-view').count(), 2);
    assert.match(await page.locator('.turn-table').innerText(), /highest nose[^]*Nose highest, bank fifteen/);
    assert.ok((await page.locator('.error').count()) > 10);
    assert.match(await page.locator('main > footer').innerText(), /For simulator practice only/);
  },
);

brief(
  'another maneuver, standard and aircraft are chosen by key, and kept in the address',
  '?maneuver=wing-over',
  async (page) => {
    assert.match(await page.locator('.unknown').first().innerText(), /Not known: entry speed.*choose one above/s);
    assert.equal(await page.locator('.path-view').count(), 0);
    await page.locator('#maneuver').focus();
    await page.keyboard.type('Chandelle, c');
    await titled(page, 'Chandelle, constant bank');
    await page.keyboard.press('Tab');
    await page.keyboard.type('Check');
    await page.keyboard.press('Tab');
    await page.keyboard.type('Radial');
    await page.waitForSelector('.path-view');
    assert.match(page.url(), /maneuver=chandelle-civil&standard=check&aircraft=radial-trainer$/);
    assert.match(
      await page.locator('#subtitle').innerText(),
      /Check flight standard · Radial-engine trainer · one leg/,
    );
    assert.equal(await page.locator('.unknown').count(), 0);
  },
);

brief(
  'where height is held there is no side view, and that is said',
  '?maneuver=steep-turn&aircraft=light-single',
  async (page) => {
    assert.equal(await page.locator('.path-view').count(), 1);
    assert.match(await page.locator('.path-views').innerText(), /height is held/);
  },
);

test('a card that does not exist is said in words, and another can be chosen', async () => {
  const { page, close } = await openPage(own.browser, new URL('brief?maneuver=nothing', own.demo.url).href);
  await page.waitForFunction(() => /nothing/.test(document.querySelector('#state')?.textContent ?? ''));
  await page.locator('#maneuver').selectOption('wing-over');
  await drawn(page);
  assert.equal(await page.locator('#state').innerText(), '');
  await close();
});

brief('in German and metric units', '?maneuver=wing-over&aircraft=light-single', async (page) => {
  assert.equal(await page.locator('html').getAttribute('lang'), 'de');
  const words = await page.locator('body').innerText();
  assert.match(words, /189\skm\/h/); // 102 kt × 1.852
  assert.match(words, /457\sm/); // 1,500 ft × 0.3048
  assert.doesNotMatch(words, /\b(kt|ft)\b/);
  const sections = (await page.locator('main section').allInnerTexts()).join('\n'); // the sources are titles, and stay
  assert.doesNotMatch(sections, /\b(the|with|and|of|to|is)\b/);
}, { kept: { language: 'de', units: 'metric' } });

for (const paper of ['A4', 'Letter']) {
  brief(
    `one or two pages of ${paper}, black on white, with the cautions`,
    '?maneuver=wing-over&aircraft=light-single',
    async (page) => {
      const dir = mkdtempSync(join(tmpdir(), 'halfturn-paper-'));
      try {
        const file = join(dir, 'brief.pdf');
        writeFileSync(file, await page.pdf({ format: paper }));
        assert.match(execFileSync('pdfinfo', [file], { encoding: 'utf8' }), /Pages:\s+[12]\n/);
        const words = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
        assert.match(words, /Wing-over[^]*102\skt[^]*135°/);
        const flat = words.replace(/\s+/g, ' '); // lines end where the paper does
        assert.match(flat, /Simulator practice only.*handbook, local rules and a licensed instructor come/);
        assert.doesNotMatch(words, /Sessions/); // no ways to other pages
        assert.deepEqual(
          (await printedWords(page, paper)).filter((w) => w.height < 5),
          [],
        ); // points: the drawings are made for the paper
        execFileSync('pdftoppm', ['-r', '20', '-singlefile', file, join(dir, 'page')]);
        assert.ok(light(execFileSync('cat', [join(dir, 'page.ppm')])) > 0.85, 'the paper is not white');
      } finally {
        rmSync(dir, { recursive: true });
      }
    },
    { colorScheme: 'dark' },
  );
}

/** The mean lightness of a portable pixmap, 0 to 1. */
function light(ppm) {
  const pixels = ppm.subarray(ppm.indexOf('255\n') + 4);
  return pixels.reduce((sum, v) => sum + v, 0) / pixels.length / 255;
}

for (const query of ['?maneuver=wing-over&aircraft=light-single', '?maneuver=clearing-turns']) {
  brief(`nothing stands in anybody’s way, ${query}`, query, async (page) => {
    for (const more of await page.locator('.errors summary').all()) await more.click();
    await nothingInTheWay(page);
  });
}

test('from the panel to the brief of what is flown there, and back, by key', async () => {
  const { page, complaints, close } = await openPage(own.browser, own.demo.url, { allow: ['404'] });
  await page.waitForFunction(() => document.querySelector('ht-nav a[href*="maneuver="]'));
  assert.equal(await page.locator('ht-nav [aria-current="page"]').innerText(), 'Panel');
  await page.locator('ht-nav a', { hasText: 'Brief' }).focus();
  await page.keyboard.press('Enter');
  await drawn(page);
  assert.match(page.url(), /brief\?maneuver=(wing-over|chandelle-civil)&standard=course&aircraft=.*station=/);
  assert.equal(await page.locator('ht-nav [aria-current="page"]').innerText(), 'Brief');
  await page.locator('ht-nav a', { hasText: 'Panel' }).focus();
  await page.keyboard.press('Enter');
  await page.waitForURL(/\/\?station=/);
  for (const way of ['sessions', 'setup']) {
    await page.goto(new URL(way, own.demo.url).href);
    await page.waitForSelector('ht-nav [aria-current="page"]');
    assert.equal(await page.locator('ht-nav a').count(), 5);
    assert.equal(await page.locator('ht-nav [aria-current="page"]').count(), 1);
  }
  assert.deepEqual(complaints, []);
  await close();
});
