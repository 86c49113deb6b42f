// The list of sessions and their trend in a browser: filters, the address, going on, the trend of one check.

import assert from 'node:assert/strict';
import { nothingInTheWay, openPage, sharing, sizes, startFlights, test } from './harness.js';
import { answer, leftOut, sessions } from './logbook.js';

const own = sharing({ flights: startFlights });

/** Opens the page on the invented logbook; it may complain of nothing. */
function listed(name, query, run, options = {}) {
  test(name, async () => {
    const calls = [];
    const { page, complaints, close } = await openPage(
      own.browser,
      new URL(`sessions${query}`, own.flights.url).href,
      { ...options, prepare: (page) => answer(page, calls) },
    );
    await page.waitForSelector('main:not([hidden])');
    await run(page, calls);
    assert.deepEqual(complaints, []);
    await close();
  });
}

const shown = (page) => page.locator('.session-row').count();
const subtitle = (page, words) =>
  page.waitForFunction((w) => document.querySelector('#subtitle')?.textContent.split(' · ')[0] === w, words);

listed('newest first, by days, and on to the older ones', '', async (page) => {
  assert.equal(await shown(page), 30);
  assert.match(await page.locator('.day h3').first().innerText(), /November 24, 2026/);
  assert.match(
    await page.locator('.session-row').first().innerText(),
    /Ada\s+Wing-over · Turboprop trainer\s+good\s+\d+/,
  );
  await page.locator('#more').click();
  await page.waitForFunction(() => document.querySelectorAll('.session-row').length === 60);
  assert.equal(await page.evaluate(() => document.activeElement?.classList.contains('session-link')), true);
  assert.equal(await page.locator('.session-link').first().getAttribute('href'), `sessions/${sessions[0].id}`);
});

listed('those without a leg are counted, and shown when wanted', '', async (page, calls) => {
  await page.locator('#empty', { hasText: 'Show also 2 sessions without a leg' }).click();
  await page.waitForFunction(() => document.querySelector('#empty')?.textContent === 'Hide sessions without a leg');
  assert.match(page.url(), /\?empty=1$/);
  assert.ok(!calls.at(-1).includes('flown'));
});

listed('filters are in the address, and Back undoes them', '', async (page, calls) => {
  await page.locator('#student').selectOption('Bo');
  const bo = sessions.filter((s) => s.student === 'Bo');
  await subtitle(page, `${bo.length} sessions`);
  await page.locator('#grade').selectOption('fair');
  await subtitle(page, `${bo.filter((s) => s.grade === 'fair').length} sessions`);
  assert.match(page.url(), /student=Bo&grade=fair$/);
  await page.goBack();
  await subtitle(page, `${bo.length} sessions`);
  assert.equal(await page.locator('#grade').inputValue(), '');
  await page.locator('#from').fill('2026-11-20');
  await subtitle(page, `${bo.filter((s) => s.began >= '2026-11-20').length} sessions`);
  await page.locator('#text').fill('wing was lost');
  await page.waitForFunction(() => location.search.includes('text='));
  await page.waitForFunction(
    () => document.querySelectorAll('.session-found').length === document.querySelectorAll('.session-row').length,
  );
  assert.ok(calls.at(-1).includes('text=wing+was+lost'));
  await page.locator('#all').click();
  await subtitle(page, '130 sessions');
  assert.equal(new URL(page.url()).search, '');
});

listed('from a debrief the way back leads to what was chosen', '', async (page) => {
  await page.locator('#student').selectOption('Bo');
  await page.waitForFunction(() => location.search === '?student=Bo');
  await page.goto(new URL('sessions/wo-turboprop-b-good-1', own.flights.url).href);
  await page.waitForSelector('main:not([hidden])');
  await page.locator('ht-nav a', { hasText: 'Sessions' }).click();
  await page.waitForFunction(() => location.pathname === '/sessions');
  assert.equal(new URL(page.url()).search, '?student=Bo');
});

