// Hands on the stick: every act by a key, by a joystick's button, and by a button box.

import assert from 'node:assert/strict';
import { agreed, faces, fed, nothingInTheWay, sharing, sizes, until, violations } from './harness.js';

const own = sharing();

/** A joystick the tests press. */
function joystick() {
  const buttons = Array.from({ length: 4 }, () => ({ pressed: false }));
  window.stick = buttons;
  navigator.getGamepads = () => [{ index: 0, id: 'Test stick', buttons }];
}

/** Presses a button for as long as a finger does. */
const press = (page, button) => page.evaluate(async (b) => {
  window.stick[b].pressed = true;
  await new Promise((done) => setTimeout(done, 120));
  window.stick[b].pressed = false;
  await new Promise((done) => setTimeout(done, 120));
}, button);

fed(own, 'keys do what the page does, and ? shows them', {
  steps: ['station', 'level ready', 'fly 0 64'],
}, async (page) => {
  await page.waitForSelector(faces.leg.ready);
  await page.keyboard.press('?');
  await page.waitForSelector('dialog.keys[open]');
  const keys = await page.locator('.keys kbd').allTextContents();
  assert.deepEqual(keys, ['M', 'P', 'K', 'R', 'S', 'E', 'N', 'G', 'W', 'X', 'F', '?']);
  assert.deepEqual(await violations(page), []);
  await page.keyboard.press('m'); // in the dialog keys are for the dialog
  await page.keyboard.press('Escape');
  await page.waitForSelector('dialog.keys', { state: 'hidden' });
  assert.equal(await page.locator('#acted').textContent(), '');
  await page.keyboard.press('m');
  await until(page, '#acted', 'Marked at 64°');
  await page.keyboard.press('s');
  await until(page, '#acted', 'Sound on');
  await page.keyboard.press('s');
  await until(page, '#acted', 'Sound off');
  let ended = false;
  page.on('request', (r) => { ended ||= r.url().includes('/do/end'); });
  await page.keyboard.press('x');
  await page.keyboard.press('m');
  await until(page, '#acted', 'Marked at 64°');
  assert.equal(ended, false, 'a slip of the hand ends no leg');
});

fed(own, 'a key typed into a field is a letter', { steps: ['station', 'keep'] }, async (page) => {
  await page.waitForSelector(faces.setup.ready);
  await page.focus('#maneuver');
  await page.keyboard.press('m');
  await page.evaluate(() => document.activeElement.blur());
  assert.equal(await page.locator('#acted').textContent(), '');
});

fed(own, 'a joystick’s button is chosen, kept, and does its act', {
  steps: ['station', 'level ready', 'fly 0 64'], options: { init: joystick },
}, async (page) => {
  await page.waitForSelector(faces.leg.ready);
  await press(page, 2); // for nothing yet
  assert.equal(await page.locator('#acted').textContent(), '');
  await page.keyboard.press('?');
  await page.click('.keys [data-act="mark"]');
  assert.equal(await page.locator('.keys [data-act="mark"]').textContent(), 'press a button');
  await press(page, 2);
  await until(page, '.keys [data-act="mark"]', '#2');
  await page.keyboard.press('Escape');
  await page.waitForSelector('dialog.keys', { state: 'hidden' });
  await press(page, 2);
  await until(page, '#acted', 'Marked at 64°');
  await page.reload();
  await page.waitForSelector(faces.leg.ready);
  await press(page, 2);
  await until(page, '#acted', 'Marked at 64°');
});

fed(own, 'a button box sends a request and nothing more', {
  steps: ['station', 'level ready', 'fly 0 64'],
}, async (page, server) => {
  await page.waitForSelector(faces.leg.ready);
  const send = async (act) => (await fetch(new URL(`/do/${act}`, server.url), { method: 'POST' })).status;
  assert.equal(await send('mark'), 200);
  await until(page, '#acted', 'Marked at 64°');
  assert.equal(await send('mute'), 200);
  await until(page, '#acted', 'Sound on');
  assert.equal(await send('loop'), 404);
});

fed(own, 'a person at the other end speaks, watches, acts, and is shut out', {
  steps: ['station', 'level ready', 'fly 0 64'],
}, async (page, server) => {
  await page.waitForSelector(faces.leg.ready);
  await server.do('company', 'said <b>Eyes</b> outside, and less rudder at the top');
  await until(page, '.band-words', 'Mo Example: <b>Eyes</b> outside, and less rudder at the top');
  await page.waitForFunction(() => /Mo Example chose: Wing-over · Mo Example, one guest watch$/
    .test(document.querySelector('.link-words').textContent));
  assert.equal(await page.locator('ht-band').getAttribute('data-long'), '');
  assert.deepEqual(await violations(page), []);
  await page.keyboard.press('k');
  await page.waitForSelector('ht-band[data-kind="safety"]');
  await page.click('#settings');
  await page.check('#private');
  await agreed(page, async () =>
    (await (await fetch('api/stations')).json()).stations.some((s) => s.private === true));
});

/** How a leg of an eight stands to its pylon, as the server says it. */
const pylon = { what: 'pylon', bearing: 95, distance: 1900, ahead: 6.2, pivotal: 700, above: 40 };

for (const [size, viewport] of Object.entries(sizes)) {
  const told = [];
  fed(own, `in a leg one press chooses the pylon off the wing, and another leaves it to the flight: ${size}`, {
    steps: ['station', 'level ready', 'fly 0 64'],
    options: {
      viewport,
      prepare: async (page) => {
        let chosen = false;
        await page.routeWebSocket(/\/live/, (ws) => {
          const server = ws.connectToServer();
          server.onMessage((m) => ws.send(String(m).replaceAll('"awaited":',
            `"around":${JSON.stringify({ ...pylon, chosen })},"awaited":`)));
        });
        await page.route(/\/api\/stations\/[^/]+\/about$/, (route) => {
          told.push(route.request().postDataJSON());
          chosen = 'where' in told.at(-1);
          return route.fulfill({ json: {} });
        });
      },
    },
  }, async (page, server) => {
    await page.waitForSelector(faces.leg.ready);
    await until(page, 'ht-sight .strong', 'Pylon 6° ahead: descend.');
    for (const there of ['ht-sight .strong', 'ht-sight .point-wanted', '#point-wing']) {
      assert.ok(await page.locator(there).isVisible(), there);
    }
    assert.match(await page.locator('ht-sight .point-wanted').innerText(),
      /^Pivotal altitude 700\sft: 40\sft over it\.$/);
    assert.equal(await page.locator('#point-find').isVisible(), false);
    await page.click('#point-wing');
    await server.do('fly 64 70');
    await page.click('#point-find');
    assert.deepEqual(told, [{ where: 'wing' }, { clear: true }]);
    await nothingInTheWay(page);
    assert.deepEqual(await violations(page), []);
  });
}

fed(own, 'the key for the point off the wing asks the server', {
  steps: ['station', 'level ready', 'fly 0 64'],
}, async (page) => {
  await page.waitForSelector(faces.leg.ready);
  const [asked] = await Promise.all([page.waitForRequest(/\/do\/point\?station=/), page.keyboard.press('p')]);
  assert.equal(asked.method(), 'POST');
});
