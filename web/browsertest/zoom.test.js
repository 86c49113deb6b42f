// The pages with the browser's own text size at 200 %: nothing is cut off, nothing scrolls sideways
// (WCAG 2.2, success criteria 1.4.4 and 1.4.10).

import assert from 'node:assert/strict';
import { faces, fed, sharing, sizes, violations } from './harness.js';

const own = sharing();

/** Opens a page with text of twice the size, and tells what stands in the way. */
function large(name, { steps, viewport, path = '', ready }) {
  const prepare = async (page) => {
    const session = await page.context().newCDPSession(page);
    await session.send('Page.enable');
    await session.send('Page.setFontSizes', { fontSizes: { standard: 32, fixed: 26 } });
  };
  fed(own, name, { steps, path, options: { viewport, prepare } }, async (page) => {
    await page.locator(ready).first().waitFor();
    assert.equal(await page.evaluate(() => parseFloat(getComputedStyle(document.querySelector('.caution')).fontSize) > 22), true, 'the text is large');
    assert.deepEqual(await page.evaluate(overflow), []);
    assert.deepEqual(await violations(page, ['color-contrast', 'target-size']), []);
  });
}

/** What is cut off or sticks out, in words. */
function overflow() {
  const out = [];
  const root = document.documentElement;
  if (root.scrollWidth > root.clientWidth) out.push(`the page is ${root.scrollWidth - root.clientWidth} px too wide`);
  for (const e of document.querySelectorAll('h1, h2, h3, p, li, label, button, select, summary, td, th')) {
    const box = e.getBoundingClientRect();
    if (!e.checkVisibility() || box.width === 0 || box.height === 0 || e.closest('[hidden], .visually-hidden, .scroll')) continue;
    if (box.left < -1 || box.right > root.clientWidth + 1) out.push(`${e.tagName} ${e.className} sticks out: ${e.textContent.slice(0, 40)}`);
    const style = getComputedStyle(e);
    const cut = e.scrollWidth > e.clientWidth + 1 && style.overflowX !== 'visible' && style.display !== 'inline';
    if (cut && !['SELECT'].includes(e.tagName)) out.push(`${e.tagName} ${e.className} is cut: ${e.textContent.slice(0, 40)}`);
  }
  return out;
}

for (const [name, face] of Object.entries(faces)) {
  for (const [size, viewport] of Object.entries({ desk: sizes.desk, phone: sizes.phone })) large(`${name}, ${size}`, { ...face, viewport });
}
large('set-up page, phone', { steps: ['station', 'level'], path: 'setup', viewport: sizes.phone, ready: '.sender tbody tr' });
large('set-up page, desk', { steps: ['station', 'level'], path: 'setup', viewport: sizes.desk, ready: '.sender tbody tr' });
