// The debrief of a recorded flight in a browser: scrubbing, laying over, replaying.

import assert from 'node:assert/strict';
import { nothingInTheWay, openPage, printedWords, sharing, sizes, startFlights, test } from './harness.js';
import { answer } from './logbook.js';

/** Wing-overs to the right and to the left, flown in a flight-dynamics library; see coach/session. */
const flight = 'sessions/wo-turboprop-b-good-1';

const own = sharing({ flights: startFlights });

/** Opens the debrief; the page may complain of nothing. */
function debrief(name, query, run, options = {}) {
  test(name, async () => {
    const posts = [];
    const { page, complaints, close } = await openPage(
      own.browser,
      new URL(`${flight}${query}`, own.flights.url).href,
      { ...options, prepare: (page) => answer(page, [], posts) },
    );
    await page.waitForSelector('main:not([hidden]) .values .now');
    await page.waitForFunction(() => document.querySelector('ht-sheet .pen')?.hasAttribute('transform'));
    assert.deepEqual(await page.locator('ht-lanes [aria-pressed="true"]').count(), 4);
    await run(page, posts);
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
  bank: document.querySelector('.values .now')?.textContent,
  when: document.querySelector('.when')?.textContent,
  turned: document.querySelector('#scrub')?.getAttribute('aria-valuetext'),
}));

const drawn = (page) =>
  page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));

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
  assert.match(to.turned, /9\d° turned|8\d° turned/);
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

debrief('however often the cursor moves, it is drawn once a picture', '?leg=1&with=2', async (page) => {
  await page.locator('#time summary').click();
  const drawn = await page.evaluate(async () => {
    const scrub = document.querySelector('#scrub');
    const next = () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
    await next();
    let times = 0;
    const watch = new MutationObserver((all) => (times += all.filter((m) => m.attributeName === 'transform').length));
    watch.observe(document.querySelector('ht-sheet .pen'), { attributes: true });
    for (let i = 0; i < 50; i++) {
      scrub.value = String(i + 1);
      scrub.dispatchEvent(new Event('input'));
    }
    await next();
    watch.disconnect();
    return times;
  });
  assert.equal(drawn, 1);
});

debrief('a leg is laid over another one', '?leg=1', async (page) => {
  assert.equal(await page.locator('ht-sheet .trace.pale').count(), 0);
  await page.locator('#over').selectOption({ index: 1 });
  await page.waitForSelector('ht-sheet .trace.pale');
  assert.equal(await page.locator('ht-sheet .trace.pale').count(), 4);
  assert.match(page.url(), /with=2/);
  await page.waitForFunction(() => document.querySelector('.values .over')?.textContent !== '');
  await page.locator('.leg-button').nth(1).click();
  await page.waitForFunction(() => document.querySelector('.leg-about')?.textContent?.includes('leg 2 of 2'));
  assert.match(page.url(), /leg=2/);
});

debrief('a demonstration of another session is laid over', '?leg=1', async (page) => {
  await page.route(/\/api\/sessions\?/, (route) =>
    route.fulfill({
      json: {
        version: 1,
        total: 1,
        next: '',
        students: [],
        maneuvers: [],
        aircraft: [],
        sessions: [
          {
            id: 'wing-over-turboprop-a-turbulence-good',
            began: '2026-11-20T10:00:00Z',
            ended: '',
            station: 'Seat 1',
            student: 'Uma',
            keep: true,
            maneuvers: [],
            standard: '',
            aircraft: { name: '', title: '' },
            verdicts: [],
            legs: 2,
            score: 90,
            grade: 'good',
            headline: '',
            change: '',
            remarks: 0,
            found: '',
          },
        ],
      },
    }),
  );
  await page.locator('#over').selectOption('other');
  await page.waitForFunction(() => document.querySelectorAll('#over-session option').length === 2);
  assert.match(await page.locator('#over-session').innerText(), /Uma · Nov 20/);
  await page.locator('#over-session').selectOption({ index: 1 });
  await page.waitForSelector('ht-sheet .trace.pale');
  assert.match(decodeURIComponent(page.url()), /with=wing-over-turboprop-a-turbulence-good\/\d/);
  await page.reload(); // the address alone brings it back
  await page.waitForSelector('ht-sheet .trace.pale');
  await page.waitForFunction(() => document.querySelector('#over-leg')?.value !== '');
  assert.equal(await page.locator('#over-session').inputValue(), 'wing-over-turboprop-a-turbulence-good');
});

