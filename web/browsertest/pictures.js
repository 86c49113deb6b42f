// Takes a picture of every face at every size: node browsertest/pictures.js DIRECTORY

import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { buildFeed, faces, launch, openPage, sizes, startFeed } from './harness.js';

const dir = process.argv[2];
if (!dir) throw new Error('usage: node browsertest/pictures.js DIRECTORY [FACE...]');
const wanted = process.argv.slice(3);
await mkdir(dir, { recursive: true });
const feed = await buildFeed();
const browser = await launch();
for (const [name, face] of Object.entries(faces)) {
  if (wanted.length > 0 && !wanted.includes(name)) continue;
  const server = await startFeed(feed.path);
  await server.do(...face.steps);
  for (const [size, viewport] of Object.entries(sizes)) {
    for (const colorScheme of ['light', 'dark']) {
      const { page, close } = await openPage(browser, server.url, { viewport, colorScheme });
      await page.waitForSelector(face.ready);
      await page.screenshot({ path: join(dir, `${name}-${size}-${colorScheme}.png`), fullPage: size === 'phone' });
      await close();
    }
  }
  await server.stop();
}
await browser.close();
await feed.remove();
