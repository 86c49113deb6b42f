// A demonstration flown at its own pace, with a voice that takes as long as a real one: every
// callout is spoken or dropped by rule, and the words of a cue end as its checkpoint comes.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { launch, startDemo } from './harness.js';

/** Common practice, no source: what an ear takes for "at" the checkpoint, s. */
const together = 0.4;

test('a series at its own pace: callouts are spoken or dropped by rule, cues end with their checkpoints', async () => {
  const [browser, demo] = await Promise.all([launch(), startDemo(1)]);
  try {
    const page = await (await browser.newContext()).newPage();
    await page.addInitScript(() => {
      // 150 words a minute, 1.5 syllables a word; each phrase strays by a tenth.
      const voice = { lang: 'en-US', localService: true, default: true, name: 'test', voiceURI: 'test' };
      let timer;
      let seed = 7;
      Object.defineProperty(globalThis, 'speechSynthesis', { value: {
        getVoices: () => [voice], addEventListener() {},
        speak(u) {
          seed = (seed * 16807) % 2147483647;
          const rows = u.text.toLowerCase().match(/[aeiouy]+|\d/g)?.length ?? 1;
          timer = setTimeout(() => u.dispatchEvent(new Event('end')), (150 + 266 * rows / u.rate) * (0.95 + 0.1 * seed / 2147483647));
        },
        cancel: () => clearTimeout(timer),
      } });
      globalThis.SpeechSynthesisUtterance = class extends EventTarget {
        constructor(text) { super(); this.text = text; this.rate = 1; }
      };
      globalThis.sent = [];
      const Real = WebSocket;
      globalThis.WebSocket = class extends Real {
        constructor(...a) {
          super(...a);
          this.addEventListener('message', ({ data }) => {
            const m = JSON.parse(data);
            if (m.type === 'callout' && m.words !== '' && m.kind !== 'clear') globalThis.sent.push(`${m.kind} ${m.id}`);
            if (m.type === 'series') globalThis.done = true;
          });
        }
      };
    });
    await page.goto(demo.url);
    await page.click('#sound-check');
    await page.waitForFunction(() => globalThis.done === true, undefined, { timeout: 240_000 });
    await page.waitForFunction(() => document.querySelectorAll('.said-log li').length >= globalThis.sent.length, undefined, { timeout: 15_000 });
    const log = await page.$$eval('.said-log li', (rows) => rows.map((r) => ({ ...r.dataset, words: r.textContent })));
    const sent = await page.evaluate(() => globalThis.sent);
    assert.equal(log.length, sent.length, `sent ${sent.join(', ')}; noted ${JSON.stringify(log)}`);
    const cues = log.filter((r) => r.kind === 'cue' && r.what === 'spoken');
    const fair = cues.filter((r) => !r.words.startsWith('Level on')); // how an exit is flown cannot be known so well
    assert.ok(fair.length >= 3, JSON.stringify(log));
    for (const r of cues) assert.ok(r.off !== '' && Number(r.off) <= together, `not late: ${JSON.stringify(log)}`);
    // The cue to 45° comes early: the turn has hardly begun when it must be foretold. The others are to be on time.
    const close = fair.filter((r) => Math.abs(Number(r.off)) <= together);
    assert.ok(close.length >= 0.6 * fair.length, `${close.length} of ${fair.length} together: ${JSON.stringify(log)}`);
  } finally {
    await browser.close();
    await demo.stop();
  }
});