listed(
  'on a phone what is chosen stands in a line, and the fields behind it',
  '?student=Bo&from=2026-11-20',
  async (page) => {
    const line = page.locator('#choose');
    assert.equal(await line.textContent(), 'Bo · from Nov 20, 2026');
    assert.equal(await page.locator('#student').isVisible(), false);
    await line.click();
    assert.equal(await line.getAttribute('aria-expanded'), 'true');
    await page.locator('#student').selectOption('');
    await page.locator('#from').fill('');
    await page.waitForFunction(() => document.querySelector('#choose')?.textContent === 'Filter');
    await line.click();
    assert.equal(await page.locator('#student').isVisible(), false);
    await page.setViewportSize(sizes.desk);
    assert.deepEqual(
      [await line.isVisible(), await page.locator('#student').isVisible()],
      [false, true],
      'a wide page has room for all',
    );
  },
  { viewport: sizes.phone },
);

listed('an address with filters opens as it was', '?maneuver=chandelle-civil&grade=good', async (page) => {
  await subtitle(
    page,
    `${sessions.filter((s) => s.maneuvers[0].name === 'chandelle-civil' && s.grade === 'good').length} sessions`,
  );
  assert.equal(await page.locator('#maneuver').inputValue(), 'chandelle-civil');
  assert.match(await page.locator('#trend-title').innerText(), /Chandelle, constant bank/);
  await page.waitForSelector('[data-maneuver="chandelle-civil"][aria-pressed="true"]');
});

listed('how am I doing comes first: a curve for each maneuver, with its word, values and days', '', async (page) => {
  await page.waitForSelector('.curve:nth-of-type(2)');
  const words = await page.locator('.curve').allInnerTexts();
  assert.equal(words.length, 2);
  const word = /getting steadier|about the same|less steady than before|stuck on: \w+/;
  for (const w of words) assert.match(w, new RegExp(`${word.source}[^]*100.%[^]*\\d.%[^]*[A-Z][a-z]{2} \\d+`));
  const top = (/** @type {string} */ at) => page.locator(at).evaluate((n) => n.getBoundingClientRect().top);
  assert.ok((await top('#progress')) < (await top('#list')) && (await top('#progress')) < (await top('#trend')));
  await page.locator('.curve', { hasText: 'Chandelle' }).click();
  await page.waitForFunction(() => document.querySelector('#trend-title')?.textContent?.includes('Chandelle'));
  assert.match(page.url(), /maneuver=chandelle-civil/);
  assert.equal(await page.evaluate(() => document.activeElement?.getAttribute('data-maneuver')), 'chandelle-civil');
});

listed('a row says what differs from the row above', '', async (page) => {
  const rows = await page.locator('.session-link').evaluateAll((all) => all.map((a) => [a.textContent, a.ariaLabel]));
  const [first, second] = rows;
  assert.match(first[0], /^AdaWing-over · Turboprop trainer$/);
  assert.equal(second[0], 'Bo'); // the same maneuver in the same aircraft
  assert.match(second[1], /^Bo, Wing-over, Turboprop trainer, \d\d:\d\d$/);
}, { timezoneId: 'UTC' });

for (const [name, viewport] of Object.entries({ desk: sizes.desk, phone: sizes.phone })) {
  test(`an empty logbook shows what will be there, and how to get it: ${name}`, async () => {
    const nothing = { version: 1, total: 0, unflown: 0, sessions: [], next: '', students: [], maneuvers: [],
      aircraft: [], leftOut: { total: 0, sessions: [] } };
    const none = { version: 1, maneuver: null, sessions: 0, legs: 0, checks: [], things: [],
      streak: { now: 0, best: 0, session: '' } };
    const { page, complaints, close } = await openPage(own.browser, new URL('sessions', own.flights.url).href, {
      viewport,
      prepare: async (page) => {
        await page.route(/\/api\/sessions\?/, (route) => route.fulfill({ json: nothing }));
        await page.route(/\/api\/sessions\/trend/, (route) => route.fulfill({ json: none }));
      },
    });
    await page.waitForSelector('.nothing-yet');
    const words = await page.locator('main').innerText();
    for (const want of [/What will be here/, /example/, /Fly a leg/, /Import a recording/, /halfturn demo/]) {
      assert.match(words, want);
    }
    await nothingInTheWay(page);
    assert.deepEqual(complaints, []);
    await close();
  });
}

