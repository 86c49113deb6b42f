// The course of a student in a browser: how the steps stand, another course, a ruling, what is flown next, the record
// as a file; and the next thing on the panel.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import {
  faces, fed, nothingInTheWay, openPage, sharing, sizes, startPrepared, test, until, violations,
} from './harness.js';

const halfturn = new URL('../../bin/halfturn', import.meta.url).pathname;
const flight = new URL('../../coach/session/testdata/flights/wo-turboprop-b-good-1.pcap.gz', import.meta.url).pathname;

/** One session of Ada Example, of which somebody ruled that a step is passed. @param {string} data */
function flown(data) {
  for (const words of [
    ['sessions', 'import', '--maneuver', 'wing-over', '--standard', 'practice', flight],
    ['sessions', 'student', 'last', 'Ada', 'Example'],
    ['course', 'rule', 'level-roll', 'seen', 'elsewhere', '--student', 'Ada Example', '--verdict', 'passed',
      '--by', 'Bo Example'],
  ]) execFileSync(halfturn, [...words, '--data', data], { stdio: ['ignore', 'ignore', 'pipe'] });
}

const own = sharing({ house: () => startPrepared(flown) });

/** A station that is live, and what it is told. @param {import('playwright-core').Page} page */
async function seated(page, told) {
  const seat = { name: 'Seat 3', link: 'live', student: 'Ada Example', aircraft: 'turboprop-trainer', maneuver: '' };
  await page.route(/\/api\/stations$/, (route) => route.fulfill({ json: { version: 1, stations: [seat] } }));
  await page.route(/\/api\/stations\/Seat%203\//, (route) => {
    told.push({ to: route.request().url().split('/').at(-1), ...route.request().postDataJSON() });
    return route.fulfill({ json: {} });
  });
  await page.route(/\/\?station=/, (route) => route.fulfill({ contentType: 'text/html', body: '<p>The panel</p>' }));
}

const step = (id) => `.strip-step[data-step="${id}"]`;

test('steps and what they rest on, another course, a ruling, the next thing to fly', async () => {
  const told = [];
  const { page, complaints, close } = await openPage(own.browser, new URL('course', own.house.url).href,
    { prepare: (p) => seated(p, told) });
  await until(page, '#subtitle', 'Ada Example · steps passed: 1 of 13');
  assert.equal(await page.locator('.course-strip li').count(), 13);
  assert.match(await page.locator('li[data-now="true"]').innerText(),
    /now\s+2\s+Wing-over to 45°, back to level\s+open/);
  await nothingInTheWay(page);

  await page.locator(step('level-roll')).click();
  assert.match(await page.locator('.ruled').innerText(), /^passed, says Bo Example \(.*\): seen elsewhere$/);
  assert.equal(await page.evaluate(() => document.activeElement?.dataset.step), 'level-roll'); // where it was pressed
  await page.locator('.ruling-form select').selectOption('not-yet');
  await page.locator('.ruling-form button').click();
  await until(page, '.ruling-form [role=alert]', 'Say why');
  await page.locator('.ruling-form input').first().fill('the <b>ball');
  await page.locator('.ruling-form input').nth(1).fill('Cy Example');
  await page.locator('.ruling-form button').click();
  await until(page, '.ruled', 'not yet, says Cy Example');
  assert.match(await page.locator('.ruled').innerText(), /: the <b>ball$/);
  assert.match(await page.locator('#subtitle').innerText(), /steps passed: 0 of 13/);

  await page.locator(step('chandelle')).click();
  await page.locator('#work-on').click();
  await until(page, '.next-what', 'Chandelle, the whole, to the right');
  await page.locator('#course-choice').selectOption('performance');
  await until(page, '#course-title', 'Commercial performance maneuvers');
  await until(page, '#subtitle', 'steps passed: 0 of 10');
  await page.reload();
  await until(page, '#course-title', 'Commercial performance maneuvers'); // it is kept for the student
  const printed = await page.pdf({ format: 'a4' });
  const words = execFileSync('pdftotext', ['-layout', '-', '-'], { input: printed, encoding: 'utf8' });
  for (const there of ['Ada Example', 'Record', 'Instructor', 'Simulator practice only']) {
    assert.ok(words.includes(there), there);
  }
  for (const not of ['As CSV', 'Fly it', 'Reason']) assert.ok(!words.includes(not), not);
  await page.locator('.next-card .main-button').click();
  await until(page, 'p', 'The panel');
  assert.deepEqual(told.map((x) => [x.to, x.course, x.step, x.maneuver, x.aircraft, x.prompts]),
    [['step', 'performance', 'steep-turn', 'steep-turn', 'turboprop-trainer', 'fade']]);
  assert.deepEqual(complaints, []);
  await close();
});

