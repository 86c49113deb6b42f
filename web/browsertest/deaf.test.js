// What the panel says and keeps where the browser refuses sound, voices, storage or timers.

import assert from 'node:assert/strict';
import { faces, fed, sharing, until, violations } from './harness.js';

const own = sharing();

/** Runs a test on a page where something was taken away before its scripts ran. */
function without(name, take, run) {
  fed(own, name, { steps: ['station', 'level ready'], options: { init: take } }, async (page, server) => {
    await page.waitForSelector(faces.setup.ready);
    await run(page, server);
  });
}

const says = (page, words) => until(page, '#sound-state', words);

without('storage refused: said, and the settings hold until the page is closed', () => {
  const refuse = () => { throw new DOMException('refused', 'SecurityError'); };
  Object.defineProperty(globalThis, 'localStorage', { get: refuse });
}, async (page) => {
  await page.click('#settings');
  await page.selectOption('#theme', 'dark');
  await page.waitForSelector('html[data-theme="dark"]');
  await says(page, 'Settings hold until the page is closed');
  assert.deepEqual(await violations(page), []);
});

without('no audio: said, and callouts are still to be read', () => {
  delete globalThis.AudioContext;
  Object.defineProperty(globalThis, 'speechSynthesis', { value: undefined });
}, async (page, server) => {
  await page.click('#sound-check');
  await says(page, 'This browser has no audio: no tones');
  await server.do('fly 0 40', 'safety');
  await page.waitForSelector('ht-band[data-kind="safety"]');
});

without('sound blocked: said, and the button that ends it stands out', () => {
  globalThis.AudioContext = class extends EventTarget {
    state = 'suspended';
    resume() { return Promise.reject(new DOMException('not allowed', 'NotAllowedError')); }
  };
}, async (page) => {
  await page.click('#sound-check');
  await page.waitForSelector('ht-controls[data-sound="blocked"]');
  await says(page, 'The browser blocks sound');
});

without(
  'timers of a hidden page stand still: cues are begun by what comes in, or dropped',
  () => {
    globalThis.setInterval = () => 0;
    globalThis.spoken = [];
    const voice = { lang: 'en-US', localService: true, default: true, name: 'test', voiceURI: 'test' };
    Object.defineProperty(globalThis, 'speechSynthesis', {
      value: {
        getVoices: () => [voice],
        addEventListener() {},
        cancel() {},
        speak(u) {
          globalThis.spoken.push(u.text);
          queueMicrotask(() => u.dispatchEvent(new Event('end')));
        },
      },
    });
    globalThis.SpeechSynthesisUtterance = class extends EventTarget {
      constructor(text) {
        super();
        this.text = text;
      }
    };
  },
  async (page, server) => {
    await page.click('#sound-check');
    for (let turn = 0; turn < 179; turn += 3) {
      await server.do(`fly ${turn} ${turn + 2}`);
      if (turn > 12) {
        await page.waitForFunction(
          (n) => document.querySelector('.pen-words')?.textContent === `${n}° turned`,
          turn + 2,
        );
      }
    }
    await server.do('finish');
    await page.waitForSelector(faces.after.ready);
    await page.waitForFunction(() => globalThis.spoken.includes('Roll out slowly'));
    const log = await page.$$eval('.said-log li', (rows) => rows.map((r) => r.dataset.what));
    assert.ok(
      log.length >= 3 && log.every((w) => ['spoken', 'late', 'over', 'gave-way', 'unwanted'].includes(w)),
      log.join(),
    );
  },
);
