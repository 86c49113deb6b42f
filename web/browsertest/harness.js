// Starts the servers and the browser for the tests of the pages, and holds what they all ask.
//
// HALFTURN_URL       test a server that runs already, at this address (flight.test.js only)
// HALFTURN_BUILT     not empty: the programs in bin are of this source already, as make leaves them
// HALFTURN_CHROMIUM  the browser; when not set, Chromium's headless shell, or else Chromium, in /usr/bin

import assert from 'node:assert/strict';
import { execFileSync, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { after, before, test as nodeTest } from 'node:test';
import axe from 'axe-core';
import { chromium } from 'playwright-core';

export const sizes = {
  desk: { width: 1280, height: 800 },
  large: { width: 1920, height: 1080 },
  phone: { width: 390, height: 844 },
};

/** The shell first: it draws the same without the windows around, in half the time. */
const browsers = ['/usr/bin/chromium-headless-shell', '/usr/bin/chromium', '/usr/bin/chromium-browser'];

export function launch() {
  return chromium.launch({
    executablePath: process.env.HALFTURN_CHROMIUM ?? browsers.find((b) => existsSync(b)),
    args: [
      '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
      '--disable-background-networking', '--disable-component-update', '--disable-sync',
    ],
  });
}

/** The programs that were built, by package: asking the compiler again for each test would take minutes in all. */
const built = new Map();

/** Builds a program of the project, once per test file, unless make has. @returns {string} its path */
function build(pkg) {
  if (!built.has(pkg)) {
    const path = new URL(`../../bin/${pkg.split('/').at(-1)}`, import.meta.url).pathname;
    if (!process.env.HALFTURN_BUILT) {
      execFileSync('go', ['build', '-o', path, pkg], { cwd: new URL('../..', import.meta.url), stdio: 'inherit' });
    }
    built.set(pkg, path);
  }
  return built.get(pkg);
}

/**
 * A test with a timeout: one that hangs fails.
 * @param {string} name
 * @param {() => Promise<void>} run
 * @param {number} [timeout] ms
 */
export const test = (name, run, timeout = 120_000) => nodeTest(name, { timeout }, run);

/** The programs that run: one that outlives its test, because that failed, would keep the whole run from ending. */
const running = new Set();

/** Starts a program and waits for the address it tells. @param {(line: string) => string | undefined} address */
async function start(path, args, stream, address) {
  const child = spawn(path, args, {
    stdio: ['pipe', stream === 'stdout' ? 'pipe' : 'ignore', stream === 'stderr' ? 'pipe' : 'inherit'],
  });
  running.add(child);
  const ended = new Promise((resolve) => child.once('exit', (status, signal) => resolve(status ?? signal)));
  child.once('exit', () => running.delete(child));
  const lines = createInterface({ input: child[stream] })[Symbol.asyncIterator]();
  for (let line = await lines.next(); !line.done; line = await lines.next()) {
    const url = address(line.value);
    if (url) return { child, lines, url, ended };
  }
  throw new Error(`${path} ended with ${await ended} before it told its address`);
}

/** Runs the program on folders of its own. @param {string[]} args */
async function startProgram(dir, args, address) {
  const { child, url, ended } = await start(
    build('./cmd/halfturn'),
    [...args, '--http', '127.0.0.1:0', '--udp', '127.0.0.1:0', '--data', join(dir, 'data')],
    'stderr',
    address,
  );
  child.stderr.resume();
  return {
    url,
    async stop() {
      child.kill('SIGINT');
      const status = await ended;
      await rm(dir, { recursive: true, force: true });
      if (status !== 0) throw new Error(`the program ended with ${status}`);
    },
  };
}

const listening = (line) => line.match(/^listening (http:\S+)$/)?.[1];

/** Runs the server of the recorded flights. */
export async function startFlights() {
  const flights = new URL('../../coach/session/testdata/flights', import.meta.url).pathname;
  const { child, url, ended } = await start(build('./web/internal/demoflights'), [flights], 'stdout', listening);
  return {
    url: `${url}/`,
    async stop() {
      child.stdin.end();
      await ended;
    },
  };
}

/** Runs the made-up feed; do(step) resolves when the step is done. */
export async function startFeed(addr = '127.0.0.1:0') {
  const { child, lines, url, ended } = await start(build('./web/internal/demofeed'), [addr], 'stdout', listening);
  return {
    url,
    async do(...steps) {
      for (const step of steps) {
        child.stdin.write(`${step}\n`);
        const answer = (await lines.next()).value;
        if (answer !== 'ok') throw new Error(`${step}: ${answer}`);
      }
    },
    async stop() {
      child.stdin.end();
      await ended;
    },
  };
}

/** Runs the program to its end. @param {string[]} args @returns {string} what it prints */
export const halfturn = (...args) => execFileSync(build('./cmd/halfturn'), args, { encoding: 'utf8' });

/** Runs the program to its end while the test goes on; resolves to its status. @param {string[]} args */
export const besides = (...args) => new Promise((resolve) => {
  const child = spawn(build('./cmd/halfturn'), args, { stdio: 'ignore' });
  running.add(child);
  child.once('exit', (status) => {
    running.delete(child);
    resolve(status);
  });
});

/**
 * Serves the sessions of these recorded flights by the program itself; fly(...) lets the built-in aircraft send to it.
 * @param {string[]} flights @param {string[]} args of the server
 */
export function startHouse(flights, ...args) {
  const files = flights.map(
    (f) => new URL(`../../coach/session/testdata/flights/${f}.pcap.gz`, import.meta.url).pathname,
  );
  return startPrepared((data) => {
    if (files.length === 0) return;
    execFileSync(
      build('./cmd/halfturn'),
      ['sessions', 'import', '--data', data, '--maneuver', 'wing-over', ...files],
      { stdio: ['ignore', 'ignore', 'pipe'] },
    );
  }, ...args);
}

/**
 * Serves a data directory by the program itself, once it was prepared.
 * @param {(data: string) => void} prepare @param {string[]} args of the server
 */
export async function startPrepared(prepare, ...args) {
  const dir = await mkdtemp(join(tmpdir(), 'halfturn-house-'));
  const data = join(dir, 'data');
  prepare(data);
  let udp = '';
  const server = await startProgram(dir, ['serve', ...args], (line) => {
    udp ||= line.match(/"?udp"?[=:]\s*\[?"?(127[^\s"\]]+)/)?.[1] ?? '';
    return line.match(/pages"?[=:]\s*"?(http:[^\s"]+)/)?.[1];
  });
  return {
    ...server,
    data,
    sends: udp,
    udp: { host: udp.replace(/:\d+$/, ''), port: Number(udp.split(':').at(-1)) },
    fly: (...how) => execFileSync(build('./cmd/halfturn'), ['fly', '--to', udp, ...how], { stdio: 'ignore' }),
  };
}

/** Runs the program's demonstration. @param {number} pace seconds of flight a second */
export async function startDemo(pace) {
  const dir = await mkdtemp(join(tmpdir(), 'halfturn-demo-'));
  return startProgram(
    dir,
    ['demo', '--no-open', '--pace', String(pace)],
    (line) => line.match(/^The page: (http:\S+)$/)?.[1],
  );
}

/**
 * A browser for the tests of a file and the servers they share, started before them and stopped after.
 * @param {Record<string, () => Promise<{stop: () => Promise<void>}>>} [servers] by the names they get beside `browser`
 */
export function sharing(servers = {}) {
  const all = {};
  before(async () => {
    await Promise.all(
      [['browser', launch], ...Object.entries(servers)].map(async ([name, begin]) => {
        all[name] = await begin();
      }),
    );
  });
  after(async () => {
    try {
      await all.browser?.close();
      for (const name of Object.keys(servers)) await all[name]?.stop();
    } finally {
      for (const child of running) child.kill('SIGKILL');
    }
  });
  return all;
}

/**
 * A test on a page of a feed of its own. The page may complain of nothing.
 * @param {{browser?: any}} own what the tests of the file share
 * @param {{steps?: string[], path?: string, options?: object, allow?: string[]}} how the feed's steps before the
 *   page opens, the page, and what the browser is told and may say (see openPage)
 */
export function fed(own, name, { steps = [], path = '', options = {}, allow }, run) {
  test(name, async () => {
    const server = await startFeed();
    try {
      await server.do(...steps);
      const { page, complaints, close } = await openPage(own.browser, new URL(path, server.url).href, {
        ...options, allow,
      });
      await run(page, server);
      assert.deepEqual(complaints, []);
      await close();
    } finally {
      await server.stop();
    }
  });
}

/**
 * Opens a page and collects what it complains of. Unless serviceWorkers is 'allow', the browser does not keep the
 * pages: for each new context it would fetch all their parts once more, which takes as long as the rest of a test.
 * @param {object} [options] the context's, and: kept, the settings the browser holds; init, what runs before the
 *   page's own scripts; prepare, what is done with the page before it goes to the address; allow, parts of complaints
 *   that may come: the browser tells of each answer that is a refusal, before or after the page has shown it
 */
export async function openPage(browser, url, { kept, init, prepare, allow = [], ...options } = {}) {
  const context = await browser.newContext({ viewport: sizes.desk, serviceWorkers: 'block', ...options });
  const page = await context.newPage();
  const complaints = [];
  page.on('console', (m) => {
    const expected = ['Service Worker registration blocked by Playwright', ...allow].some((a) => m.text().includes(a));
    if (!expected && (m.type() === 'error' || m.type() === 'warning')) complaints.push(m.text());
  });
  page.on('pageerror', (e) => complaints.push(String(e)));
  const wait = page.waitForFunction.bind(page); // not in each frame: a page that has to draw costs twice as much
  page.waitForFunction = (what, arg, how) => wait(what, arg, { polling: 50, ...how });
  if (kept) await page.addInitScript((s) => localStorage.setItem('halfturn', s), JSON.stringify(kept));
  if (init) await page.addInitScript(init);
  await prepare?.(page);
  await page.goto(url);
  return { page, complaints, close: () => context.close() };
}

/** The words of a page as it is printed, each with how tall it stands, in points. @param {string} paper */
export async function printedWords(page, paper) {
  const boxes = execFileSync('pdftotext', ['-bbox', '-', '-'], {
    input: await page.pdf({ format: paper }),
    encoding: 'utf8',
    maxBuffer: 2 ** 26,
  });
  return [...boxes.matchAll(/yMin="([\d.]+)" xMax="[\d.]+" yMax="([\d.]+)">([^<]*)</g)].map(
    ([, top, bottom, text]) => ({ text, height: bottom - top }),
  );
}

/** Waits until an element's text holds these words. */
export const until = (page, selector, words) => page.waitForFunction(
  ([s, w]) => document.querySelector(s)?.textContent?.includes(w), [selector, words]);

/** How many pixels of the live trace are inked, and in what color. */
export function inked(page) {
  return page.locator('.live-trace').evaluate((n) => {
    const copy = document.createElement('canvas'); // reading the page's own would make the browser draw it otherwise
    [copy.width, copy.height] = [n.width, n.height];
    const pen = copy.getContext('2d', { willReadFrequently: true });
    pen.drawImage(n, 0, 0);
    const { data } = pen.getImageData(0, 0, n.width, n.height);
    let count = 0;
    let color = 'none';
    for (let i = 0; i < data.length; i += 4) {
      if (data[i + 3] > 0) count++;
      if (data[i + 3] === 255) color = `rgb(${data[i]}, ${data[i + 1]}, ${data[i + 2]})`;
    }
    return { count, color };
  });
}

/** The violations axe finds, one line each. @param {string[]} [rules] all when not given */
export async function violations(page, rules) {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe.source); // half a second each time
  const all = await page.evaluate(
    async (options) => (await window.axe.run(document, options)).violations,
    { resultTypes: ['violations'], ...(rules && { runOnly: { type: 'rule', values: rules } }) },
  );
  return all.flatMap((v) =>
    v.nodes.map((n) => `${v.id}: ${n.target.join(' ')}: ${n.failureSummary?.replace(/\s+/g, ' ')}`),
  );
}

/**
 * How a page is looked at: the window, the system's wishes, and which rules are asked, all where none is named. Colors
 * differ by the inks, of which each is looked at once in full; room differs by the window.
 */
const looks = {
  wide: { viewport: sizes.desk, colorScheme: 'light' },
  large: { rules: ['target-size'], viewport: sizes.large, colorScheme: 'dark' },
  'in high contrast': { rules: ['color-contrast'], viewport: sizes.desk, colorScheme: 'light', contrast: 'more' },
  'as a tablet': { rules: ['target-size'], viewport: { width: 800, height: 1280 }, colorScheme: 'light' },
  'on its side': { rules: ['target-size'], viewport: { width: 844, height: 390 }, colorScheme: 'light' },
  narrow: { viewport: sizes.phone, colorScheme: 'dark' },
};

/** Asserts that nothing stands in anybody’s way: axe finds nothing and nothing sticks out, in any look. */
export async function nothingInTheWay(page) {
  const found = [];
  for (const [name, { rules, viewport, ...media }] of Object.entries(looks)) {
    await page.setViewportSize(viewport);
    await page.emulateMedia({ contrast: 'no-preference', reducedMotion: 'reduce', ...media });
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    if (wide > 0) found.push(`${name}: ${wide} pixels stick out`);
    found.push(...(await violations(page, rules)).map((v) => `${name}: ${v}`));
  }
  assert.deepEqual(found, []);
}

/** The steps that bring the page to each of its faces, and what to wait for. */
export const faces = {
  empty: { steps: [], ready: 'main[data-mode="empty"]' },
  setup: { steps: ['station', 'level'], ready: 'main[data-mode="set-up"] ht-gates li' },
  leg: { steps: ['station', 'level ready', 'fly 0 114'], ready: 'main[data-mode="leg"] .flag-text' },
  safety: { steps: ['station', 'level ready', 'fly 0 128', 'safety'], ready: 'ht-band[data-kind="safety"]' },
  trouble: {
    steps: ['station', 'level ready', 'steep 0 78', 'safety bank-limit Less bank'],
    ready: 'ht-band[data-kind="safety"]',
  },
  after: { steps: ['station', 'level ready', 'fly 0 179', 'finish'], ready: 'main[data-mode="after"] .verdict' },
  second: {
    steps: ['station', 'level ready', 'fly 0 179', 'finish', 'level', 'fly 0 60'],
    ready: 'main[data-mode="leg"] .trace.pale[d^="M"]',
  },
};

/** Asks in a page until the answer is yes: waitForFunction takes the promise of an asynchronous question for a yes. */
export async function agreed(page, question) {
  for (const end = Date.now() + 30_000; !(await page.evaluate(question)); await page.waitForTimeout(50)) {
    if (Date.now() > end) throw new Error(`never true: ${question}`);
  }
}
