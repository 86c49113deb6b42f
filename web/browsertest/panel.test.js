// The panel in a browser, fed by the made-up flight.

import assert from 'node:assert/strict';
import { faces, fed, inked, nothingInTheWay, openPage, sharing, sizes, startFeed, test, until } from './harness.js';

const own = sharing();

const textOf = (page, selector) => page.locator(selector).first().textContent();

fed(own, 'with nobody there, a new user is told where to send', {}, async (page) => {
  await page.waitForSelector(faces.empty.ready);
  await until(page, 'ht-welcome .found', 'Nothing is heard yet');
  await until(page, '#tile-flightgear .tile-value', '127.0.0.1,7181,udp');
  assert.match(await textOf(page, '#caution'), /Simulator practice only/);
  assert.ok(await page.locator('ht-controls #sound-check').isVisible());
});

fed(own, 'a station that comes fills the page', {}, async (page, server) => {
  await page.waitForSelector(faces.empty.ready);
  await until(page, 'ht-welcome .found', 'Nothing is heard yet');
  await server.do('station', 'keep');
  await page.locator('#first-fly:enabled').click();
  await page.waitForSelector(faces.setup.ready);
  assert.equal(await textOf(page, '.title-name'), 'Wing-over');
  assert.match(await textOf(page, 'ht-gates .rows'), /Entry speed/);
  assert.equal(await textOf(page, 'ht-gates .ready'), 'Not ready');
  assert.equal(await textOf(page, '.order'), 'Speed up: 148, want 155\u00a0kt');
  await server.do('keep ready');
  await until(page, 'ht-gates .ready', 'Ready');
});

fed(
  own,
  'the pen moves with the turn and the flags tell the values',
  { steps: ['station', 'level ready'] },
  async (page, server) => {
    await server.do('fly 0 40');
    await until(page, '.pen-words', '40° turned');
    const x = () => page.locator('.pen-line').evaluate((n) => n.getBoundingClientRect().x);
    const [first, trace] = [await x(), (await inked(page)).count];
    await server.do('fly 41 114');
    await until(page, '.pen-words', '114° turned');
    assert.ok((await x()) > first + 100, 'the pen has moved');
    assert.ok((await inked(page)).count > trace, 'the trace has grown');
    const flags = await page.locator('.flag-text').allTextContents();
    assert.deepEqual(flags, ['62°', '13°', '116\u00a0kt', '+501\u00a0ft']);
    assert.deepEqual((await page.locator('.cell-sub').allTextContents()).slice(0, 2), ['right', 'down']);
    assert.equal(await textOf(page, '.next-label'), '135°');
    assert.equal(await textOf(page, '.next-seconds'), '2.5 s');
    assert.match(await textOf(page, 'ht-sight .strong'), /Point 19° left of the nose/);
    assert.equal(await page.locator('.marks .mark-met').count(), 1);
    assert.equal(await page.locator('.marks .mark-missed').count(), 1);
  },
);

fed(
  own,
  'a callout stands in the band and is told to a screen reader',
  { steps: ['station', 'level ready'] },
  async (page, server) => {
    await page.waitForSelector(faces.setup.ready);
    await server.do('fly 0 126'); // a usual voice begins it here
    await until(page, '.band-words', 'Roll out slowly');
    await until(page, 'ht-band [role="status"]', 'Roll out slowly');
  },
);

fed(
  own,
  'what was said after a leg is not left standing in the next',
  { steps: ['station', 'level ready', 'fly 0 179', 'finish'] },
  async (page, server) => {
    await page.waitForFunction(() => document.querySelector('ht-band [role="status"]')?.textContent !== '');
    await page.clock.install();
    await page.clock.fastForward(6000);
    await server.do('fly 0 20');
    // at once: soon nothing will have come for too long, and that stands there
    await page.waitForFunction(
      () => document.querySelector('ht-band[data-kind="idle"] .band-words')?.textContent === 'Up',
    );
  },
);

fed(
  own,
  'while it is not clear which maneuver is flown, nothing of one is shown',
  { steps: ['station', 'level ready', 'unclear 60'] },
  async (page, server) => {
    await until(page, '.pen-words', '60° turned');
    assert.equal(await textOf(page, '.title-name'), 'Whichever is flown');
    assert.equal(await page.locator('ht-ribbon .corridor').first().isVisible(), false);
    assert.equal(await textOf(page, '.next-label'), '');
    assert.match(await textOf(page, '.next-words'), /^Not clear yet/);
    await server.do('fly 61 100'); // it is clear
    await until(page, '.next-label', '135°');
    assert.equal(await textOf(page, '.title-name'), 'Wing-over');
    assert.equal(await page.locator('ht-ribbon .corridor').first().isVisible(), true);
  },
);

