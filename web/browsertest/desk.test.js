// The desk, from the empty page to a station that is spoken to and stopped.

import assert from 'node:assert/strict';
import { fed, sharing, sizes, until, violations } from './harness.js';

const own = sharing();

/** The stations in the order their sheets stand. */
const order = (page) => page.$$eval('.board > li', (all) => all.map((n) => n.dataset.station));

const stands = (page, names) => page.waitForFunction(
  (want) => [...document.querySelectorAll('.board > li')].map((n) => n.dataset.station).join() === want, names.join());

const focused = (page) => page.evaluate(() => document.activeElement?.closest('[data-station]')?.dataset.station ?? '');

const sheet = (name) => `.board > li[data-station="${name}"]`;

fed(own, 'the desk: who needs help stands first, is opened by a touch, spoken to and stopped', {
  path: 'desk',
  allow: ['404'], // the made-up feed looks for no simulators, which Set-up asks about
}, async (page, server) => {
  await until(page, '#empty', 'Each simulator that sends to this machine');
  assert.equal(await page.evaluate(() => localStorage.getItem('halfturn.desk')), null);

  for (const n of [2, 10, 1]) await server.do(`station Seat ${n}`, 'level ready');
  await stands(page, ['Seat 1', 'Seat 2', 'Seat 10']);
  await server.do('station Seat 10', 'student Ada', 'level ready', 'fly 0 60');
  await stands(page, ['Seat 10', 'Seat 1', 'Seat 2']);
  await until(page, `${sheet('Seat 10')} .sheet-large`, '60°');
  await until(page, `${sheet('Seat 10')} .sheet-box`, 'Steepest at the point');
  assert.equal(await page.textContent(`${sheet('Seat 10')} .sheet-name`), 'Ada');
  assert.equal(await page.textContent('#counts'), '3 stations · 1 in a maneuver');
  assert.deepEqual(await inked(page, sheet('Seat 10')), { trace: true, pen: true });
  await page.waitForFunction((s) => document.querySelector(s).ariaLabel?.includes('60° turned'),
    `${sheet('Seat 10')} button`);

  await server.do('station Seat 2', 'level ready', 'steep 0 78', 'safety bank-limit Less bank');
  await stands(page, ['Seat 2', 'Seat 10', 'Seat 1']);
  await until(page, '#alarm', 'Seat 2: Less bank');
  await server.do('clear bank-limit');
  await page.waitForSelector(`${sheet('Seat 2')} .sheet-box:not([data-kind="safety"])`);
  assert.deepEqual(await order(page), ['Seat 2', 'Seat 10', 'Seat 1'], 'it stays until its leg is over');

  await page.focus(`${sheet('Seat 2')} button`);
  await page.keyboard.press('ArrowRight');
  assert.equal(await focused(page), 'Seat 10');
  await page.keyboard.press('End');
  assert.equal(await focused(page), 'Seat 1');
  await page.keyboard.press('Home');
  await page.keyboard.press('Enter');
  await until(page, 'ht-opened h2', 'Seat 2');
  await until(page, 'ht-opened .pen-words', '78°');
  assert.equal(new URL(page.url()).searchParams.get('station'), 'Seat 2');
  await page.keyboard.press('Escape');
  await page.waitForSelector('ht-opened', { state: 'hidden' });
  assert.equal(await focused(page), 'Seat 2');

  await page.click(`${sheet('Seat 10')} button`);
  await until(page, 'ht-opened h2', 'Ada');
  const stop = () => page.locator('#knock-it-off').evaluate((n) => Math.round(n.getBoundingClientRect().bottom));
  const place = await stop();
  await page.fill('#say-words', 'a b c d e f g h i');
  await until(page, 'ht-say .control-error', 'at most eight words');
  await page.fill('#say-words', '  Look   outside ');
  const [said] = await Promise.all([page.waitForRequest('**/api/stations/*/say'), page.press('#say-words', 'Enter')]);
  assert.deepEqual([new URL(said.url()).pathname, said.postDataJSON()],
    ['/api/stations/Seat%2010/say', { say: 'Look outside' }]);
  await until(page, 'ht-say [role="status"]', 'Said: Look outside');
  const sound = page.locator('#station-sound');
  assert.equal(await sound.getAttribute('aria-pressed'), 'false');
  await sound.click();
  await until(page, `${sheet('Seat 10')} .sheet-hears`, 'sound on');
  assert.equal(await page.locator('.sheet-hears:not([hidden])').count(), 1, 'that of no other station');
  await server.do('station Seat 1', 'level ready', 'steep 0 78', 'safety bank-limit Less bank');
  await stands(page, ['Seat 1', 'Seat 2', 'Seat 10']);
  assert.ok(Math.abs((await stop()) - place) <= 1, 'it stands where it stood');
  assert.deepEqual(await violations(page), []);
  const [stopped] = await Promise.all([page.waitForRequest('**/api/stations/*/stop'), page.click('#knock-it-off')]);
  assert.equal(new URL(stopped.url()).pathname, '/api/stations/Seat%2010/stop');
  await page.waitForSelector('#knock-it-off[data-pressed="true"]');
  await page.goBack();
  await page.waitForSelector('ht-opened', { state: 'hidden' });

  await server.do('station Seat 1', 'link silent');
  await until(page, `${sheet('Seat 1')} .sheet-box`, 'check the simulator');
  await stands(page, ['Seat 2', 'Seat 10', 'Seat 1']);
  await server.do('link gone');
  await stands(page, ['Seat 2', 'Seat 10']);
  await page.goto(new URL('setup', page.url()).href);
  await until(page, 'ht-nav li', 'Desk');
});

