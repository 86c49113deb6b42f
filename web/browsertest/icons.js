// Renders the icons of an installed page from static/icon.svg: node browsertest/icons.js.
// The edges are square, so that a system may cut its own shape out of them.

import { readFileSync, writeFileSync } from 'node:fs';
import { launch } from './harness.js';

const svg = readFileSync(new URL('../static/icon.svg', import.meta.url), 'utf8').replace(' rx="12"', '');
const browser = await launch();
for (const size of [192, 512]) {
  const page = await browser.newPage({ viewport: { width: size, height: size } });
  await page.setContent(`<style>body{margin:0}svg{display:block;width:100vw}</style>${svg}`);
  writeFileSync(new URL(`../static/icon-${size}.png`, import.meta.url), await page.screenshot());
  await page.close();
}
await browser.close();