fed(
  own,
  'safety inverts the band and stays until it is over',
  { steps: ['station', 'level ready', 'fly 0 128'] },
  async (page, server) => {
    await page.waitForSelector('ht-band[data-kind="news"], ht-band[data-kind="old"]');
    const colors = () =>
      page.locator('ht-band').evaluate((n) => [getComputedStyle(n).backgroundColor, getComputedStyle(n).color]);
    const [paper, ink] = await colors();
    await server.do('safety');
    await page.waitForSelector(faces.safety.ready);
    assert.equal(await textOf(page, '.band-words'), 'Hard deck, climb');
    assert.equal(await textOf(page, 'ht-band [role="alert"]'), 'Safety: Hard deck, climb');
    const [back, fore] = await colors();
    assert.ok(back !== paper && fore !== ink && back === ink, `inverted: ${back} on ${fore}`);
    await server.do('fly 129 170');
    await until(page, '.pen-words', '170° turned');
    assert.equal(await textOf(page, '.band-words'), 'Hard deck, climb', 'other words do not take its place');
    await server.do('clear');
    await page.waitForSelector('ht-band:not([data-kind="safety"])');
  },
);

fed(
  own,
  'after a leg: verdict, score, what to change, worst first; then a pale copy',
  { steps: ['station', 'level ready', 'fly 0 179'] },
  async (page, server) => {
    await server.do('finish');
    await page.waitForSelector(faces.after.ready);
    const head = /^Not yet: Bank at 90°; 4 of 6 within limits; 1 of 7 checks not measured$/;
    assert.match(await textOf(page, '.verdict'), head);
    assert.match(await textOf(page, 'ht-debrief .score'), /^Fair, 7[01] of 100$/);
    assert.match(await textOf(page, '.change'), /Keep rolling to ninety/);
    const rows = await page.locator('.checks li').allTextContents();
    assert.equal(rows.length, 7);
    assert.match(rows[0], /Bank at 90°.*missed.*58°, wanted 75° \(65 to 85°\)/);
    assert.match(rows.at(-1), /not measured.*no ball/);
    assert.deepEqual(await page.locator('.written').allTextContents(), ['51°', '58°', '121\u00a0kt', '\u221216°']);
    const asked = page.waitForRequest(/\/drill$/);
    await page.locator('ht-debrief .drill').click();
    const drill = { maneuver: 'wing-over', standard: 'course', aircraft: 'turboprop-trainer', cause: 'underbanked' };
    assert.deepEqual((await asked).postDataJSON(), drill);
    await until(page, 'ht-debrief .task', 'Drill: 0 of 3 in a row');
    assert.equal(await page.locator('ht-debrief .drill').count(), 0, 'what is drilled is not offered again');
    await server.do('level ready', 'fly 0 60');
    await page.waitForSelector(faces.second.ready);
    await until(page, '.subtitle', 'leg 2 of 2');
  },
);

fed(
  own,
  'a series that ended without all its legs says which, until the next leg',
  { steps: ['station', 'level ready', 'fly 0 179', 'finish'] },
  async (page, server) => {
    await page.waitForSelector(faces.after.ready);
    assert.equal(await page.locator('ht-debrief .series').isVisible(), false);
    await server.do('incomplete');
    await until(
      page,
      'ht-debrief .series',
      'The series is not complete: 1 of 2 legs finished, one to the left is missing.',
    );
    await server.do('level ready', 'fly 0 179', 'finish');
    await page.waitForFunction(() => document.querySelector('ht-debrief .series')?.checkVisibility() === false);
  },
);

fed(
  own,
  'another plan is drawn on a clean sheet',
  { steps: ['station', 'level ready', 'fly 0 179', 'finish'] },
  async (page, server) => {
    await page.waitForSelector('.written');
    await server.do('plan lazy-eight Lazy eight');
    await until(page, '.title-name', 'Lazy eight');
    await page.waitForFunction(() => document.querySelectorAll('.written, .marks *').length === 0);
    assert.match(await textOf(page, 'ht-debrief h2'), /^Wing-over, leg 1 of 2/, 'its debrief stays to be read');
    await server.do('fly 0 20');
    await page.waitForSelector('main[data-mode="leg"]');
    assert.equal(await page.locator('.trace.pale[d^="M"]').count(), 0);
  },
);