debrief('remarks on a moment, a leg, the session', '?leg=1&turn=90', async (page, posts) => {
  await page.locator('#remark').fill('Nose low here');
  await page.locator('#remark-by').fill('Uma');
  await page.waitForFunction(() =>
    /leg 1 at (89|90|91)°\s*leg 1\s*the session/.test(document.querySelector('#remark-on')?.textContent ?? ''),
  );
  await page.locator('.remark-form button').click();
  await page.waitForFunction(() => document.querySelectorAll('.remark').length === 2);
  assert.equal(await page.locator('.moment-mark').count(), 2); // on the ribbon, where it was
  const [first] = posts;
  assert.equal(first.to, 'remarks');
  assert.equal(first.leg, 1);
  assert.ok(first.time > 10);
  await page.locator('#remark').fill('A good evening');
  await page.locator('#remark-on').selectOption('session');
  await page.locator('.remark-form button').click();
  await page.waitForFunction(() => document.querySelectorAll('.remark').length === 3);
  assert.deepEqual({ ...posts[1] }, { to: 'remarks', leg: 0, time: null, by: 'Uma', words: 'A good evening' });
  const before = await cursors(page);
  await page.locator('.remark .moment').first().click(); // goes to its moment
  await page.waitForFunction((was) => document.querySelector('.when')?.textContent !== was, before.when);
});


debrief('the best of other sessions and a demonstration are one choice each', '?leg=2', async (page) => {
  const over = page.locator('#over');
  await page.waitForFunction(() =>
    document.querySelector('#over')?.textContent?.includes('the best of other sessions, Nov 20, 97'),
  );
  assert.match(await over.innerText(), /Uma, Nov 19, 95: protected/);
  for (const n of [1, 2]) {
    await over.selectOption(`wing-over-turboprop-a-turbulence-good/${n}`);
    await page.waitForSelector('ht-sheet .trace.pale');
    await page.waitForFunction(
      (w) => decodeURIComponent(location.search).includes(w),
      `with=wing-over-turboprop-a-turbulence-good/${n}`,
    );
    assert.equal(await over.inputValue(), `wing-over-turboprop-a-turbulence-good/${n}`);
    assert.equal(await page.locator('.over-more').isVisible(), false);
  }
});

test('the leg where something was the one thing is opened', async () => {
  const prepare = async (page) => {
    await answer(page);
    await page.route(/\/legs$/, async (route) => {
      const all = await (await route.fetch()).json();
      all.legs[1].change = 'Roll out slower';
      await route.fulfill({ json: all });
    });
  };
  const { page, close } = await openPage(
    own.browser,
    new URL(`${flight}?thing=Roll%20out%20slower`, own.flights.url).href,
    { prepare },
  );
  await page.waitForSelector('.leg-button[data-leg="2"][aria-pressed="true"]');
  assert.match(page.url(), /\?leg=2$/);
  await close();
});

debrief('kept, and of another student', '?leg=1', async (page, posts) => {
  assert.equal(await page.locator('#keep').getAttribute('aria-pressed'), 'true');
  await page.locator('#keep').click();
  await page.waitForSelector('#keep[aria-pressed="false"]');
  const named = (name) =>
    page.waitForFunction(
      (n) =>
        document.querySelector('#subtitle')?.textContent?.startsWith(n) &&
        document.querySelector('#student')?.value === n,
      name,
    );
  await page.locator('#student').selectOption('Cleo');
  await named('Cleo');
  await page.locator('#student').selectOption({ label: 'a new name …' });
  await page.keyboard.press('Escape'); // thought better of it
  assert.equal(await page.locator('#student').inputValue(), 'Cleo');
  await page.locator('#student').selectOption({ label: 'a new name …' });
  await page.keyboard.type('Dee');
  await page.keyboard.press('Enter');
  await named('Dee');
  assert.match(await page.locator('#subtitle').innerText(), /^Dee\s· /);
  assert.deepEqual(posts, [
    { to: 'keep', keep: false },
    { to: 'student', student: 'Cleo' },
    { to: 'student', student: 'Dee' },
  ]);
  await page.locator('#regrades summary').click();
  assert.match(await page.locator('#regrades').innerText(), /near, was met/);
});

debrief(
  'in German and metric units',
  '?leg=1&turn=70',
  async (page) => {
    assert.match(await page.locator('ht-values').innerText(), /km\/h/);
    assert.match(await page.locator('body').innerText(), /Nur zum Üben im Simulator/);
    await page.locator('#checks summary').click();
    assert.match(
      await page.locator('.check-table').innerText(),
      /Fahrt zu Beginn\s+281\skm\/h\s+287\skm\/h\s+269 bis 306\skm\/h/,
    ); // 155 kt × 1.852, within 10 kt
  },
  { kept: { language: 'de', units: 'metric' } },
);

