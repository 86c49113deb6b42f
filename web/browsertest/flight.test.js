// A whole leg in a browser, end to end: the program's own demonstration sends datagrams over
// UDP, the page shows what the coach made of them. With HALFTURN_URL it watches a server that runs.

import assert from 'node:assert/strict';
import { openPage, sharing, startDemo, test, violations } from './harness.js';

const given = process.env.HALFTURN_URL ?? '';
const patience = Number(process.env.HALFTURN_PATIENCE ?? 180) * 1000; // ms for a whole leg

const own = sharing(given ? {} : { demo: () => startDemo(5) });

test(
  'a leg from set-up to its result',
  async () => {
    const { page, complaints, close } = await openPage(own.browser, given || own.demo.url);
    page.setDefaultTimeout(patience);
    await page.waitForSelector('main[data-mode="leg"]');
    await page.waitForSelector('.pen-line', { state: 'visible' });
    const pen = () => page.locator('.pen-line').evaluate((n) => n.getBoundingClientRect().x);
    const start = await pen();
    await page.waitForFunction((x) => document.querySelector('.pen-line').getBoundingClientRect().x > x + 60, start);
    await page.waitForFunction(() => document.querySelector('ht-band')?.dataset.kind === 'news');
    assert.notEqual(await page.locator('.band-words').textContent(), '');
    assert.equal(await page.locator('.flag-text').count(), 4);
    assert.deepEqual(await violations(page), []);
    await page.waitForSelector('main[data-mode="after"] .verdict');
    assert.match(
      (await page.locator('.verdict').textContent()) ?? '',
      /within limits|Not yet: |Past the limit: |Not measured|Broken off|Stopped for safety/,
    );
    assert.ok((await page.locator('.checks li').count()) > 0);
    assert.deepEqual(await violations(page), []);
    assert.deepEqual(complaints, []);
    await close();
  },
  patience + 30_000,
);

test(
  'on a German page no callout of a leg is in English',
  async () => {
    const kept = { language: 'de' };
    const { page, close } = await openPage(own.browser, given || own.demo.url, { kept });
    page.setDefaultTimeout(patience);
    await page.evaluate(() => {
      globalThis.sent = []; // in the server's words
      globalThis.read = new Set(); // on the page
      const socket = new WebSocket(new URL('/live', location.href.replace('http', 'ws')));
      socket.addEventListener('message', ({ data }) => {
        const m = JSON.parse(data);
        if (m.type === 'callout' && m.words !== '') globalThis.sent.push(m);
      });
      const note = () => globalThis.read.add(document.querySelector('ht-band .band-words')?.textContent ?? '');
      const everywhere = { subtree: true, childList: true, characterData: true };
      new MutationObserver(note).observe(document.querySelector('ht-band'), everywhere);
    });
    // On a slow machine the first leg may be half over; the next one is whole.
    await page.waitForFunction(() => globalThis.sent.filter((c) => c.kind === 'cue').length > 2);
    await page.waitForSelector('main[data-mode="after"] .verdict');
    const { sent, read, german } = await page.evaluate(async () => {
      const { wordsOf } = await import('/pure/voice.js');
      const german = globalThis.sent.map((c) => wordsOf(c));
      return { sent: globalThis.sent, read: [...globalThis.read], german };
    });
    const cues = sent.filter((c) => c.kind === 'cue');
    assert.ok(cues.length > 2, JSON.stringify(sent));
    assert.ok(cues.some((c) => /\d/.test(c.words) && c.phrase.code.includes('{')), 'one has a number put in');
    assert.deepEqual(sent.filter((c, i) => german[i].includes(c.words)).map((c) => c.words), []);
    assert.deepEqual(read.filter((words) => sent.some((c) => words === c.words)), []);
    assert.ok(german.filter((words) => read.includes(words)).length > 2, `${german}: ${read}`);
    await close();
  },
  patience + 30_000,
);

/** How long the law below is held against the demonstration, s of flight: a leg, and what is before and after it. */
const watched = 80;

test(
  'who comes in later is shown what those are who were there',
  async () => {
    // a page without a state of its own
    const { page, close } = await openPage(own.browser, new URL('setup', given || own.demo.url).href);
    page.setDefaultTimeout(patience);
    const differs = await page.evaluate(async (seconds) => {
      const { empty, lastHere, reduce } = await import('/pure/store.js');
      const { parse } = await import('/pure/parse.js');
      const at = (m) => 1000 * (m.time ?? m.frame?.time ?? 0);
      const follow = (take) => {
        const socket = new WebSocket(new URL('/live', location.href.replace('http', 'ws')));
        socket.addEventListener('message', ({ data }) => take(parse(data), socket));
      };
      const view = (s) => ({
        info: s.info?.link,
        plan: s.plan?.maneuver,
        last: lastHere(s)?.start,
        inSeries: s.legsInSeries,
        series: s.series.length,
        marks: [...s.marks].sort().join(' '),
        unsafe: s.safety.map((c) => c.id).join(' '),
        direction: s.trace.length > 0 ? s.traceDirection : '', // how far back it goes depends on the frames that came
      });
      const found = [];
      let compared = 0;
      let state = empty(0);
      const over = new Promise((done) => {
        let until = Infinity;
        follow((m, socket) => {
          state = reduce(state, m, at(m));
          const now = state.frame?.time ?? -Infinity;
          if (until === Infinity && state.frame) until = now + seconds;
          if (now < until) return;
          socket.close();
          done();
        });
      });
      const asking = setInterval(
        () =>
          follow((m, socket) => {
            if (m.type !== 'hello') return;
            socket.close();
            const later = reduce(empty(0), m, at(m));
            if (later.seq !== state.seq || later.frame?.state !== state.frame?.state) return; // of another moment
            compared++;
            const [there, late] = [JSON.stringify(view(state)), JSON.stringify(view(later))];
            if (there !== late) found.push(`at ${state.frame?.time} s: there ${there}, later ${late}`);
          }),
        100,
      );
      await over;
      clearInterval(asking);
      return { found, compared };
    }, watched);
    assert.deepEqual(differs.found.slice(0, 3), []);
    assert.ok(differs.compared > 50, `${differs.compared} compared`);
    await close();
  },
  patience + 30_000,
);