fed(
  own,
  'choosing goes to the server; a refusal is told in words',
  {
    steps: ['station', 'level'],
    allow: ['422'],
  },
  async (page) => {
    await page.waitForSelector('#aircraft option[value="light-single"]', { state: 'attached' });
    const answered = page.waitForResponse((r) => r.url().endsWith('/choose') && r.ok());
    await page.selectOption('#aircraft', 'light-single');
    await answered;
    await page.waitForFunction(() => document.activeElement?.blur() ?? true);
    await page.waitForFunction(() => document.querySelector('#aircraft').value === 'light-single');
    await page.selectOption('#maneuver', 'lazy-eight');
    await until(page, 'ht-controls .control-error', 'choose wing-over');
    await page.waitForFunction(() => document.querySelector('#maneuver').value === 'wing-over');
    await page.selectOption('#maneuver', 'auto');
    await until(page, 'ht-gates', 'each leg counts for the one it fits');
    await page.waitForFunction(() => document.activeElement?.blur() ?? true);
    assert.equal(await page.locator('#maneuver').inputValue(), 'auto', 'the chooser says so, whatever is shown');
  },
);

fed(own, 'how the stream stands is in words', { steps: ['station', 'level'] }, async (page, server) => {
  await until(page, '.link-words', 'live\u00a0· 60 a second\u00a0· all channels');
  await server.do('missing ball rpm');
  await until(page, '.link-words', 'no ball and rpm');
  await until(page, '.link-words', 'stale since');
  await server.do('link paused');
  await until(page, '.link-words', 'paused since');
  await until(page, '.band-words', 'Paused');
  await server.do('link silent');
  await until(page, '.link-words', 'nothing heard since');
});

fed(own, 'what cannot be read comes with advice', { steps: [] }, async (page, server) => {
  await server.do('advice');
  await until(page, '.welcome-title', 'cannot be read');
  await until(page, 'ht-welcome .strong', 'Nothing in these datagrams can be read');
});

test('a lost server is told of, and found again', async () => {
  let server = await startFeed();
  await server.do('station', 'level');
  const { page, close } = await openPage(own.browser, server.url);
  await page.waitForSelector(faces.setup.ready);
  await server.stop();
  await until(page, '.link-words', 'lost Halfturn');
  server = await startFeed(new URL(server.url).host);
  await server.do('station Seat 4', 'level ready');
  await until(page, '.station-name', 'Seat 4');
  await until(page, '.link-words', 'live');
  await close();
  await server.stop();
});

fed(
  own,
  'several stations can be told apart and chosen',
  { steps: ['station Seat 1', 'level', 'station Seat 2', 'level'] },
  async (page) => {
    await until(page, '.station-name', 'Seat 1');
    await page.waitForSelector('#station option[value="Seat 2"]', { state: 'attached' });
    await page.selectOption('#station', 'Seat 2');
    await until(page, '.station-name', 'Seat 2');
    assert.equal(new URL(page.url()).searchParams.get('station'), 'Seat 2');
  },
);

fed(
  own,
  'sound starts with a click, is remembered, and says what is wrong with it',
  { steps: ['station', 'level'] },
  async (page) => {
    await until(page, '#sound-state', 'No sound');
    await page.click('#sound-check');
    await page.waitForSelector('ht-controls[data-sound="on"]');
    await until(page, '#sound-state', 'No voice on this machine: tones only');
    await page.reload();
    await page.waitForSelector('ht-controls[data-sound="blocked"], ht-controls[data-sound="on"]');
    await page.click('#mute');
    await page.waitForSelector('ht-controls[data-sound="off"]');
    await page.click('#settings');
    await page.selectOption('#words', 'checkpoints');
    await page.selectOption('#theme', 'dark');
    await page.reload();
    await page.waitForSelector('html[data-theme="dark"]');
    assert.equal(await page.locator('#words').inputValue(), 'checkpoints');
  },
);

