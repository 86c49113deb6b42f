// Speech and tones, by what the browser has. It knows nothing of flying: pure/voice.js says
// what is to be heard.

/** @import { Callout, CalloutKind } from './types.d.ts' */
/** @import { SoundState, Wordiness } from './view.d.ts' */

import { decide, tones } from './pure/voice.js';

/** Safety tones come again at this pace, ms, until it is over (where there is no voice). */
const alarmEvery = 1200;

export class Sound {
  /** @type {AudioContext | null} */ #audio = null;
  /** @type {SpeechSynthesisVoice | null} */ #voice = null;
  /** @type {CalloutKind | null} */ #speaking = null;
  /** @type {Callout | null} */ #waiting = null;
  /** @type {ReturnType<typeof setInterval> | undefined} */ #alarm;
  #wanted = false;
  #changed;

  /** @param {() => void} changed called when state or voice may differ */
  constructor(changed) {
    this.#changed = changed;
    const voices = () => {
      this.#voice = pickVoice();
      changed();
    };
    globalThis.speechSynthesis?.addEventListener?.('voiceschanged', voices);
    this.#voice = pickVoice();
  }

  /** Whether there is a voice. */
  get voice() {
    return this.#voice !== null;
  }

  /** @returns {SoundState} */
  get state() {
    if (!this.#wanted) return 'off';
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
    this.#say('Sound check', 'cue');
  }

  /**
   * Says or sounds a callout.
   * @param {Callout} callout
   * @param {Wordiness} words
   * @param {number} age seconds since it was due
   */
  call(callout, words, age) {
    if (callout.kind === 'clear') this.#quiet();
    if (!this.#wanted) return;
    const order = decide(callout, { words, age, speaking: this.#speaking, voice: this.voice });
    if (order.cancel) this.#stopSpeech();
    if (order.wait) {
      this.#waiting = order.say === '' ? null : callout;
      return;
    }
    if (order.tone !== '') this.#tone(order.tone);
    if (order.tone === 'safety') {
      this.#quiet();
      this.#alarm = setInterval(() => this.#tone('safety'), alarmEvery);
    }
    if (order.say !== '') this.#say(order.say, callout.kind);
  }

  /** @param {string} words @param {CalloutKind} kind */
  #say(words, kind) {
    const synth = globalThis.speechSynthesis;
    if (!synth || !this.#voice) return;
    const utterance = new SpeechSynthesisUtterance(words);
    utterance.voice = this.#voice;
    utterance.lang = this.#voice.lang;
    utterance.rate = kind === 'safety' ? 1.2 : 1.1;
    utterance.pitch = kind === 'safety' ? 1.3 : 1; // unlike routine speech (NUREG-0700)
    const over = () => {
      if (this.#utterance !== utterance) return;
      this.#speaking = null;
      const next = this.#waiting;
      this.#waiting = null;
      if (next) this.#say(next.words, next.kind);
    };
    utterance.addEventListener('end', over);
    utterance.addEventListener('error', over);
    this.#utterance = utterance;
    this.#speaking = kind;
    synth.speak(utterance);
  }

  /** Kept, or some browsers forget to say when it has ended. @type {SpeechSynthesisUtterance | null} */
  #utterance = null;

  #stopSpeech() {
    this.#waiting = null;
    this.#speaking = null;
    this.#utterance = null;
    globalThis.speechSynthesis?.cancel();
  }

  #quiet() {
    clearInterval(this.#alarm);
  }

  #hush() {
    this.#quiet();
    this.#stopSpeech();
  }

  /** @param {'met' | 'missed' | 'safety'} name */
  #tone(name) {
    const audio = this.#audio;
    if (!audio || audio.state !== 'running') return;
    for (const note of tones[name]) {
      const at = audio.currentTime + note.at;
      const tone = audio.createOscillator();
      const level = audio.createGain();
      tone.type = name === 'met' ? 'sine' : 'triangle';
      tone.frequency.setValueAtTime(note.from, at);
      tone.frequency.linearRampToValueAtTime(note.to, at + note.length);
      level.gain.setValueAtTime(0, at);
      level.gain.linearRampToValueAtTime(0.35, at + 0.012); // no click
      level.gain.setValueAtTime(0.35, at + note.length - 0.02);
      level.gain.linearRampToValueAtTime(0, at + note.length);
      tone.connect(level).connect(audio.destination);
      tone.start(at);
      tone.stop(at + note.length);
    }
  }
}

/** An English voice, of this machine if there is one. @returns {SpeechSynthesisVoice | null} */
function pickVoice() {
  const voices = globalThis.speechSynthesis?.getVoices() ?? [];
  const english = voices.filter((v) => v.lang.toLowerCase().startsWith('en'));
  return english.find((v) => v.localService && v.default) ?? english.find((v) => v.localService) ?? english[0] ?? null;
}