const unnamed = ['192.168.100.101:49000', '192.168.100.102:49000', '[fd00:1234:5678:9abc:def0:1234:5678:9abc]:49000'];

fed(own, 'stations without a name are told apart by the end of their address, which no window cuts', {
  path: 'desk',
  steps: [...unnamed, '10.0.0.7:1'].flatMap((n) => [`station ${n}`, 'level ready']),
}, async (page, server) => {
  for (const [size, viewport] of Object.entries(sizes)) {
    await page.setViewportSize(viewport);
    for (const name of unnamed) {
      await page.waitForFunction(([s, n]) => document.querySelector(s)?.textContent === n,
        [`${sheet(name)} .sheet-name`, name]);
      assert.ok(seen(await page.$eval(`${sheet(name)} .sheet-name`, ending, 8)), `${name}, ${size}`);
    }
  }
  await page.setViewportSize(sizes.desk);
  await server.do(`station ${unnamed[0]}`, 'student Ada');
  await until(page, `${sheet(unnamed[0])} .sheet-name`, 'Ada');
  assert.equal(await page.textContent(`${sheet(unnamed[0])} .sheet-seat`), unnamed[0]);
  assert.ok(seen(await page.$eval(`${sheet(unnamed[0])} .sheet-seat`, ending, 8)), 'beside a student');

  const opened = (name) => page.goto(new URL(`desk?station=${encodeURIComponent(name)}`, page.url()).href);
  const lines = () => page.$eval('ht-opened h2',
    (n) => Math.round(n.clientHeight / parseFloat(getComputedStyle(n).lineHeight)));
  await opened(unnamed[1]);
  await until(page, 'ht-opened h2', unnamed[1]);
  assert.equal(await lines(), 1, 'opened, it does not push the chart away');
  await page.setViewportSize(sizes.phone);
  await opened(unnamed[2]);
  await until(page, 'ht-opened h2', unnamed[2]);
  await until(page, '.stop-words', unnamed[2]);
  for (const words of ['ht-opened h2', '.say-label', '.stop-words']) {
    assert.ok(await page.$eval(words, within), `${words} stay within their place`);
  }
  await page.goto(new URL(`./?station=${encodeURIComponent(unnamed[2])}`, page.url()).href);
  for (const viewport of Object.values(sizes)) {
    await page.setViewportSize(viewport);
    await until(page, '.station-name', unnamed[2].replace(/:\d+$/, ''));
    assert.ok(await page.$eval('.station-name', (n) => n.scrollWidth <= n.clientWidth &&
      n.scrollHeight <= n.clientHeight && n.getBoundingClientRect().right <= innerWidth), 'the whole address');
  }
});

/** Whether the words of an element are no wider than what is around it has room for. */
function within(node) {
  const range = document.createRange();
  range.selectNodeContents(node);
  const around = node.parentElement;
  const { paddingLeft, paddingRight } = getComputedStyle(around);
  return range.getBoundingClientRect().width <= around.clientWidth - parseFloat(paddingLeft) - parseFloat(paddingRight);
}

/** Where the last letters of an element stand, all boxes around them up to the sheet, and which of these cut words. */
function ending(node, letters) {
  const box = (of) => {
    const { left, right, top, bottom } = of.getBoundingClientRect();
    return { left, right, top, bottom };
  };
  const texts = [...node.querySelectorAll('*'), node].flatMap((n) => [...n.childNodes])
    .filter((n) => n.nodeType === 3 && n.data !== '');
  const last = texts.at(-1);
  const range = document.createRange();
  range.setStart(last, last.data.length - letters);
  range.setEnd(last, last.data.length);
  const around = [];
  for (let n = last.parentElement; n && !n.matches('li'); n = n.parentElement) {
    around.push({ ...box(n), cuts: n.scrollWidth > n.clientWidth && getComputedStyle(n).textOverflow === 'ellipsis' });
  }
  return { words: box(range), around };
}

/** Whether no box around the words ends before they do. @param {ReturnType<typeof ending>} of */
const seen = ({ words, around }) => around.every((b) => !b.cuts && words.left >= b.left - 1 &&
  words.right <= b.right + 1 && words.top >= b.top - 4 && words.bottom <= b.bottom + 4);

/** Whether a sheet's chart shows a flight and a pen, by their colors. @param {string} of */
function inked(page, of) {
  return page.evaluate((selector) => {
    const canvas = document.querySelector(`${selector} canvas.small-ribbon`);
    const copy = document.createElement('canvas');
    [copy.width, copy.height] = [canvas.width, canvas.height];
    const pen = copy.getContext('2d', { willReadFrequently: true });
    pen.drawImage(canvas, 0, 0);
    const { data } = pen.getImageData(0, 0, copy.width, copy.height);
    const has = (token) => {
      const probe = document.body.appendChild(document.createElement('span'));
      probe.style.color = `var(--${token})`;
      const [r, g, b] = getComputedStyle(probe).color.match(/\d+/g).map(Number);
      probe.remove();
      for (let i = 0; i < data.length; i += 4)
        if (data[i] === r && data[i + 1] === g && data[i + 2] === b && data[i + 3] === 255) return true;
      return false;
    };
    return { trace: has('ink'), pen: has('now') };
  }, of);
}
