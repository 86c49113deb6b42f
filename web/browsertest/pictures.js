// Takes a picture of every face at every size in every theme: node browsertest/pictures.js DIRECTORY [FACE...]
// HALFTURN_LANGUAGE  the language of the page, en when not set

import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { faces, launch, openPage, sizes as some, startFeed } from './harness.js';

const sizes = { ...some, upright: { width: 820, height: 1180 }, across: { width: 1180, height: 820 } };
const dir = process.argv[2];
if (!dir) throw new Error('usage: node browsertest/pictures.js DIRECTORY [FACE...]');
const wanted = process.argv.slice(3);
await mkdir(dir, { recursive: true });
const browser = await launch();
for (const [name, face] of Object.entries(faces)) {
  if (wanted.length > 0 && !wanted.includes(name)) continue;
  const server = await startFeed();
  await server.do(...face.steps);
  for (const [size, viewport] of Object.entries(sizes)) {
    for (const theme of ['light', 'dark', 'contrast']) {
      const { page, close } = await openPage(browser, server.url, {
        viewport,
        kept: { theme, language: process.env.HALFTURN_LANGUAGE ?? 'en' },
      });
      await page.waitForSelector(face.ready);
      await page.screenshot({ path: join(dir, `${name}-${size}-${theme}.png`), fullPage: size === 'phone' });
      await close();
    }
  }
  await server.stop();
}
await browser.close();
