// What a debrief shows first: the verdict, what decided, the checks worst first, the ideal; and the slider.

import assert from 'node:assert/strict';
import { openPage, sharing, startFlights, test } from './harness.js';
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

const drawn = (page) =>
  page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));

debrief('the worst checks stand first, and what was met is folded', '?leg=1', async (page) => {
  const verdicts = await page.locator('#worst .checklist .check-verdict').allTextContents();
  const rank = ['missed', 'near', 'not measured', 'met'];
  const ranks = verdicts.map((v) => rank.indexOf(v));
  assert.deepEqual(ranks.filter((n) => n < 0), []);
  const open = await page.locator('#worst .checklist').first().locator('li').count();
  assert.deepEqual(ranks.slice(0, open), ranks.slice(0, open).sort());
  const folded = page.locator('#worst .more-checks');
  assert.match(await folded.locator('summary').innerText(), /^\d+ more/);
  await folded.locator('summary').click();
  const total = await page.locator('#worst .checklist li').count();
  assert.equal(await page.locator('.worst-head .soft').innerText(), `${total} in all`);
});

/** A leg that one check decided: the ball, which the lanes then show. */
const slipped = {
  prepare: async (page) => {
    await page.route(/\/legs\/1$/, async (route) => {
      const one = await (await route.fetch()).json();
      const ball = one.leg.checks.find((c) => c.kind === 'ball-centered');
      Object.assign(ball, { verdict: 'missed', value: 0.4 });
      await route.fulfill({ json: one });
    });
  },
};

test('the lane that decided comes chosen; a fifth takes the place of the first', async () => {
  const rushed = new URL('sessions/wo-turboprop-a-rushed-1?leg=1', own.flights.url).href;
  const { page, complaints, close } = await openPage(own.browser, rushed, {
    prepare: async (page) => {
      await answer(page, [], []);
      await slipped.prepare(page);
    },
  });
  await page.waitForSelector('ht-sheet .excursion');
  const chosen = () => page.locator('ht-lanes [aria-pressed="true"]').evaluateAll((all) =>
    all.map((n) => n.dataset.lane));
  assert.deepEqual(await chosen(), ['bank', 'pitch', 'airspeed', 'ball']);
  await page.locator('[data-lane="energy"]').click();
  assert.deepEqual(await chosen(), ['pitch', 'airspeed', 'ball', 'energy']);
  const names = await page.locator('ht-sheet .lane').evaluateAll((all) => all.map((n) => n.firstChild?.textContent));
  assert.deepEqual(names, ['Nose', 'Speed', 'Ball', 'Energy']);
  assert.equal(await page.locator('ht-sheet .ideal:not([d=""])').count(), 4);
  assert.deepEqual(complaints, []);
  await close();
});

debrief('the ideal is drawn over the flown, in lanes and over the ground', '?leg=1', async (page) => {
  assert.equal(await page.locator('ht-sheet .ideal').count(), 4);
  assert.match(await page.locator('ht-ground .ideal').getAttribute('d'), /^M[\d. L]+/);
  assert.notEqual(
    await page.locator('ht-sheet .ideal').first().evaluate((n) => getComputedStyle(n).strokeDasharray), 'none');
});

test('what was flown about is drawn on the ground, and no ideal of another turn', async () => {
  const seen = async (name) => {
    const { page, complaints, close } = await openPage(own.browser,
      new URL(`sessions/${name}?leg=1`, own.flights.url).href, { prepare: (page) => answer(page, [], []) });
    await page.waitForSelector('main:not([hidden]) .values .now');
    await page.waitForSelector('ht-ground .trace');
    const got = await page.evaluate(() => ({
      about: document.querySelector('ht-ground .flown-about text')?.textContent,
      doubt: document.querySelector('ht-ground .flown-about circle') !== null,
      ideal: [...document.querySelectorAll('ht-ground .ideal')].some((n) => n.getAttribute('d')),
    }));
    assert.deepEqual(complaints, [], name);
    await close();
    return got;
  };
  assert.deepEqual(await seen('ep-single-b-good-2'), { about: 'Pylon', doubt: false, ideal: true });
  assert.deepEqual(await seen('ep-single-a-altitude-constant-1'), { about: 'Pylon', doubt: true, ideal: true });
  const { about, ideal } = await seen('sp-single-a-good-1');
  assert.deepEqual({ about, ideal }, { about: 'Point', ideal: true });
  assert.deepEqual(await seen('tp-single-a-rolled-out-late-1'), { about: undefined, doubt: false, ideal: false });
});

