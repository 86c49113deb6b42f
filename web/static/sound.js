// Speech and tones, by what the browser has. It knows nothing of flying: pure/voice.js says
// what is to be heard.

/** @import { Callout, CalloutKind, Frame } from './types.d.ts' */
/** @import { Settings, SoundState, Spoken } from './view.d.ts' */

import { decideCue, lengthOf, refined } from './pure/schedule.js';
import { t } from './pure/text.js';
import { decide, ofCue, patience, readOf, tones, wordsOf, yields } from './pure/voice.js';

/** Safety tones come again at this pace, ms, until it is over (where there is no voice). */
const alarmEvery = 1200;

/**
 * A cue whose words and checkpoint are to be compared: when the words ended, and when the checkpoint was passed.
 * @typedef {{ entry: Spoken, to: number, ended: number | null, crossed: number | null }} Compared
 */

/** @typedef {{ callout: Callout, came: number }} Waiting came: as performance.now() */

export class Sound {
  /** @type {AudioContext | null} */ #audio = null;
  /** @type {SpeechSynthesisVoice | null} */ #voice = null;
  /** @type {CalloutKind | null} */ #speaking = null;
  /** What is to be said when what is being said has ended, and when it came. @type {Waiting[]} */ #waiting = [];
  /** What was said last. @type {Callout | null} */ #last = null;
  /** @type {ReturnType<typeof setInterval> | undefined} */ #alarm;
  /** @type {ReturnType<typeof setTimeout> | undefined} */ #watchdog;
  /** Cues that wait for their time. @type {Callout[]} */ #cues = [];
  /** The cues whose words and checkpoint are to be compared. @type {Compared[]} */ #compared = [];
  /** @type {Spoken[]} */ #log = [];
  /** Seconds a phrase took this voice, heard here. @type {Map<string, number>} */ #lengths = new Map();
  #number = 0;
  #wanted = false;
  #changed;
  #settings;
  #measured;
  #clock = () => 0;

  /**
   * @param {() => void} changed called when state or voice may differ
   * @param {() => Settings} settings
   * @param {(measured: Settings['measured']) => void} measured called when a voice's pace is known better
   */
  constructor(changed, settings, measured) {
    this.#changed = changed;
    this.#settings = settings;
    this.#measured = measured;
    globalThis.speechSynthesis?.addEventListener?.('voiceschanged', () => this.choose());
  }

