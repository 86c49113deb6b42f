// A lesson over two programs: a student flies at home, an instructor at the school watches, speaks, marks and judges.
// Both are browsers on processes of their own, and the link is a real one. TestShared cuts it.

import assert from 'node:assert/strict';
import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { agreed, besides, halfturn, openPage, sharing, startPrepared, test, until } from './harness.js';

process.env['HALFTURN_RECORDING_COMPRESS'] = 'false'; // so that files can be compared
process.env['HALFTURN_MANEUVER'] = 'chandelle-civil'; // there is a published test of it
const seat = 'Ada’s seat';
const instructor = 'B. <b>Example';

/** Starts a school, and a home that shares its station with it. */
async function startLesson() {
  const keys = await mkdtemp(join(tmpdir(), 'halfturn-keys-'));
  const key = join(keys, 'seat.key');
  let password = '';
  const school = await startPrepared((data) => {
    halfturn('users', 'add', '--role', 'owner', 'Owner Example', '--data', data);
    const added = halfturn('users', 'add', '--role', 'instructor', instructor, '--data', data);
    password = added.match(/[a-z0-9]{5}(?:-[a-z0-9]{5}){3}/)?.[0] ?? '';
    halfturn('stations', 'add', seat, '--key-file', key, '--data', data);
  });
  const home = await startPrepared(() => {}, '--share', school.url, '--station-key', key);
  return {
    school, home, password,
    async stop() {
      await home.stop();
      await school.stop();
      await rm(keys, { recursive: true, force: true });
    },
  };
}

const own = sharing({ lesson: startLesson });

/** The files of the recordings in a data directory, by session and name. */
async function recordings(data) {
  const all = new Map();
  const dir = join(data, 'sessions');
  for (const name of await readdir(dir, { recursive: true })) {
    if (/[/\\]stream-[^/\\]*$/.test(name)) all.set(name, await readFile(join(dir, name)));
  }
  return all;
}

/** Grades a session again, and returns the legs and what differs from before. */
function regraded(data, session) {
  const { differences, report } = JSON.parse(
    halfturn('sessions', 'regrade', session, '--data', data, '--format', 'json'));
  return { differences: differences ?? [], series: report.files[0].stations[0].series };
}

test('a lesson from home to the school: watched, spoken to, marked, judged and signed', async () => {
  const { home, school, password } = own.lesson;
  const [student, desk] = await Promise.all([
    openPage(own.browser, home.url),
    openPage(own.browser, new URL('login?to=%2Fdesk', school.url).href),
  ]);
  const { page } = desk;
  await page.getByLabel('Name').fill(instructor);
  await page.getByLabel('Password').fill(password);
  await page.locator('#submit').click();
  await page.waitForURL(/\/desk$/);
  // Whoever watches is there first: a slow machine may not open the pages before the leg is over.
  const flight = besides('fly', '--to', home.sends, '--maneuver', 'chandelle-civil', '--legs', '1', '--pace', '4');
  await page.locator(`.board > li[data-station="${seat}"] button`).click();
  await page.waitForSelector('ht-opened .pen-words');
  await until(student.page, 'body', `${instructor} watches`);
  await page.fill('#say-words', 'Eyes outside');
  const heard = until(student.page, 'ht-band', `${instructor}: Eyes outside`); // shown for seconds only
  await page.press('#say-words', 'Enter');
  await until(page, 'ht-say [role="status"]', 'Said: Eyes outside');
  await heard;
  await page.locator('#mark-moment').click();
  await agreed(page, async () => { // the mark is made at home
    const [{ id }] = (await (await fetch('api/sessions')).json()).sessions;
    return (await (await fetch(`api/sessions/${id}`)).json()).said.length === 1;
  });
  await page.locator('.marking-form input').fill('Late with the foot');
  await page.keyboard.press('Enter');
  await until(page, '.markings', 'Late with the foot');
  assert.equal(await flight, 0);
  await student.page.waitForSelector('main[data-mode="after"] .verdict');
  await until(page, 'ht-opened .opened-verdict', '100');

  const ended = await page.evaluate(async (name) =>
    (await fetch(`api/stations/${encodeURIComponent(name)}/end`, {
      method: 'POST', body: '{}', headers: { 'Content-Type': 'application/json' },
    })).status, seat);
  assert.equal(ended, 200);
  await agreed(page, async () => { // the school has it whole once it is graded
    const { sessions } = await (await fetch('api/sessions')).json();
    return sessions.length === 1 && sessions[0].ended !== '' && sessions[0].legs === 1;
  });
  const id = await page.evaluate(async () => (await (await fetch('api/sessions')).json()).sessions[0].id);
  await page.goto(new URL(`sessions/${id}?leg=1`, school.url).href);
  await page.waitForSelector('main:not([hidden]) .values .now');
  await until(page, 'ht-remarks', 'Late with the foot');
  await page.locator('#judging summary').click();
  await page.locator('.overrule-check').first().click();
  await page.locator('.overrule-form select').selectOption('missed');
  await page.locator('.overrule-form input').fill('the simulator stuttered');
  await page.locator('.overrule-form button[type=submit]').click();
  await until(page, 'main', `overruled by ${instructor}: the simulator stuttered`);
  await page.locator('.element [data-mark=satisfactory][aria-pressed=false]').first().click();
  await until(page, '.elements', `marked by ${instructor}`);
  await page.locator('#sign').click();
  await until(page, '.signed-line', `Signed by ${instructor}`);
  assert.equal(await page.locator('.signed-line').getAttribute('data-holds'), 'true');
  assert.deepEqual([...desk.complaints, ...student.complaints], []);

  const there = await recordings(school.data);
  assert.ok(there.size > 0);
  assert.deepEqual(await recordings(home.data), there, 'the files are equal to the byte');
  const [graded, again] = [regraded(home.data, id), regraded(school.data, id)];
  assert.deepEqual(graded.differences, []);
  assert.deepEqual(again, graded);
  await student.close();
  await desk.close();
});
