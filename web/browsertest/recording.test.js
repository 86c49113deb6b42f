// The session on the panel: who flies, whether it is recorded, its end.

import assert from 'node:assert/strict';
import { faces, nothingInTheWay, openPage, sharing, startFeed, test } from './harness.js';

const own = sharing();

/** Opens the panel on a station whose session is as given. */
async function panel(face, session, students = ['Ada', 'Bo']) {
  const feed = await startFeed();
  const { page, complaints, close } = await openPage(own.browser, 'about:blank', { allow: ['422'] });
  const posts = [];
  let now = session;
  let send;
  await page.routeWebSocket(/\/live/, (socket) => {
    const server = socket.connectToServer();
    server.onMessage((data) => {
      const m = JSON.parse(data);
      const info = m.type === 'station' ? m : m.info;
      if (info) {
        Object.assign(info, now);
        send = () => socket.send(JSON.stringify({ ...info, type: 'station', station: m.station, ...now }));
      }
      socket.send(JSON.stringify(m));
    });
  });
  await page.route(/\/api\/students$/, (route) => route.fulfill({ json: { version: 1, students } }));
  await page.route(/\/api\/stations\/[^/]+\/next$/, (route) => route.fulfill({
    json: { version: 1, student: '', course: '', passed: 0, of: 0, plan: null }, // the feed has no logbook
  }));
  await page.route(/\/api\/stations\/[^/]+\/(student|end)$/, (route) => {
    const to = route.request().url().split('/').at(-1);
    posts.push({ to, ...route.request().postDataJSON() });
    return to === 'end' && now.session === 'busy'
      ? route.fulfill({ status: 422, json: { error: 'a leg is being flown; end it first' } })
      : route.fulfill({ json: {} });
  });
  await feed.do(...faces[face].steps); // a page that is there before its station stays where it is
  await page.goto(feed.url);
  await page.waitForSelector(faces[face].ready);
  return {
    page, posts,
    become(change) {
      now = { ...now, ...change };
      send();
    },
    async close() {
      assert.deepEqual(complaints, []);
      await close();
      await feed.stop();
    },
  };
}

const session = { session: '2026-1125-seat-3', ended: '', student: 'Bo', recording: 'on', recordingWords: '' };

test('who flies is one touch', async () => {
  const { page, posts, become, close } = await panel('setup', session);
  await page.waitForSelector('ht-session .chip[aria-pressed="true"]:text("Bo")');
  await page.waitForSelector('ht-session .chip:text("Ada")');
  await page.locator('ht-session .chip', { hasText: 'Ada' }).click();
  become({ student: 'Ada' });
  await page.waitForSelector('ht-session .chip[aria-pressed="true"]:text("Ada")');
  await page.locator('ht-session .chip', { hasText: 'new name' }).click();
  await page.keyboard.type('Cleo');
  await page.keyboard.press('Enter');
  await page.waitForSelector('ht-session .new-name[hidden]', { state: 'attached' });
  assert.deepEqual(posts, [{ to: 'student', student: 'Ada' }, { to: 'student', student: 'Cleo' }]);
  assert.equal(await page.locator('#to-debrief').getAttribute('href'), 'sessions/2026-1125-seat-3');
  await close();
});

test('many long names stand in one row with the rest', async () => {
  const names = [
    'Ada',
    'Bartholomew Featherstone',
    'Bo',
    'Christopher Montgomery',
    'Friederike Schwarzenberger',
    'Jean-Baptiste de la Roche',
    'Lee',
    'Maximiliane Obermeier',
  ];
  const { page, close } = await panel('setup', session, names);
  await page.waitForFunction((n) => document.querySelectorAll('ht-session .chip').length === n + 1, names.length);
  const tops = await page.$$eval('ht-session :is(.chip, #end-session)', (all) =>
    all.map((n) => n.getBoundingClientRect().top),
  );
  assert.equal(new Set(tops).size, 1, tops.join());
  assert.deepEqual(
    await page.$$eval('ht-session .chip', (all) =>
      all.filter((n) => n.textContent.length < 9 && n.scrollWidth > n.clientWidth).map((n) => n.textContent),
    ),
    [],
    'short names are whole',
  );
  await close();
});

test('it ends by a touch, and a refusal is said', async () => {
  const { page, posts, become, close } = await panel('after', session);
  await page.locator('#end-session').click();
  become({ session: '', ended: session.session, recording: 'resting' });
  await page.waitForSelector('#end-session[hidden]', { state: 'attached' });
  assert.deepEqual(posts, [{ to: 'end' }]);
  assert.match(await page.locator('.recording').innerText(), /The session is over; the next one begins/);
  assert.equal(await page.locator('#to-debrief').getAttribute('href'), 'sessions/2026-1125-seat-3');
  assert.equal(await page.locator('#to-debrief').isVisible(), true);
  become({ session: 'busy' });
  await page.locator('#end-session').click();
  await page.waitForFunction(() =>
    document.querySelector('ht-session .control-error')?.textContent?.includes('A leg is being flown'),
  );
  await close();
});

test('that nothing is recorded shows even in a leg', async () => {
  const { page, become, close } = await panel('leg', { ...session, recordingWords: '' });
  assert.equal(await page.locator('ht-session').isVisible(), false);
  become({ recording: 'failing', recordingWords: 'the disk is full: free some space, recording goes on by itself' });
  await page.waitForSelector('ht-session[data-recording="failing"]');
  assert.match(await page.locator('.recording').innerText(), /Nothing is being recorded: the disk is full/);
  assert.equal(await page.locator('ht-session .chip').first().isVisible(), false);
  become({ recording: 'on', recordingWords: '' });
  await page.waitForSelector('ht-session[hidden]', { state: 'attached' });
  await close();
});

test('nothing stands in anybody’s way', async () => {
  const { page, close } = await panel('setup', {
    ...session,
    recording: 'failing',
    recordingWords: 'the disk is full: free some space, recording goes on by itself',
  });
  await page.waitForSelector('ht-session .chip:text("Ada")');
  await nothingInTheWay(page);
  await close();
});