test('the record is shared as one file that opens from the disk, without a server', async () => {
  const dir = await mkdtemp(join(tmpdir(), 'halfturn-course-'));
  const file = join(dir, 'course.html');
  execFileSync(halfturn, ['course', 'export', 'first', '--student', 'Ada Example', '--format', 'html', '-o', file,
    '--data', own.house.data]);
  const { page, complaints, close } = await openPage(own.browser, pathToFileURL(file).href);
  await until(page, '#subtitle', 'steps passed: 0 of 13');
  assert.doesNotMatch(await page.content(), /Ada Example|Cy Example/);
  await page.locator(step('level-roll')).click();
  assert.match(await page.locator('.ruled').innerText(), /^not yet, says somebody/);
  for (const gone of ['ht-nav', '.fly-it', '.ruling-form', '#course-tools']) {
    assert.equal(await page.locator(gone).filter({ visible: true }).count(), 0, gone);
  }
  assert.deepEqual(complaints, []);
  await close();
  await rm(dir, { recursive: true });
});

test('the first page says what comes next before a simulator is heard, and a press chooses it', async () => {
  const { page, complaints, close } = await openPage(own.browser, own.house.url,
    { init: () => localStorage.setItem('halfturn.student', 'Ada Example') });
  await until(page, '.first-next', 'Fly next: Steep turn, to the right');
  await page.locator('.first-next .fly-set').first().click();
  await page.waitForSelector('.choice-tile[data-name="steep-turn"][aria-pressed="true"]');
  assert.deepEqual(complaints, []);
  await close();
});

/** What is flown next, as the server says it. */
const item = (step, title, direction) => ({ step, title, maneuver: step, checks: [], standard: 'practice',
  prompts: 'fade', direction, legs: 2, minutes: 4, why: 'new', source: '',
  task: { course: 'first', step, maneuver: step } });
const next = { version: 1, student: 'Ada', course: 'First course', passed: 1, of: 13, plan: { course: 'first',
  minutes: 10, away: 0, items: [item('level-roll', 'Level roll, the ball held', 'left'),
    item('chandelle-civil', 'Chandelle, the whole', 'right')] } };

/** As of a station that is recorded. @param {string} [more] members of the station message */
const recorded = (page, more = '') => page.routeWebSocket(/\/live/, (ws) => {
  const server = ws.connectToServer();
  server.onMessage((m) => ws.send(String(m).replaceAll('"student":""', `"student":"Ada"${more}`)
    .replaceAll('"recording":""', '"recording":"on"')));
});

const told = [];
fed(own, 'after a leg the panel says what comes next, and a press sets it up', {
  steps: faces.after.steps,
  options: {
    prepare: async (page) => {
      await recorded(page);
      await page.route(/\/api\/students$/, (route) => route.fulfill({ json: { version: 1, students: ['Ada'] } }));
      await page.route(/\/next$/, (route) => route.fulfill({ json: next }));
      await page.route(/\/step$/, (route) => {
        told.push(route.request().postDataJSON());
        return route.fulfill({ json: {} });
      });
    },
  },
}, async (page) => {
  await page.waitForSelector(faces.after.ready);
  await until(page, '.session-next', 'Level roll, the ball held, to the left');
  await nothingInTheWay(page);
  await page.locator('.session-next button', { hasText: 'Instead: Chandelle, the whole, to the right' }).click();
  await page.waitForFunction(() => document.querySelector('.session-next button:disabled') === null);
  assert.deepEqual(told.map((x) => [x.course, x.maneuver]), [['first', 'chandelle-civil']]);
});

