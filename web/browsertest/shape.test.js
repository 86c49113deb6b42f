// The panel keeps its shape: nothing on it moves because words beside it changed, and no words stand on others.

import assert from 'node:assert/strict';
import { faces, fed, sharing, sizes, until } from './harness.js';

const own = sharing();

const top = (page) => page.locator('ht-ribbon').evaluate((n) => n.getBoundingClientRect().top);

for (const language of ['en', 'de']) {
  for (const viewport of language === 'en' ? [sizes.desk, { width: 1180, height: 820 }] : [sizes.desk]) {
    fed(
      own,
      `the ribbon begins at one height in every face: ${language}, ${viewport.width} wide`,
      { steps: ['station', 'level'], options: { viewport, kept: { language } } },
      async (page, server) => {
        await page.waitForSelector(faces.setup.ready);
        const wanted = await top(page);
        const at = async (what) => assert.equal(await top(page), wanted, what);
        await server.do('level ready', 'fly 0 60');
        await page.waitForSelector('main[data-mode="leg"]');
        await at('in the leg');
        await server.do('link silent'); // more words beside the caution
        await page.waitForSelector('ht-link[data-well="false"]');
        await at('when nothing is heard');
        await server.do('link live', 'fly 61 179', 'finish');
        await page.waitForSelector(faces.after.ready);
        await at('after the leg');
        await server.do('plan chandelle-civil Chandelle, constant bank', 'fly 0 20');
        await page.waitForSelector('main[data-mode="leg"]');
        await page.waitForFunction(() => document.querySelector('.title-name')?.textContent?.startsWith('Chandelle'));
        await at('under a long name');
      },
    );
  }

  fed(
    own,
    `the choices stand in one row, whatever is said of the sound: ${language}`,
    { steps: ['station', 'level ready'], options: { kept: { language } } },
    async (page) => {
      await page.waitForSelector('#aircraft option[value="light-single"]', { state: 'attached' });
      const wanted = await row(page);
      assert.ok(
        wanted.every((y) => Math.abs(y - wanted[0]) <= 1),
        `their middles: ${wanted.join()}`,
      );
      await page.click('#sound-check');
      await page.waitForFunction(
        () =>
          document.querySelector('ht-controls').dataset.sound === 'on' &&
          document.querySelector('#sound-state').textContent !== '',
      );
      assert.deepEqual(new Set(await row(page)), new Set(wanted), 'no voice');
      await page.click('#mute');
      await page.waitForSelector('ht-controls[data-sound="off"]');
      assert.deepEqual(await row(page), wanted, 'muted');
    },
  );
}

/** Where the middles of all that is to be pressed in the last row stand. */
function row(page) {
  return page.$$eval('ht-controls :is(select, button, summary)', (all) =>
    all
      .filter((n) => n.checkVisibility() && !n.closest('.settings-sheet'))
      .map((n) => {
        const box = n.getBoundingClientRect();
        return Math.round(box.top + box.height / 2);
      }),
  );
}

fed(
  own,
  'at no turn angle does a word of the ribbon stand on another',
  { steps: ['station', 'level ready'] },
  async (page, server) => {
    await page.waitForSelector(faces.setup.ready);
    let seen = 0;
    for (let turn = 0; turn < 175; turn += 5) {
      await server.do(`fly ${turn} ${turn + 4}`);
      await until(page, '.pen-words', `${turn + 4}°`);
      const { notes, found } = await page.evaluate(overlaps);
      seen = Math.max(seen, notes);
      assert.deepEqual(found, [], `at ${turn + 4}°`);
    }
    assert.equal(seen, 4, 'every lane named its peak');
  },
);

/** The names of the peaks that are seen, and what stands on them or on each other. */
function overlaps() {
  const boxes = (selector) =>
    [...document.querySelectorAll(selector)]
      .filter((n) => n.checkVisibility() && n.textContent !== '')
      .map((n) => ({ words: n.textContent, box: n.getBoundingClientRect() }));
  const notes = boxes('.note');
  const all = [
    ...notes,
    ...boxes('.pen-flag, .pen-words, .post'),
    { words: 'the pen', box: document.querySelector('.pen-line').getBoundingClientRect() },
  ];
  const found = [];
  for (const a of notes) {
    for (const b of all) {
      const apart =
        a === b ||
        a.box.right <= b.box.left ||
        b.box.right <= a.box.left ||
        a.box.bottom <= b.box.top ||
        b.box.bottom <= a.box.top;
      if (!apart) found.push(`${a.words} and ${b.words}`);
    }
  }
  return { notes: notes.length, found };
}

fed(
  own,
  'all of the debrief can be reached where there is little room',
  { steps: ['station', 'level ready', 'fly 0 179', 'finish'], options: { viewport: { width: 1280, height: 640 } } },
  async (page) => {
    await page.waitForSelector(faces.after.ready);
    await page.hover('ht-debrief h2');
    await page.mouse.wheel(0, 2000);
    await page.waitForFunction(() => {
      const card = document.querySelector('ht-debrief').getBoundingClientRect();
      const last = document.querySelector('ht-debrief .checks li:last-child').getBoundingClientRect();
      return last.bottom <= card.bottom;
    });
  },
);

fed(
  own,
  'on a touch screen all that is pressed is as high as a finger',
  { steps: ['station', 'level ready'], options: { viewport: { width: 1180, height: 820 }, hasTouch: true } },
  async (page) => {
    await page.waitForSelector(faces.setup.ready);
    const low = await page.$$eval('main :is(select, button), footer :is(select, button, summary)', (all) => {
      const wanted = 2.75 * parseFloat(getComputedStyle(document.documentElement).fontSize);
      return all
        .filter((n) => n.checkVisibility() && n.getBoundingClientRect().height < wanted - 0.5)
        .map((n) => n.id || n.textContent);
    });
    assert.deepEqual(low, []);
  },
);