debrief('scrubbed by touch', '?leg=1', async (page) => {
  const sheet = await page.locator('ht-sheet').boundingBox();
  const from = await cursors(page);
  await page.touchscreen.tap(sheet.x + sheet.width * 0.6, sheet.y + 60);
  await drawn(page);
  const to = await cursors(page);
  for (const name of ['ribbon', 'ground', 'scrub', 'bank', 'when']) assert.notEqual(to[name], from[name], name);
}, { viewport: sizes.phone, hasTouch: true, isMobile: true });

debrief('the checks, with their bands, and what was said', '?leg=2', async (page) => {
  await page.locator('#checks summary').click();
  const rows = page.locator('.check-table tbody tr');
  assert.ok(await rows.count() > 15);
  assert.match(await page.locator('.check-table').innerText(), /Bank at 90°\s+78°\s+75°\s+60 to 88°/);
  assert.match(await page.locator('.said-table').innerText(), /s before 90°/);
  assert.match(await page.locator('.caution').textContent(), /Simulator practice only/);
});

debrief(
  'on paper all is large enough to be read, and what belongs to the cursor is left out',
  '?leg=1&with=2',
  async (page) => {
    await page.locator('#time summary').click();
    const words = await printedWords(page, 'A4');
    assert.ok(words.some((w) => w.text === 'entry') && words.some((w) => w.text === 'Instructor'));
    assert.deepEqual(
      words.filter((w) => w.height < 5),
      [],
    ); // points: a lane's numbers are set in 6
    const text = words.map((w) => w.text).join(' ');
    assert.match(text, /Pale: 2 \w+, \d+/);
    assert.doesNotMatch(text, /Above stall|Replay|turned Time/);
  },
);

debrief('it is replayed on the panel', '?leg=1&turn=45', async (page) => {
  await page.locator('#replay').click();
  await page.waitForSelector('main[data-mode="leg"]');
  assert.match(page.url(), /station=replay\+?(%20)?wo-turboprop-b-good-1/);
  await page.waitForFunction(() => /turned/.test(document.querySelector('ht-ribbon .pen-words')?.textContent ?? ''));
  await page.waitForSelector('ht-replay:not([hidden])');
  await page.locator('#replay-pause').click();
  await page.waitForFunction(() => document.querySelector('#replay-pause')?.textContent === 'Go on');
  await page.locator('#replay-pace').selectOption('8');
  await page.locator('#replay-pause').click();
  await page.waitForSelector('main[data-mode="after"] .verdict');
  assert.match(await page.locator('ht-debrief .score').textContent(), /Excellent/);
  await page.locator('#replay-place').evaluate((n) => {
    n.value = '5';
    n.dispatchEvent(new Event('change'));
  });
  await page.waitForSelector('main[data-mode="set-up"]');
  await page.locator('#replay-back').click();
  await page.waitForSelector('main:not([hidden]) .values .now');
});

debrief('nothing stands in anybody’s way', '?leg=2&with=1&turn=70', async (page) => {
  await page.locator('#time summary').click();
  await nothingInTheWay(page);
});

test('a series that lacks legs says so, with its verdict', async () => {
  const { page, complaints, close } = await openPage(
    own.browser,
    new URL('sessions/wo-turboprop-a-abandoned-1', own.flights.url).href,
    { prepare: (page) => answer(page, [], []) },
  );
  await page.waitForSelector('.series-line');
  const lines = await page.locator('.series-line').allInnerTexts();
  assert.match(lines[0], /the series.*Not complete: \d of 2 legs finished/s);
  assert.deepEqual(complaints, []);
  await close();
});

test('a session that is not there is told in words', async () => {
  const { page, close } = await openPage(own.browser, new URL('sessions/none', own.flights.url).href);
  await page.waitForFunction(() => document.querySelector('#state')?.textContent?.includes('There is no session none'));
  await close();
});

test('a session in which nothing can be graded says why', async () => {
  const advice =
    'This is a position stream (NMEA 0183): no attitude, no airspeed. Use the generic protocol with the file ' +
      'halfturn.xml.';
  const prepare = async (page) => {
    await answer(page);
    await page.route(/\/legs$/, (route) =>
      route.fulfill({
        json: { version: 1, session: 'x', duration: 90, plans: [], legs: [], series: [], damage: '', advice },
      }),
    );
  };
  const { page, close } = await openPage(own.browser, new URL(flight, own.flights.url).href, { prepare });
  await page.waitForFunction(
    (words) => document.querySelector('#state')?.textContent?.includes(words),
    'This is a position stream',
  );
  assert.match(await page.locator('#subtitle').innerText(), /no\sleg/);
  await close();
});