listed('nothing found is said in words', '?student=Nobody', async (page) => {
  assert.match(await page.locator('#found').innerText(), /No session matches/);
  assert.match(await page.locator('#trend').innerText(), /no finished leg/);
});

listed('a check of the trend is looked at closely', '', async (page) => {
  assert.equal(await page.locator('.multiple').count(), 9);
  // a spread for each session, not only a line
  assert.ok((await page.locator('.multiple').first().locator('.trend-middle').count()) > 10);
  await page.locator('.multiple', { hasText: 'Bank at 90°' }).click();
  await page.waitForSelector('#big .trend-table tbody tr');
  assert.match(page.url(), /check=bank-at-90/);
  assert.match(await page.locator('#big').innerText(), /Median\s+Middle half/);
  await page.keyboard.press('Enter'); // the focus stayed on it
  await page.waitForSelector('#big', { state: 'detached' });
  assert.match(await page.locator('#streak-title + .big-number').innerText(), /^5$/);
  assert.match(await page.locator('.things').innerText(), /Pull more gently/);
});

listed('in German and metric units', '', async (page) => {
  assert.match(await page.locator('body').innerText(), /130 Sitzungen/);
  assert.match(await page.locator('body').innerText(), /Dienstag, 24\. November 2026/);
  assert.match(await page.locator('.multiple', { hasText: 'Kleinste Fahrt' }).innerText(), /km\/h/);
}, { kept: { language: 'de', units: 'metric' }, timezoneId: 'UTC' });

listed('nothing stands in anybody’s way', '?check=bank-at-90', async (page) => {
  await page.waitForSelector('#big');
  await nothingInTheWay(page);
});

test('a server without a logbook is told of in words', async () => {
  const { page, close } = await openPage(own.browser, new URL('sessions', own.flights.url).href);
  await page.waitForFunction(() => (document.querySelector('#state')?.textContent ?? '') !== '');
  await close();
});

const ruin = {
  id: '2026-11-23T17-05-00Z_seat-2',
  why: {
    code: 'remark.twice',
    args: { id: { value: 1 } },
    text: 'notes.json holds two remarks with the id 1; give one of them another',
  },
};

for (const [name, size] of Object.entries({ desk: sizes.desk, phone: sizes.phone })) {
  test(`a session that is left out is shown as left out, and why: ${name}`, async () => {
    Object.assign(leftOut, {
      total: 52,
      sessions: [
        ruin,
        { id: '2026-11-22T09-00-00Z_<b>x', why: 'its folder tells neither when it was nor what was flown' },
      ],
    });
    const { page, complaints, close } = await openPage(own.browser, new URL('sessions', own.flights.url).href, {
      viewport: size,
      prepare: (page) => answer(page, []),
    });
    await page.waitForSelector('main:not([hidden])');
    const notice = page.locator('#left-out');
    assert.equal(await notice.locator('summary').innerText(), '52 sessions are left out of the logbook');
    await notice.locator('summary').click();
    const words = await notice.innerText();
    for (const want of [ruin.id, ruin.why.text, '<b>x', 'and 50 more', 'halfturn sessions rebuild']) {
      assert.ok(words.includes(want), `${want} in ${words}`);
    }
    await nothingInTheWay(page);
    Object.assign(leftOut, { total: 0, sessions: [] });
    assert.deepEqual(complaints, []);
    await close();
  });
}

test('a session that is left out is told in German', async () => {
  Object.assign(leftOut, { total: 1, sessions: [ruin] });
  const { page, close } = await openPage(own.browser, new URL('sessions', own.flights.url).href, {
    prepare: (page) => answer(page, []),
    kept: { language: 'de' },
  });
  await page.waitForSelector('#left-out:not([hidden])');
  assert.match(
    (await page.locator('#left-out').textContent()) ?? '',
    /Eine Sitzung fehlt im Flugbuch.*notes\.json enthält zwei Bemerkungen mit der Nummer 1/s,
  );
  Object.assign(leftOut, { total: 0, sessions: [] });
  await close();
});
