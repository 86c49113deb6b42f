// Each role sees on the pages of the program what it may press, and nothing that is refused. Every control has a row
// in the table of rights, or asks the server for nothing.

import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { openPage, sharing, startHouse, test, until } from './harness.js';
import { controls, own as asksNothing } from '../static/pure/rights.js';

const flight = 'wo-turboprop-b-good-1';
const own = sharing({ house: () => startHouse([flight]) });
const rights = ['anyone', 'enter', 'watch', 'read', 'fly', 'invite', 'instruct', 'manage'];
const may = { owner: 8, instructor: 7, student: 6, viewer: 3 };

/** Asks the server as a context that is logged in, or not. */
async function ask(context, path, data) {
  const url = new URL(path, own.house.url).href;
  const answer = await (data ? context.request.post(url, { data }) : context.request.get(url));
  assert.equal(answer.status(), 200, `${path}: ${await answer.text()}`);
  return answer.json();
}

/** The controls of a page that are seen and have no row, and those with a row, by what they ask. */
async function controlsOf(page) {
  return page.evaluate(([rows, none]) => {
    const unknown = [];
    const seen = new Set();
    for (const node of document.querySelectorAll('button, select, input, textarea')) {
      const row = rows.find(({ of }) => node.closest(of));
      if (row && node.checkVisibility({ visibilityProperty: true })) seen.add(row.right);
      if (!row && !none.some((of) => node.closest(of))) unknown.push(node.outerHTML.slice(0, 120));
    }
    return { unknown, seen: [...seen] };
  }, [controls, asksNothing]);
}

/** Opens the pages one after another, and checks what each shows to a role. */
async function lookedAt(role, page, pages) {
  const seen = new Set();
  for (const [path, ready, open] of pages) {
    await page.goto(new URL(path, own.house.url).href);
    await page.waitForSelector(ready, { state: 'attached' });
    await page.waitForFunction(() => document.querySelector('.me'));
    for (const selector of open ?? []) await page.locator(selector).first().click();
    const found = await controlsOf(page);
    assert.deepEqual(found.unknown, [], `${path} as ${role}: controls without a row in pure/rights.js`);
    for (const right of found.seen) {
      seen.add(right);
      assert.ok(rights.indexOf(right) < may[role], `${path} shows a ${role} what takes ${right}`);
    }
  }
  return [...seen];
}

// First: once there are users, who is not known is led to where one logs in.
test('while the server does not say who looks, nothing that takes a right is shown, and the page says so', async () => {
  const context = await own.browser.newContext();
  try {
    let answers = false;
    await context.route('**/api/me', (route) => (answers ? route.continue() : route.abort()));
    const page = await context.newPage();
    for (const [path, ready] of [['sessions', '.session-link'], ['', '#maneuver option']]) {
      await page.goto(new URL(path, own.house.url).href);
      await page.waitForSelector(ready, { state: 'attached' });
      await page.waitForSelector('#who-unknown');
      const { seen } = await controlsOf(page);
      assert.deepEqual(seen.filter((right) => right !== 'anyone'), [], path);
    }
    answers = true;
    await page.waitForSelector('#who-unknown', { state: 'detached' });
    const { seen } = await controlsOf(page);
    assert.ok(seen.includes('fly'), `what is shown takes ${seen}`);
  } finally {
    await context.close();
  }
});

