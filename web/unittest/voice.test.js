import assert from 'node:assert/strict';
import { test } from 'node:test';
import { backoff } from '../static/pure/backoff.js';
import { decide, late, readOf, tones, whoWords, wordsOf } from '../static/pure/voice.js';
import { clean } from '../static/settings.js';

const silence = { cancel: false, say: '', tone: '', wait: false };
const c = (kind, more = {}) => ({ time: 0, kind, id: 'x', words: 'some words', tone: '', turn: 0, ...more });
const now = (more = {}) => ({ words: 'full', age: 0, speaking: null, voice: true, ...more });

test('safety cancels everything, whatever the wish for words, however late', () => {
  for (const words of ['tones', 'checkpoints', 'full', 'ear']) {
    for (const speaking of [null, 'safety', 'after', 'cue', 'result']) {
      assert.deepEqual(decide(c('safety'), now({ words, speaking, age: 60 })), {
        cancel: true,
        say: 'some words',
        tone: '',
        wait: false,
      });
    }
  }
});

test('safety without a voice is a tone', () => {
  assert.deepEqual(decide(c('safety'), now({ voice: false })), { cancel: true, say: '', tone: 'safety', wait: false });
});

test('a clear ends safety words only', () => {
  assert.equal(decide(c('clear'), now({ speaking: 'safety' })).cancel, true);
  assert.deepEqual(decide(c('clear'), now({ speaking: 'cue' })), silence);
});

test('what is late is dropped', () => {
  for (const kind of ['after', 'cue', 'result']) assert.deepEqual(decide(c(kind), now({ age: late + 0.1 })), silence);
});

test('a growing error is said over all but safety, never queued', () => {
  for (const speaking of ['watch', 'cue', 'after', 'result', 'next', 'set-up', 'again']) {
    assert.deepEqual(decide(c('watch'), now({ speaking })), { ...silence, cancel: true, say: 'some words' }, speaking);
  }
  assert.deepEqual(decide(c('watch'), now({ speaking: 'safety' })), silence);
});

test('a clear that takes back a cue ends no safety words', () => {
  assert.deepEqual(decide(c('clear', { id: 'cue-90' }), now({ speaking: 'safety' })), silence);
});

test('what is for the next leg says so, also once more', () => {
  assert.equal(wordsOf(c('next', { words: 'More bank' })), 'Next time: More bank');
  assert.equal(wordsOf(c('again', { id: 'next', words: 'More bank' })), 'Next time: More bank');
  assert.equal(wordsOf(c('again', { id: 'watch', words: 'More bank' })), 'More bank');
  assert.equal(wordsOf(c('clear', { words: '' })), '');
});

test('what a person says is spoken as it is written, and read after their name', () => {
  const said = c('said', { words: '<b>Level on 3 6 0</b>', by: 'Mo Example', phrase: { code: 'x', text: 'y' } });
  assert.equal(wordsOf(said), '<b>Level on 3 6 0</b>');
  assert.equal(readOf(said), 'Mo Example: <b>Level on 3 6 0</b>');
  assert.equal(readOf(c('again', { id: 'said', words: 'Good', by: 'owner' })), 'the owner: Good');
  assert.equal(readOf(c('safety', { words: 'Knock it off', by: 'Mo' })), 'Mo: Knock it off');
  assert.equal(whoWords('Mo'), 'Mo');
});

test('nothing speaks over safety', () => {
  for (const kind of ['after', 'cue']) {
    assert.deepEqual(decide(c(kind, { tone: 'met' }), now({ speaking: 'safety' })), silence);
  }
  assert.deepEqual(
    decide(c('result'), now({ speaking: 'safety' })),
    { ...silence, say: 'some words', wait: true },
    'why it was stopped is said after',
  );
});

test('a cue takes the place of a result, not of a growing error', () => {
  assert.deepEqual(decide(c('cue'), now({ speaking: 'result' })), { ...silence, cancel: true, say: 'some words' });
  assert.equal(decide(c('cue'), now({ speaking: 'watch' })).say, '');
});

test('a result waits', () => {
  assert.deepEqual(decide(c('result'), now({ speaking: 'cue' })), { ...silence, say: 'some words', wait: true });
});

test('how wordy', () => {
  const said = (kind, words) => decide(c(kind, { tone: 'missed' }), now({ words }));
  assert.deepEqual(said('after', 'full'), { ...silence, say: 'some words' }, 'words, so no tone');
  assert.deepEqual(said('set-up', 'full'), { ...silence, tone: 'missed' }, 'for those who fly by ear');
  assert.deepEqual(said('set-up', 'ear'), { ...silence, say: 'some words' });
  assert.deepEqual(said('again', 'tones'), { ...silence, say: 'some words' }, 'what was asked for');
  assert.deepEqual(said('after', 'checkpoints'), { ...silence, tone: 'missed' });
  assert.deepEqual(said('cue', 'checkpoints'), { ...silence, say: 'some words' });
  assert.deepEqual(said('after', 'tones'), { ...silence, tone: 'missed' });
  assert.deepEqual(decide(c('after', { words: '', tone: 'met' }), now()), { ...silence, tone: 'met' });
});

// MIL-STD-1472E, 5.3.3.1.1: 500 to 3,000 Hz is where tones are heard best; 5.3.4.3.3: the
// first 0.5 s of each signal must be unlike that of every other.
test('tones lie within 500 to 3,000 Hz and differ in their first half second', () => {
  const starts = new Set();
  for (const notes of Object.values(tones)) {
    for (const n of notes) for (const f of [n.from, n.to]) assert.ok(f >= 500 && f <= 3000, `${f} Hz`);
    assert.ok(notes.some((n) => n.at < 0.5));
    starts.add(notes.filter((n) => n.at < 0.5).map((n) => `${n.at} ${Math.sign(n.to - n.from)} ${n.from}`).join());
  }
  assert.equal(starts.size, 3);
});

test('the wait doubles, strays, and ends at ten seconds', () => {
  assert.equal(backoff(0, 0.5), 400);
  assert.equal(backoff(1, 0.5), 800);
  assert.equal(backoff(0, 0), 200);
  assert.ok(backoff(0, 0.999) < 601);
  assert.equal(backoff(100, 0.5), 2_000);
});

test('settings of any kind are cleaned', () => {
  const plain = {
    sound: false,
    words: 'full',
    theme: 'auto',
    language: 'en',
    units: 'aviation',
    voice: '',
    rate: 1.1,
    volume: 1,
    measured: {},
    buttons: {},
  };
  assert.deepEqual(clean(null), plain);
  assert.deepEqual(
    clean({
      sound: true,
      words: 'tones',
      theme: 'contrast',
      language: 'de',
      units: 'metric',
      voice: 'x',
      rate: 0.8,
      volume: 0.5,
      measured: { 'x 1': 0.2, y: 'z' },
      more: 1,
    }),
    {
      sound: true,
      words: 'tones',
      theme: 'contrast',
      language: 'de',
      units: 'metric',
      voice: 'x',
      rate: 0.8,
      volume: 0.5,
      measured: { 'x 1': 0.2 },
      buttons: {},
    },
  );
  assert.deepEqual(
    clean({
      sound: 'yes',
      words: 7,
      theme: {},
      language: 'xx',
      units: 1,
      voice: 3,
      rate: 99,
      volume: -1,
      measured: 4,
    }),
    plain,
  );
});
