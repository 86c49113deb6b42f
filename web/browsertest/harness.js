// Starts the made-up feed and a browser for the tests of the pages.
//
// HALFTURN_URL       test a server that runs already, at this address (flight.test.js only)
// HALFTURN_CHROMIUM  the browser, /usr/bin/chromium when not set

import { spawn } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { execFileSync } from 'node:child_process';
import { AxeBuilder } from '@axe-core/playwright';
import { chromium } from 'playwright-core';

export const sizes = {
  desk: { width: 1280, height: 800 },
  large: { width: 1920, height: 1080 },
  phone: { width: 390, height: 844 },
};

export function launch() {
  return chromium.launch({
    executablePath: process.env.HALFTURN_CHROMIUM ?? '/usr/bin/chromium',
    args: [
      '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
      '--disable-background-networking', '--disable-component-update', '--disable-sync',
    ],
  });
}

/** Builds the feed once for a test file. */
export async function buildFeed() {
  const dir = await mkdtemp(join(tmpdir(), 'halfturn-feed-'));
  const path = join(dir, 'demofeed');
  execFileSync('go', ['build', '-o', path, './internal/demofeed'], { cwd: new URL('..', import.meta.url), stdio: 'inherit' });
  return { path, remove: () => rm(dir, { recursive: true, force: true }) };
}

/** Builds and runs the server of the recorded flights. */
export async function buildFlights() {
  const dir = await mkdtemp(join(tmpdir(), 'halfturn-flights-'));
  const path = join(dir, 'demoflights');
  execFileSync('go', ['build', '-o', path, './internal/demoflights'], { cwd: new URL('..', import.meta.url), stdio: 'inherit' });
  const flights = new URL('../../coach/session/testdata/flights', import.meta.url).pathname;
  const child = spawn(path, [flights], { stdio: ['pipe', 'pipe', 'inherit'] });
  const first = (await createInterface({ input: child.stdout })[Symbol.asyncIterator]().next()).value;
  const url = first?.match(/^listening (http:\S+)$/)?.[1];
  if (!url) throw new Error(`the flights are not served: ${first}`);
  return {
    url: `${url}/`,
    async stop() {
      const ended = new Promise((resolve) => child.once('exit', resolve));
      child.stdin.end();
      await ended;
      await rm(dir, { recursive: true, force: true });
    },
  };
}

/** Runs the feed; do(step) resolves when the step is done. */
export async function startFeed(path, addr = '127.0.0.1:0') {
  const child = spawn(path, [addr], { stdio: ['pipe', 'pipe', 'inherit'] });
  const lines = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
  const first = (await lines.next()).value;
  const url = first?.match(/^listening (http:\S+)$/)?.[1];
  if (!url) throw new Error(`the feed did not start: ${first}`);
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
      const ended = new Promise((resolve) => child.once('exit', resolve));
      child.stdin.end();
      await ended;
    },
  };
}

/** Builds the program and serves the sessions of these recorded flights. @param {string[]} flights */
export async function startHouse(flights) {
  const dir = await mkdtemp(join(tmpdir(), 'halfturn-house-'));
  const path = join(dir, 'halfturn');
  execFileSync('go', ['build', '-o', path, './cmd/halfturn'], { cwd: new URL('../..', import.meta.url), stdio: 'inherit' });
  const files = flights.map((f) => new URL(`../../coach/session/testdata/flights/${f}.pcap.gz`, import.meta.url).pathname);
  execFileSync(path, ['sessions', 'import', '--data', join(dir, 'data'), '--maneuver', 'wing-over', ...files], { stdio: ['ignore', 'ignore', 'pipe'] });
  const child = spawn(path, ['serve', '--http', '127.0.0.1:0', '--udp', '127.0.0.1:0', '--data', join(dir, 'data')], { stdio: ['ignore', 'ignore', 'pipe'] });
  let url;
  for await (const line of createInterface({ input: child.stderr })) {
    url = line.match(/pages"?[=:]\s*"?(http:[^\s"]+)/)?.[1];
    if (url) break;
  }
  if (!url) throw new Error('the program did not start');
  child.stderr.resume();
  return {
    url,
    async stop() {
      const ended = new Promise((resolve) => child.once('exit', resolve));
      child.kill('SIGINT');
      const status = await ended;
      await rm(dir, { recursive: true, force: true });
      if (status !== 0) throw new Error(`the program ended with ${status}`);
    },
  };
}

/**
 * Builds the program and runs its demonstration on ports of the system's choice.
 * @param {number} pace seconds of flight a second
 */
export async function startDemo(pace) {
  const dir = await mkdtemp(join(tmpdir(), 'halfturn-demo-'));
  const path = join(dir, 'halfturn');
  execFileSync('go', ['build', '-o', path, './cmd/halfturn'], { cwd: new URL('../..', import.meta.url), stdio: 'inherit' });
  const child = spawn(path, [
    'demo', '--no-open', '--pace', String(pace), '--http', '127.0.0.1:0', '--udp', '127.0.0.1:0', '--data', join(dir, 'data'),
  ], { stdio: ['ignore', 'ignore', 'pipe'] });
  let url;
  for await (const line of createInterface({ input: child.stderr })) {
    url = line.match(/^The page: (http:\S+)$/)?.[1];
    if (url) break;
  }
  if (!url) throw new Error('the demonstration did not start');
  child.stderr.resume();
  return {
    url,
    async stop() {
      const ended = new Promise((resolve) => child.once('exit', resolve));
      child.kill('SIGINT');
      const status = await ended;
      await rm(dir, { recursive: true, force: true });
      if (status !== 0) throw new Error(`the demonstration ended with ${status}`);
    },
  };
}

/** Opens the page and collects what it complains of. */
export async function openPage(browser, url, options = {}) {
  const context = await browser.newContext({ viewport: sizes.desk, ...options });
  const page = await context.newPage();
  const complaints = [];
  page.on('console', (m) => {
    if (m.type() === 'error' || m.type() === 'warning') complaints.push(m.text());
  });
  page.on('pageerror', (e) => complaints.push(String(e)));
  await page.goto(url);
  return { page, complaints, close: () => context.close() };
}

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

/** The violations axe finds, one line each. */
export async function violations(page) {
  const { violations: all } = await new AxeBuilder({ page }).analyze();
  return all.flatMap((v) => v.nodes.map((n) => `${v.id}: ${n.target.join(' ')}: ${n.failureSummary?.replace(/\s+/g, ' ')}`));
}

/** The steps that bring the page to each of its faces, and what to wait for. */
export const faces = {
  empty: { steps: [], ready: 'main[data-mode="empty"]' },
  setup: { steps: ['station', 'level'], ready: 'main[data-mode="set-up"] ht-gates li' },
  leg: { steps: ['station', 'level ready', 'fly 0 114'], ready: 'main[data-mode="leg"] .flag-text' },
  safety: { steps: ['station', 'level ready', 'fly 0 128', 'safety'], ready: 'ht-band[data-kind="safety"]' },
  after: { steps: ['station', 'level ready', 'fly 0 179', 'finish'], ready: 'main[data-mode="after"] .verdict' },
  second: { steps: ['station', 'level ready', 'fly 0 179', 'finish', 'level', 'fly 0 60'], ready: 'main[data-mode="leg"] .trace.pale[d^="M"]' },
};
