// The live link when things go wrong: no socket at all, messages of the future, a server started anew.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { buildFeed, faces, launch, openPage, startFeed } from './harness.js';

let browser;
let feed;
let server;

before(async () => {
  [browser, feed] = await Promise.all([launch(), buildFeed()]);
  server = await startFeed(feed.path);
  await server.do('station', 'level');
});

after(async () => {
  await browser?.close();
  await server?.stop();
  await feed?.remove();
});

const until = (page, selector, value) => page.waitForFunction(
  ([s, v]) => document.querySelector(s)?.textContent?.includes(v), [selector, value]);

test('a browser without WebSocket is told so in words', async () => {
  const { page, complaints, close } = await openPage(browser, 'about:blank');
  await page.addInitScript(() => {
    delete window.WebSocket;
  });
  await page.goto(server.url);
  await until(page, '.link-words', 'no live link');
  assert.ok(await page.locator('.caution').isVisible());
  assert.deepEqual(complaints, []);
  await close();
});

test('what the page does not understand is left aside', async () => {
  const { page, complaints, close } = await openPage(browser, 'about:blank');
  await page.routeWebSocket(/\/live/, (socket) => {
    const to = socket.connectToServer();
    to.onMessage((message) => {
      for (const odd of ['{', 'null', '[]', '{"type":"weather","station":"Seat 3","seq":1}', '{"type":"callout"}']) socket.send(odd);
      socket.send(message);
    });
  });
  await page.goto(server.url);
  await page.waitForSelector(faces.setup.ready);
  await until(page, '.link-words', 'live');
  assert.deepEqual(complaints, []);
  await close();
});