  /** Takes the voice the settings ask for. */
  choose() {
    const { language, voice } = this.#settings();
    const before = this.#voice;
    this.#voice = pickVoice(language, voice);
    if (before !== this.#voice) this.#lengths.clear();
    this.#changed();
  }

  /** The names of the voices of the chosen language. */
  get voices() {
    return voicesOf(this.#settings().language).map((v) => v.name);
  }

  /** What was said and dropped, the latest last. */
  get said() {
    return this.#log;
  }

  /** Whether there is a voice. */
  get voice() {
    return this.#voice !== null;
  }

  /** @returns {SoundState} */
  get state() {
    if (!this.#wanted) return 'off';
    if (!globalThis.AudioContext) return this.voice ? 'on' : 'none';
    return this.#audio?.state === 'running' ? 'on' : 'blocked';
  }

  /** Turns sound on or off. Without a click the browser may hold it back. @param {boolean} on */
  want(on) {
    if (!on && this.#wanted) this.#hush();
    this.#wanted = on;
    if (on) this.unlock();
    this.#changed();
  }

  /** Tries to start the audio; works once the user has pressed something. */
  unlock() {
    // Before the user has touched the page the browser would refuse, and complain.
    if (!this.#wanted || navigator.userActivation?.hasBeenActive === false) return;
    if (!globalThis.AudioContext) return;
    if (!this.#audio) {
      this.#audio = new AudioContext();
      this.#audio.addEventListener('statechange', () => this.#changed());
    }
    if (this.#audio.state !== 'running') void this.#audio.resume().catch(() => undefined);
  }

  /** Lets the user hear that it works. */
  check() {
    this.want(true);
    this.#tone('met');
    this.#stopSpeech();
    this.#say(t('Halfturn speaks. Nose highest, bank growing.'), 'result', null);
    const words = t('Ninety degrees. Roll out slowly.');
    this.#wait({ time: 0, kind: 'result', id: 'sound-check', words, tone: '', turn: 0 });
  }

  /**
   * Says or sounds a callout, or keeps a cue until its time.
   * @param {Callout} callout
   * @param {number} age seconds since it was due
   */
  call(callout, age) {
    if (ofCue(callout)) return this.#takeBack(callout.id);
    if (callout.kind === 'clear') this.#quiet();
    if (!this.#wanted) return void this.#note(callout, 'unwanted');
    const { words } = this.#settings();
    if (callout.kind === 'cue' && callout.due !== undefined) {
      if (words === 'tones' || !this.voice) return void this.#note(callout, 'unwanted');
      this.#cues = [...this.#cues.filter((c) => c.id !== callout.id), callout].slice(-8);
      return;
    }
    const order = decide(callout, { words, age, speaking: this.#speaking, voice: this.voice });
    if (order.cancel) this.#stopSpeech(callout.kind === 'safety');
    if (order.wait) {
      if (order.say !== '') this.#wait(callout);
      else if (callout.words !== '') this.#note(callout, 'unwanted');
      return;
    }
    if (order.tone !== '') this.#tone(order.tone);
    if (callout.kind === 'safety') this.#alert(order.tone === 'safety');
    if (order.say !== '') this.#speak(callout);
    else if (callout.words !== '' && order.tone === '') this.#note(callout, this.#speaking ? 'gave-way' : 'unwanted');
  }

  /** @param {Callout} callout */
  #wait(callout) {
    this.#waiting = [...this.#waiting, { callout, came: performance.now() }].slice(-8);
  }

  /** Says the next that waits; what a person said is of its moment. */
  #next() {
    for (;;) {
      const next = this.#waiting.shift();
      if (!next) return;
      const { callout, came } = next;
      if (callout.kind !== 'said' || performance.now() - came <= patience * 1000) return void this.#speak(callout);
      this.#note(callout, 'late');
    }
  }

  /** Says a callout. @param {Callout} callout */
  #speak(callout) {
    const entry = callout.id === 'sound-check' ? null : this.#note(callout, 'spoken');
    if (callout.kind !== 'again' && entry) this.#last = callout;
    this.#say(wordsOf(callout), callout.kind, entry);
    return entry;
  }

  /** Says what was said last once more; false when nothing was. */
  again() {
    const last = this.#last;
    if (!last || !this.#wanted || !this.voice) return false;
    this.call({ ...last, kind: 'again', id: last.kind, tone: '' }, 0);
    return true;
  }

  /** Drops a cue that is not to be said any more. @param {string} id */
  #takeBack(id) {
    for (const cue of this.#cues) if (cue.id === id) this.#note(cue, 'gave-way');
    this.#cues = this.#cues.filter((c) => c.id !== id);
  }

  /** Nothing else is of use now. Without a voice the tone comes again. @param {boolean} again */
  #alert(again) {
    this.#quiet();
    for (const cue of this.#cues) this.#note(cue, 'gave-way');
    this.#cues = [];
    if (again) this.#alarm = setInterval(() => this.#tone('safety'), alarmEvery);
    else this.#tone('safety');
  }

  /** Whether a cue waits, or is to be compared with its checkpoint. */
  get waiting() {
    return this.#cues.length + this.#compared.length > 0;
  }

  /**
   * Begins the cues whose time has come and drops those it has left behind.
   * @param {Frame | null} frame the latest
   * @param {() => number} since seconds of flight since it came
   * @param {number} [pace] seconds of flight a second
   */
  tick(frame, since, pace = 1) {
    this.#clock = () => (frame?.time ?? 0) + since();
    this.#compare(frame);
    for (const cue of this.#cues) {
      const words = wordsOf(cue);
      const what = decideCue(cue, frame, since(), this.#length(words) * pace);
      if (what === 'wait' || (what === 'start' && this.#speaking !== null && !yields(this.#speaking))) continue;
      this.#cues = this.#cues.filter((c) => c !== cue);
      if (what !== 'start') {
        this.#note(cue, what);
        continue;
      }
      if (this.#speaking) this.#stopSpeech();
      const entry = this.#speak(cue);
      if (entry && cue.to !== undefined) this.#compared.push({ entry, to: cue.to, ended: null, crossed: null });
    }
  }

  /** @param {Frame | null} frame */
  #compare(frame) {
    if (!frame) return;
    const flying = frame.state === 'turn' || frame.state === 'leg';
    for (const c of this.#compared) {
      if (c.crossed === null && (frame.turn >= c.to || !flying)) c.crossed = frame.time;
      if (c.crossed !== null && c.ended !== null) c.entry.off = Math.round((c.ended - c.crossed) * 100) / 100;
    }
    const open = this.#compared.filter((c) => c.entry.off === undefined && c.entry.what === 'spoken');
    if (open.length !== this.#compared.length) {
      this.#compared = open.slice(-8);
      this.#log = [...this.#log];
      this.#changed();
    }
  }

  /** @param {Callout} callout @param {Spoken['what']} what @returns {Spoken} */
  #note(callout, what) {
    /** @type {Spoken} */
    const entry = { number: ++this.#number, kind: callout.kind, id: callout.id, words: listed(callout), what };
    if (callout.words !== '') this.#log = [...this.#log, entry].slice(-60);
    this.#changed();
    return entry;
  }

  get #key() {
    return `${this.#voice?.name ?? ''} ${this.#settings().rate}`;
  }

  /** @param {string} words */
  #length(words) {
    const { rate, measured } = this.#settings();
    return this.#lengths.get(`${rate} ${words}`) ?? lengthOf(words, rate, measured[this.#key]);
  }

  /** @param {string} words @param {CalloutKind} kind @param {Spoken | null} entry */
  #say(words, kind, entry) {
    const synth = globalThis.speechSynthesis;
    if (!synth || !this.#voice) return;
    const { rate, volume, measured } = this.#settings();
    const utterance = new SpeechSynthesisUtterance(words);
    utterance.voice = this.#voice;
    utterance.lang = this.#voice.lang;
    utterance.volume = kind === 'safety' ? 1 : volume;
    utterance.rate = kind === 'safety' ? Math.min(2, rate * 1.1) : rate;
    utterance.pitch = kind === 'safety' ? 1.3 : 1; // unlike routine speech (NUREG-0700)
    const key = this.#key;
    const began = performance.now();
    const over = (/** @type {boolean} */ heard) => {
      if (this.#utterance !== utterance) return;
      clearTimeout(this.#watchdog);
      this.#utterance = null;
      this.#speaking = null;
      const took = (performance.now() - began) / 1000;
      if (heard && kind !== 'safety' && took > 0.1) {
        this.#measured({
          ...measured,
          ...this.#settings().measured,
          [key]: refined(this.#settings().measured[key], words, took),
        });
        if (this.#lengths.size > 200) this.#lengths.clear();
        this.#lengths.set(`${rate} ${words}`, took);
      }
      const now = this.#clock();
      for (const c of this.#compared) if (c.entry === entry) c.ended = now;
      this.#next();
    };
    utterance.addEventListener('end', () => over(true));
    utterance.addEventListener('error', () => over(false));
    this.#utterance = utterance;
    this.#entry = entry;
    this.#speaking = kind;
    // Some voices never say that they have ended.
    this.#watchdog = setTimeout(() => over(false), 3000 + 2000 * this.#length(words));
    synth.speak(utterance);
  }

  /** What became of what is being said. @type {Spoken | null} */
  #entry = null;

  /** Kept, or some browsers forget to say when it has ended. @type {SpeechSynthesisUtterance | null} */
  #utterance = null;

  /** @param {boolean} [safety] it interrupts: what a person says waits for it */
  #stopSpeech(safety = false) {
    const kept = this.#waiting.filter(({ callout }) => safety && callout.kind === 'said');
    for (const w of this.#waiting) {
      if (!kept.includes(w) && w.callout.id !== 'sound-check') this.#note(w.callout, 'gave-way');
    }
    if (this.#speaking && this.#entry) this.#entry.what = 'gave-way';
    clearTimeout(this.#watchdog);
    this.#waiting = kept;
    this.#speaking = null;
    this.#utterance = null;
    globalThis.speechSynthesis?.cancel();
  }

  #quiet() {
    clearInterval(this.#alarm);
  }

  #hush() {
    this.#quiet();
    for (const cue of this.#cues) this.#note(cue, 'unwanted');
    this.#cues = [];
    this.#stopSpeech();
  }

  /** @param {'met' | 'missed' | 'safety'} name */
  #tone(name) {
    const audio = this.#audio;
    if (!audio || audio.state !== 'running') return;
    const loud = 0.35 * (name === 'safety' ? 1 : Math.max(0.001, this.#settings().volume));
    for (const note of tones[name]) {
      const at = audio.currentTime + note.at;
      const tone = audio.createOscillator();
      const level = audio.createGain();
      tone.type = name === 'met' ? 'sine' : 'triangle';
      tone.frequency.setValueAtTime(note.from, at);
      tone.frequency.linearRampToValueAtTime(note.to, at + note.length);
      level.gain.setValueAtTime(0, at);
      level.gain.linearRampToValueAtTime(loud, at + 0.012); // no click
      level.gain.setValueAtTime(loud, at + note.length - 0.02);
      level.gain.linearRampToValueAtTime(0, at + note.length);
      tone.connect(level).connect(audio.destination);
      tone.start(at);
      tone.stop(at + note.length);
    }
  }
}

/** What the list of what was said has of a callout: with who said it. @param {Callout} callout */
const listed = (callout) => (callout.by ? readOf(callout) : wordsOf(callout));

/** The voices of a language, those of this machine first. @param {string} language */
function voicesOf(language) {
  const voices = (globalThis.speechSynthesis?.getVoices() ?? []).filter((v) =>
    v.lang.toLowerCase().startsWith(language),
  );
  const order = (/** @type {SpeechSynthesisVoice} */ v) => (v.localService ? 0 : 2) + (v.default ? 0 : 1);
  return voices.sort((a, b) => order(a) - order(b));
}

/** @param {string} language @param {string} name @returns {SpeechSynthesisVoice | null} */
function pickVoice(language, name) {
  const voices = voicesOf(language);
  return voices.find((v) => v.name === name) ?? voices[0] ?? null;
}
