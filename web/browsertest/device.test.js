// The page on the device it stands on: the screen kept awake, the whole screen.

import assert from 'node:assert/strict';
import { faces, fed, sharing } from './harness.js';

const own = sharing();

/** A screen that counts who holds it awake. */
function screenLocks() {
  window.held = 0;
  Object.defineProperty(navigator, 'wakeLock', {
    configurable: true,
    value: {
      request: async () => {
        window.held++;
        const lock = new EventTarget();
        lock.release = async () => {
          window.held--;
          lock.dispatchEvent(new Event('release'));
        };
        return lock;
      },
    },
  });
}

fed(
  own,
  'the screen stays awake while data comes, and no longer',
  { options: { init: screenLocks } },
  async (page, server) => {
    await page.waitForSelector(faces.empty.ready);
    assert.equal(await page.evaluate(() => window.held), 0);
    await server.do('station', 'level ready', 'fly 0 40');
    await page.waitForFunction(() => window.held === 1);
    await page.waitForSelector('main[data-stale="true"]'); // nothing comes any more
    await page.waitForFunction(() => window.held === 0);
    await server.do('fly 40 60');
    await page.waitForFunction(() => window.held === 1);
    await server.do('link paused');
    await page.waitForFunction(() => window.held === 0);
  },
);

fed(own, 'the whole screen is a button’s press away, and back', { steps: ['station', 'level'] }, async (page) => {
  const button = page.locator('#full-screen');
  await button.click();
  await page.waitForFunction(() => document.fullscreenElement === document.documentElement);
  assert.equal(await button.textContent(), 'Leave full screen');
  await button.click();
  await page.waitForFunction(() => document.fullscreenElement === null);
});

fed(own, 'a browser without wake lock or full screen shows no button and goes on', {
  steps: ['station', 'level'],
  options: {
    init: () => {
      delete Navigator.prototype.wakeLock;
      Object.defineProperty(Document.prototype, 'fullscreenEnabled', { get: () => false });
    },
  },
}, async (page) => {
  await page.waitForSelector(faces.setup.ready);
  assert.equal(await page.locator('#full-screen').isVisible(), false);
});