test('viewer, student, instructor and owner see what they may press', async () => {
  const context = await own.browser.newContext();
  const flying = spawn(new URL('../../bin/halfturn', import.meta.url).pathname,
    ['fly', '--to', `${own.house.udp.host}:${own.house.udp.port}`, '--legs', '100'], { stdio: 'ignore' });
  try {
    let station = '';
    while (station === '') station = (await ask(context, 'api/stations')).stations[0]?.name ?? '';
    const [session] = (await ask(context, 'api/sessions')).sessions.filter((s) => s.ended !== '');
    await ask(context, `api/sessions/${session.id}/student`, { student: 'Ada Example' });
    const add = async (name, role, stations) => ({
      name, role, password: (await ask(context, 'api/people', { name, role, stations, group: '' })).password,
    });
    const owner = await add('Olga Example', 'owner', []);
    await ask(context, 'api/login', { name: owner.name, password: owner.password });
    const instructor = await add('Ines Example', 'instructor', []);
    const student = await add('Ada Example', 'student', [station, session.station]);
    const { path: invited } = await ask(context, `api/stations/${encodeURIComponent(station)}/invite`, {
      for: 'Vera Example', hours: 1,
    });

    const at = `?station=${encodeURIComponent(station)}`;
    const panel = [at, '#maneuver option', ['#settings']];
    const all = [
      panel, [`?first&station=${encodeURIComponent(station)}`, 'ht-welcome .choice-tile'], ['setup', '.tile'],
      ['sessions', '.session-link'], [`sessions/${session.id}?leg=1`, '#remark'], ['brief', '#maneuver option'],
      ['people', '.card'], [`desk${at}`, 'ht-opened h2'],
    ];
    for (const { role, name, password } of [owner, instructor, student]) {
      const { page, complaints, close } = await openPage(own.browser, new URL('login', own.house.url).href, {
        prepare: (p) => ask(p.context(), 'api/login', { name, password }),
      });
      const seen = await lookedAt(role, page, all);
      const most = { owner: 'manage', instructor: 'instruct', student: 'invite' }[role];
      assert.ok(seen.includes('fly') && seen.includes(most), `a ${role} is shown ${seen}`);
      await page.goto(new URL('sessions', own.house.url).href);
      await page.waitForSelector('.me');
      const links = await page.$$eval('ht-nav li a', (n) => n.map((a) => a.dataset.words));
      assert.equal(links.includes('Desk'), role !== 'student', `${role}: ${links}`);
      if (role === 'student') {
        await page.click('#to-sheet');
        await until(page, '#subtitle', 'Ada Example');
        await page.waitForSelector('.sheet-table');
      }
      if (role === 'instructor') await seriesOverruled(page, session.id);
      assert.deepEqual(complaints, [], role);
      await close();
    }

    const guest = await openPage(own.browser, new URL(invited, own.house.url).href);
    await guest.page.waitForURL(/\?station=/);
    await lookedAt('viewer', guest.page, [panel, ['brief', '#maneuver option']]);
    await guest.page.goto(new URL(at, own.house.url).href);
    await guest.page.waitForSelector('.me');
    assert.deepEqual(await guest.page.$$eval('ht-nav li a', (n) => n.map((a) => a.dataset.words)), ['Panel', 'Brief']);
    assert.equal(await guest.page.locator('ht-session a, ht-session button').filter({ visible: true }).count(), 0);
    await guest.page.keyboard.press('m'); // a key that asks for what is not allowed does nothing
    await guest.page.waitForFunction(() => document.querySelector('#acted')?.textContent === '');
    assert.deepEqual(guest.complaints, []);
    await guest.close();
  } finally {
    flying.kill();
    await context.close();
  }
});

/** A check of a series is overruled where it stands, as one of a leg is. */
async function seriesOverruled(page, id) {
  await page.goto(new URL(`sessions/${id}?leg=1`, own.house.url).href);
  await page.locator('#judging summary').first().click();
  const check = page.locator('.series-checks li').first();
  await check.locator('.overrule-check').click();
  await page.locator('.series-checks .overrule-form input').fill('a gust at the top');
  const [sent] = await Promise.all([
    page.waitForRequest(/\/overrule$/), page.locator('.series-checks .overrule-form [type=submit]').click(),
  ]);
  assert.deepEqual([sent.postDataJSON().leg, sent.postDataJSON().series], [0, 1]);
  await until(page, '.series-checks', 'a gust at the top');
}