debrief('the slider’s thumb stands under the pen, and scrubbing selects no text', '?leg=1', async (page) => {
  for (const turn of [0, 40, 90, 180]) {
    await page.locator('#scrub').evaluate((n, v) => {
      n.value = String(v);
      n.dispatchEvent(new Event('input'));
    }, turn);
    await drawn(page);
    const [pen, thumb] = await page.evaluate(() => {
      const pen = document.querySelector('ht-sheet .pen').getBoundingClientRect();
      const scrub = document.querySelector('#scrub');
      const box = scrub.getBoundingClientRect();
      const [min, max] = [Number(scrub.min), Number(scrub.max)];
      const share = (scrub.valueAsNumber - min) / (max - min);
      return [pen.left + pen.width / 2, box.left + 12 + share * (box.width - 24)];
    });
    assert.ok(Math.abs(pen - thumb) < 3, `at ${turn}° the pen is at ${pen}, the thumb at ${thumb}`);
  }
  const sheet = await page.locator('ht-sheet').boundingBox();
  await page.mouse.move(sheet.x + sheet.width * 0.3, sheet.y + 60);
  await page.mouse.down();
  await page.mouse.move(sheet.x + sheet.width * 0.7, sheet.y + sheet.height - 10, { steps: 4 });
  await page.mouse.up();
  assert.equal(await page.evaluate(() => String(getSelection())), '');
});

debrief('“See it again” plays the leg in place, and stops where it is pressed', '?leg=1', async (page) => {
  const turned = () => page.locator('#scrub').evaluate((n) => n.valueAsNumber);
  await page.locator('#see-again').click();
  await page.waitForFunction(() => document.querySelector('#scrub').valueAsNumber > 2);
  assert.equal(await page.locator('#see-again').innerText(), 'Pause');
  await page.locator('#see-again').click();
  await drawn(page);
  const at = await turned();
  await drawn(page);
  assert.equal(await turned(), at);
});

debrief('without motion it goes from checkpoint to checkpoint', '?leg=1', async (page) => {
  const stops = [];
  for (let i = 0; i < 3; i++) {
    await page.locator('#see-again').click();
    await drawn(page);
    stops.push(Math.round((await page.locator('#scrub').evaluate((n) => n.valueAsNumber)) / 5) * 5);
  }
  assert.deepEqual(stops, [45, 90, 135]);
}, { reducedMotion: 'reduce' });

test('a leg stopped for safety says first what to do about it', async () => {
  const { page, close } = await openPage(
    own.browser,
    new URL('sessions/chandelle-traditional-turboprop-a-stalled?leg=1', own.flights.url).href,
    { prepare: (page) => answer(page, [], []) },
  );
  await page.waitForSelector('.remedy');
  const lines = await page.locator('.leg-head p').allInnerTexts();
  assert.match(lines[0], /^Stopped for safety: stalled/);
  assert.match(lines[1], /^Lower the nose first/);
  await close();
});

debrief('graded again by another aircraft, in place', '?leg=1', async (page, posts) => {
  await page.route(/\/api\/cards$/, (route) => route.fulfill({ json: {
    maneuvers: [], auto: { name: 'auto', title: 'Auto' }, standards: [{ name: 'course', title: 'course' },
      { name: 'check', title: 'check' }], aircraft: [{ name: 'turboprop-trainer', title: 'Turboprop trainer' }],
  } }));
  await page.route(/\/regrade$/, async (route) => {
    posts.push(route.request().postDataJSON());
    await route.fulfill({ status: 400, json: { error: 'there is no recording' } });
  });
  await page.locator('#by-cards summary').click();
  await page.waitForFunction(() => document.querySelectorAll('#by-standard option').length === 2);
  assert.equal(await page.locator('#by-go').isDisabled(), true); // as it is graded now
  await page.locator('#by-standard').selectOption('check');
  await page.locator('#by-go').click();
  await page.waitForFunction(() => document.querySelector('.tools > .control-error')?.textContent !== '');
  assert.deepEqual(posts, [{ standard: 'check' }]);
}, { allow: ['400'] });
