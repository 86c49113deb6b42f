// A demonstration flown at its own pace and by ear alone, with a voice that takes as long as a real one: every callout
// is spoken or dropped by rule, the words of a cue end as its checkpoint comes, and from the set-up to the verdict
// nothing has to be read.

import assert from 'node:assert/strict';
import { sharing, startDemo, test } from './harness.js';
import { lengths } from './lengths.js';

/** Common practice, no source: what an ear takes for "at" the checkpoint, s. */
const together = 0.4;

/** A machine that holds the flight up by more than this, s, did not fly at its own pace: what fails is flown again. */
const held = 0.15;

const own = sharing();

test('a leg at its own pace: callouts are spoken or dropped by rule, cues end with their checkpoints', async (t) => {
  for (let tries = 1; ; tries++) {
    const { lag, judge } = await fly();
    t.diagnostic(`the machine held the flight up by ${lag.toFixed(2)} s`);
    try {
      judge(t);
      return;
    } catch (e) {
      if (lag <= held || tries === 3) throw e;
    }
  }
}, 900_000);

/** In the page: a voice that takes as long for each phrase as the table says, s. @param {object} table */
function speakAs(table) {
  const words = (text) => text.split(/\s+/).length;
  const one = Object.values(table).reduce((a, b) => a + b) / Object.keys(table).reduce((n, k) => n + words(k), 0);
  const voice = { lang: 'en-US', localService: true, default: true, name: 'test', voiceURI: 'test' };
  let timer;
  Object.defineProperty(globalThis, 'speechSynthesis', {
    value: {
      getVoices: () => [voice],
      addEventListener() {},
      speak(u) {
        globalThis.speaking = true;
        timer = setTimeout(() => {
          globalThis.speaking = false;
          u.dispatchEvent(new Event('end'));
        }, (1000 * (table[u.text] ?? one * words(u.text))) / u.rate);
      },
      cancel() {
        globalThis.speaking = false;
        clearTimeout(timer);
      },
    },
  });
  globalThis.SpeechSynthesisUtterance = class extends EventTarget {
    constructor(text) {
      super();
      this.text = text;
      this.rate = 1;
    }
  };
}

/** In the page: notes the callouts sent, and how far each frame is behind the clock. */
function noteMessages() {
  globalThis.sent = [];
  const loaded = 5000; // ms: while the page loads, frames wait
  const Real = WebSocket;
  globalThis.WebSocket = class extends Real {
    constructor(...a) {
      super(...a);
      this.addEventListener('message', ({ data }) => {
        const m = JSON.parse(data);
        if (m.type === 'callout' && m.words !== '' && m.kind !== 'clear') {
          globalThis.sent.push(`${m.kind} ${m.id}`);
        }
        if (m.type === 'frame' && performance.now() > loaded) {
          const behind = performance.now() / 1000 - m.time;
          globalThis.lags = [...(globalThis.lags ?? []).slice(-20_000), behind];
        }
      });
    }
  };
}

/** Flies the first leg; returns what there is to judge, and how far the flight fell behind the clock. */
async function fly() {
  const demo = await startDemo(1);
  const context = await own.browser.newContext();
  try {
    const page = await context.newPage();
    await page.addInitScript(speakAs, lengths);
    await page.addInitScript(noteMessages);
    await page.goto(demo.url);
    await page.click('#sound-check');
    await page.click('#by-ear');
    const said = '.said-log li[data-kind="result"][data-what="spoken"]';
    await page.waitForSelector(said, { state: 'attached', timeout: 240_000 });
    await page.waitForFunction(() => !globalThis.speaking);
    const [noted, sent] = await page.evaluate(
      () => [document.querySelectorAll('.said-log li').length, globalThis.sent],
    );
    const upToResult = sent.findIndex((s) => s.startsWith('result ')) + 1; // what comes after it may still be spoken
    assert.ok(noted >= upToResult && upToResult > 0, `${noted} noted; sent ${sent.join(', ')}`);
    await page.keyboard.press('r'); // what was said last, once more
    await page.waitForSelector('.said-log li[data-kind="again"][data-what="spoken"]', { state: 'attached' });
    const log = await page.$$eval('.said-log li', (rows) =>
      rows.map((r) => ({ ...r.dataset, words: r.textContent })),
    );
    const lags = await page.evaluate(() => globalThis.lags);
    return { lag: Math.max(...lags) - Math.min(...lags), judge: (t) => judge(log, t) };
  } finally {
    await context.close();
    await demo.stop();
  }
}

/** Asserts that every callout was spoken or dropped by rule, and that each spoken cue ended with its checkpoint. */
function judge(log, t) {
  for (const r of log) {
    assert.ok(['spoken', 'late', 'over', 'gave-way', 'unwanted'].includes(r.what), JSON.stringify(r));
  }
  const cues = log.filter((r) => r.kind === 'cue' && r.what === 'spoken');
  t.diagnostic(log.map((r) => `${r.kind} ${r.what} ${r.off} ${r.words}`).join('\n'));
  assert.ok(cues.length >= 4, JSON.stringify(log));
  for (const kind of ['set-up', 'cue', 'result', 'again']) {
    assert.ok(log.some((r) => r.kind === kind && r.what === 'spoken'), `no ${kind} was heard: ${JSON.stringify(log)}`);
  }
  assert.ok(log.some((r) => r.kind === 'set-up' && /^Ready/.test(r.words)), JSON.stringify(log));
  assert.ok(log.every((r) => r.what !== 'unwanted'), JSON.stringify(log));
  // A pilot may turn faster or slower than foretold: nine of ten end with their checkpoint (package coach/talk).
  const off = cues.filter((r) => r.off === '' || Math.abs(Number(r.off)) > together);
  assert.ok(off.length <= Math.ceil(cues.length / 10), `${JSON.stringify(off)}; all: ${JSON.stringify(log)}`);
  for (const r of cues) assert.ok(r.off !== '' && Math.abs(Number(r.off)) <= 1, `${r.words}: ${r.off} s`);
}