test('callouts are spoken: safety cancels, and a passed point gets no words', async () => {
  const server = await startFeed();
  await server.do('station', 'level ready');
  const context = await own.browser.newContext();
  await context.addInitScript(() => {
    // A voice that notes what it is asked to say, and is never done.
    const said = [];
    const voice = { lang: 'en-US', localService: true, default: true, name: 'test', voiceURI: 'test' };
    Object.defineProperty(globalThis, 'said', { value: said });
    Object.defineProperty(globalThis, 'speechSynthesis', {
      value: {
        getVoices: () => [voice],
        addEventListener() {},
        speak: (u) => said.push(u.text),
        cancel: () => said.push('(cancel)'),
      },
    });
    globalThis.SpeechSynthesisUtterance = class extends EventTarget {
      constructor(text) {
        super();
        this.text = text;
      }
    };
  });
  const page = await context.newPage();
  await page.goto(server.url);
  await page.waitForSelector(faces.setup.ready);
  await server.do('fly 0 36'); // a usual voice begins it here
  await until(page, '.band-words', 'Nose high');
  assert.deepEqual(await page.evaluate(() => said), [], 'silent until asked for');
  await page.click('#sound-check');
  await page.waitForSelector('ht-controls[data-sound="on"]');
  // flown in no time: a cue may be in time yet and take the place of the check; a point that was passed gets no words
  await server.do('fly 37 95');
  await until(page, '.band-words', 'More bank');
  await server.do('safety');
  await page.waitForSelector(faces.safety.ready);
  const spoken = await page.evaluate(() => said);
  assert.deepEqual(spoken.slice(0, 2), ['(cancel)', 'Halfturn speaks. Nose highest, bank growing.']);
  assert.deepEqual(spoken.slice(-2), ['(cancel)', 'Hard deck, climb']);
  assert.ok(!spoken.some((words) => words.startsWith('More bank')), spoken.join(' · '));
  await context.close();
  await server.stop();
});

fed(
  own,
  'the keyboard reaches every choice, and the focus is seen',
  { steps: ['station', 'level'] },
  async (page) => {
    await page.waitForSelector('#aircraft option[value="light-single"]', { state: 'attached' });
    const wanted = ['line-clear', 'line-distance', 'maneuver', 'standard', 'aircraft', 'sound-check', 'settings'];
    const seen = [];
    for (let i = 0; i < 30; i++) {
      await page.keyboard.press('Tab');
      const at = await page.evaluate(() => {
        const n = document.activeElement;
        return { id: n?.id || n?.className || '', outline: n ? getComputedStyle(n).outlineStyle : '' };
      });
      assert.equal(at.outline, 'solid', `${at.id} shows its focus`);
      seen.push(at.id);
      if (at.id === 'settings') break;
    }
    assert.deepEqual(
      seen.filter((id) => wanted.includes(id)),
      wanted,
    );
  },
);

fed(
  own,
  'nothing is drawn when nothing has changed',
  { steps: ['station', 'level ready', 'fly 0 90'] },
  async (page, server) => {
    await until(page, '.pen-words', '90° turned');
    await server.do('link paused'); // ages stand still too, but for those in words
    await until(page, '.link-words', 'paused');
    const changes = await page.evaluate(async () => {
      let count = 0;
      const watch = new MutationObserver((list) => {
        count += list.length;
      });
      watch.observe(document.querySelector('ht-ribbon'), {
        subtree: true,
        childList: true,
        attributes: true,
        characterData: true,
      });
      await new Promise((resolve) => setTimeout(resolve, 1500));
      watch.disconnect();
      return count;
    });
    assert.equal(changes, 0);
  },
);

fed(
  own,
  'the page holds no inline script or style, and none can run',
  {
    steps: ['station', 'level'],
    allow: ['Executing inline script violates'],
  },
  async (page) => {
    const html = await (await page.request.get(page.url())).text();
    assert.doesNotMatch(html, /<script(?![^>]*\bsrc=)|<style|\sstyle=|\son\w+=/i);
    const ran = await page.evaluate(() => {
      const script = document.createElement('script');
      script.textContent = 'globalThis.ran = true';
      document.head.append(script);
      return globalThis.ran === true;
    });
    assert.equal(ran, false);
  },
);

for (const [name, face] of Object.entries(faces)) {
  fed(own, `nothing stands in anybody’s way: ${name}`, { steps: face.steps }, async (page) => {
    await page.waitForSelector(face.ready);
    await nothingInTheWay(page);
  });
}
