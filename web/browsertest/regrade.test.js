// The debrief in a browser: a session is graded again by what a leg proposes.

import assert from 'node:assert/strict';
import { openPage, sharing, startFlights, test } from './harness.js';
import { answer } from './logbook.js';

const flight = 'sessions/wo-turboprop-b-good-1';

const own = sharing({ flights: startFlights });

/** What a leg says of itself, the words of its proposal, its button, and what pressing that sends. */
const offers = [
  {
    of: { leg: { another: { maneuver: 'chandelle-traditional', title: 'Chandelle, bank growing' } } },
    words: /Another maneuver than the chosen one was flown: Chandelle, bank growing\./,
    press: 'Grade it as that maneuver',
    sent: { maneuver: 'chandelle-traditional' },
  },
  {
    of: { leg: { propose: { aircraft: 'turboprop-trainer', title: 'Turboprop trainer', entry: 155, stall: 66 } } },
    words: /Entered at 155\skt and stalled at 66\skt, it fits: Turboprop trainer\./,
    press: 'Grade by this card',
    sent: { aircraft: 'turboprop-trainer' },
  },
  {
    of: { changed: true },
    words: /Graded as on the day it was flown\./,
    press: 'Grade again',
    sent: { standard: 'course' },
  },
];

for (const { of, words, press, sent } of offers) {
  test(`“${press}” grades the session again`, async () => {
    const posts = [];
    let first;
    const prepare = async (page) => {
      await answer(page, [], posts);
      await page.route(/\/legs\/1$/, async (route) => {
        const one = await (await route.fetch()).json();
        await route.fulfill({ json: { ...one, ...of, leg: { ...one.leg, ...of.leg } } });
      });
      await page.route(/\/regrade$/, async (route) => {
        posts.push(route.request().postDataJSON());
        const again = { ...first.regrades[0], ...sent, grade: 'fair', score: 71, differences: [] };
        await route.fulfill({ json: { ...first, regrades: [...first.regrades, again] } });
      });
      page.on('response', async (got) => {
        if (/\/api\/sessions\/[^/]+$/.test(got.url())) first = await got.json();
      });
    };
    const { page, complaints, close } = await openPage(
      own.browser,
      new URL(`${flight}?leg=1`, own.flights.url).href,
      { prepare },
    );
    await page.waitForSelector('.otherwise');
    assert.equal(await page.locator('.otherwise').count(), 1);
    assert.match(await page.locator('.otherwise').innerText(), words);
    await page.waitForFunction(() => document.querySelectorAll('#regrades details').length === 1);
    const score = await page.locator('.leg-head').innerText();
    await page.locator('.otherwise button', { hasText: press }).click();
    await page.waitForFunction(() => document.querySelectorAll('#regrades details').length === 2);
    assert.deepEqual(posts, [sent]);
    assert.match(await page.locator('#regrades details[open]').innerText(), /fair · 71/); // the new one is open
    assert.equal(await page.locator('.leg-head').innerText(), score); // the first stays what it was
    assert.deepEqual(complaints, []);
    await close();
  });
}