const passed = { title: 'Wing-over to 45°, back to level', course: 'first', step: 'part-45', state: 'passed', row: 5,
  prompts: 'all' };
const went = [];
fed(own, 'beside a step that is passed stands the next one: one press, or a key, sets it up', {
  steps: faces.after.steps,
  options: {
    viewport: sizes.phone,
    prepare: async (page) => {
      await recorded(page, `,"task":${JSON.stringify(passed)}`);
      await page.route(/\/api\/students$/, (route) => route.fulfill({ json: { version: 1, students: ['Ada'] } }));
      await page.route(/\/next$/, (route) => route.fulfill({ json: next }));
      await page.route(/\/step$|\/do\/step/, (route) => {
        went.push(new URL(route.request().url()).pathname.split('/').slice(-2)[0]);
        return route.fulfill({ json: {} });
      });
    },
  },
}, async (page) => {
  await page.waitForSelector(faces.after.ready);
  await until(page, '.task', 'Step Wing-over to 45°, back to level: passed');
  await page.locator('.task button', { hasText: 'Go on: Level roll, the ball held, to the left' }).click();
  await page.waitForFunction(() => document.querySelector('.task button:disabled') === null);
  await Promise.all([page.waitForResponse(/\/do\/step/), page.keyboard.press('g')]);
  assert.equal(went.length, 2);
  assert.deepEqual(await violations(page), []);
});

test('where nothing was flown yet the page says what a ruling is kept with, and where that is made', async () => {
  const { page, complaints, close } = await openPage(own.browser,
    new URL('course?student=Eve%20Example', own.house.url).href);
  await until(page, '#subtitle', 'Eve Example');
  await until(page, '.ruling-nowhere', 'there is none of Eve Example yet');
  assert.equal(await page.locator('.ruling-form select').count(), 0);
  assert.deepEqual(await page.locator('.ruling-ways a').evaluateAll((all) => all.map((a) => a.pathname)),
    ['/', '/sessions']);
  assert.deepEqual(await violations(page), []);
  assert.deepEqual(complaints, []);
  await close();
});

test('the debrief of a session sets up a drill on the cause of a leg, and goes to the panel', async () => {
  const told = [];
  const { sessions: [{ id }] } = await (await fetch(new URL('api/sessions', own.house.url))).json();
  const cause = { id: 'overbanked', label: 'Too much bank', advice: 'Less bank.', evidence: '95°', share: 1 };
  const { page, complaints, close } = await openPage(own.browser, new URL(`sessions/${id}?leg=1`, own.house.url).href, {
    prepare: async (p) => {
      await p.route(/\/legs\/1$/, async (route) => {
        const answer = await route.fetch();
        const flight = await answer.json();
        Object.assign(flight.leg, { causes: [cause], change: 'Less bank.' });
        return route.fulfill({ response: answer, json: flight });
      });
      await p.route(/\/api\/stations$/, (route) => route.fulfill({ json: { version: 1, stations: [] } }));
    },
  });
  await page.locator('#rate button', { hasText: 'Show the grade' }).click();
  await page.waitForSelector('#causes .drill');
  await page.click('#causes .drill');
  await until(page, '#causes .drill-row', 'No simulator is heard yet.');
  assert.deepEqual(await violations(page), []);
  await seated(page, told); // answers instead of the one before
  await page.click('#causes .drill');
  await until(page, 'p', 'The panel');
  assert.deepEqual(told.map(({ to, maneuver, aircraft, cause: of }) => [to, maneuver, aircraft, of]),
    [['drill', 'wing-over', 'turboprop-trainer', 'overbanked']]);
  assert.ok(told[0].standard);
  assert.equal(new URL(page.url()).searchParams.get('station'), 'Seat 3');
  assert.deepEqual(complaints, []);
  await close();
});
