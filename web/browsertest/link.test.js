// The live link when things go wrong: no socket at all, messages of the future, a server started again.

import assert from 'node:assert/strict';
import { faces, openPage, sharing, startFeed, test, until } from './harness.js';

const own = sharing({ feed: async () => {
  const feed = await startFeed();
  await feed.do('station', 'level');
  return feed;
} });


test('a browser without WebSocket is told so in words', async () => {
  const { page, complaints, close } = await openPage(own.browser, 'about:blank');
  await page.addInitScript(() => {
    delete window.WebSocket;
  });
  await page.goto(own.feed.url);
  await until(page, '.link-words', 'no live link');
  assert.ok(await page.locator('.caution').isVisible());
  assert.deepEqual(complaints, []);
  await close();
});

test('what the page does not understand is left aside', async () => {
  const { page, complaints, close } = await openPage(own.browser, 'about:blank');
  await page.routeWebSocket(/\/live/, (socket) => {
    const to = socket.connectToServer();
    to.onMessage((message) => {
      for (const odd of ['{', 'null', '[]', '{"type":"weather","station":"Seat 3","seq":1}', '{"type":"callout"}']) {
        socket.send(odd);
      }
      socket.send(message);
    });
  });
  await page.goto(own.feed.url);
  await page.waitForSelector(faces.setup.ready);
  await until(page, '.link-words', 'live');
  assert.deepEqual(complaints, []);
  await close();
});
