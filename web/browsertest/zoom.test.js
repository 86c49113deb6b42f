// The pages with the browser's own text size at 200 %: nothing is cut off, nothing scrolls sideways
// (WCAG 2.2, success criteria 1.4.4 and 1.4.10).

import assert from 'node:assert/strict';
import { faces, fed, openPage, sharing, sizes, startFlights, test, violations } from './harness.js';
import { answer, detail, list } from './logbook.js';

const student = 'Examplestudentwithaverylongname';

const own = sharing({ flights: startFlights });

/** Makes the browser's own text twice as large. */
async function enlarge(page) {
  const session = await page.context().newCDPSession(page);
  await session.send('Page.enable');
  await session.send('Page.setFontSizes', { fontSizes: { standard: 32, fixed: 26 } });
}

/** Tells what stands in the way on a page with large text. */
async function free(page, ready) {
  await page.locator(ready).first().waitFor();
  assert.equal(
    await page.evaluate(() => parseFloat(getComputedStyle(document.querySelector('.caution')).fontSize) > 22),
    true,
    'the text is large',
  );
  assert.deepEqual(await page.evaluate(overflow), []);
  assert.deepEqual(await violations(page, ['color-contrast', 'target-size']), []);
}

/** A page of the made-up feed with large text. */
function large(name, { steps, viewport, path = '', ready }) {
  fed(own, name, { steps, path, options: { viewport, prepare: enlarge } }, (page) => free(page, ready));
}

/** A page of the recorded flights, with the invented logbook and large text. */
function largeFlown(name, { viewport, path, ready }) {
  test(name, async () => {
    const prepare = async (page) => {
      await enlarge(page);
      await answer(page);
      await page.route(/\/api\/sessions\/[^/?]+$/, (route) =>
        route.fulfill({ json: { ...detail('wo-turboprop-b-good-1'), student } }),
      );
      const all = list(new URLSearchParams());
      await page.route(/\/api\/sessions\?/, (route) =>
        route.fulfill({ json: { ...all, sessions: all.sessions.map((s) => ({ ...s, student })) } }),
      );
    };
    const { page, close } = await openPage(own.browser, new URL(path, own.flights.url).href, { viewport, prepare });
    await free(page, ready);
    await close();
  });
}

/** What is cut off or sticks out, in words. */
function overflow() {
  const out = [];
  const root = document.documentElement;
  if (root.scrollWidth > root.clientWidth) out.push(`the page is ${root.scrollWidth - root.clientWidth} px too wide`);
  for (const e of document.querySelectorAll(
    'h1, h2, h3, p, li, label, button, select, summary, td, th, .session-link',
  )) {
    const box = e.getBoundingClientRect();
    if (
      !e.checkVisibility() ||
      box.width === 0 ||
      box.height === 0 ||
      e.closest('[hidden], .visually-hidden, .scroll, #legs')
    )
      continue;
    if (box.left < -1 || box.right > root.clientWidth + 1) {
      out.push(`${e.tagName} ${e.className} sticks out: ${e.textContent.slice(0, 40)}`);
    }
    const style = getComputedStyle(e);
    const over =
      !document.querySelector('main[data-mode]') &&
      e.matches('p, h1, h2, h3, .session-link') && // the panel's boxes are of a fixed size
      style.overflowX === 'visible' &&
      e.scrollWidth > e.clientWidth + 1 &&
      style.display !== 'inline';
    if (over) out.push(`${e.tagName} ${e.className} runs out of its box: ${e.textContent.slice(0, 40)}`);
    const cut = e.scrollWidth > e.clientWidth + 1 && style.overflowX !== 'visible' && style.display !== 'inline';
    if (cut && !['SELECT'].includes(e.tagName)) {
      out.push(`${e.tagName} ${e.className} is cut: ${e.textContent.slice(0, 40)}`);
    }
  }
  return out;
}

for (const [name, face] of Object.entries(faces)) {
  for (const [size, viewport] of Object.entries({ desk: sizes.desk, phone: sizes.phone })) {
    large(`${name}, ${size}`, { ...face, viewport });
  }
}
large('set-up page, phone', {
  steps: ['station', 'level'],
  path: 'setup',
  viewport: sizes.phone,
  ready: '.sender tbody tr',
});
large('set-up page, desk', {
  steps: ['station', 'level'],
  path: 'setup',
  viewport: sizes.desk,
  ready: '.sender tbody tr',
});
for (const size of ['phone', 'desk']) {
  largeFlown(`sessions, ${size}`, {
    path: 'sessions?check=bank-at-90',
    viewport: sizes[size],
    ready: '#big .trend-table tbody tr',
  });
  largeFlown(`debrief, ${size}`, {
    path: 'sessions/wo-turboprop-b-good-1?leg=1&turn=70&with=2',
    viewport: sizes[size],
    ready: '.values .over:not(:empty)',
  });
}
