// The session being flown: who flies, whether it is recorded, its end by a touch. While a leg is flown only what is
// wrong shows.

/** @import { Phrase } from '../types.d.ts' */
/** @import { State } from '../view.d.ts' */

import { attr, h, show, text } from '../dom.js';
import { inTurn } from '../pure/store.js';
import { told } from '../pure/phrase.js';
import { shareWords } from '../pure/share.js';
import { language, t } from '../pure/text.js';
import { mark } from './mark.js';
import { WhoFlies } from './student.js';

if (!customElements.get('ht-student')) customElements.define('ht-student', WhoFlies);

export class LiveSession extends HTMLElement {
  #who = /** @type {WhoFlies} */ (document.createElement('ht-student'));
  #recording = h('p', { class: 'recording', role: 'status' });
  #broken = mark('missed');
  #words = h('span');
  #shared = h('p', { class: 'shared', role: 'status' });
  #end = h('button', { type: 'button', id: 'end-session' });
  #debrief = h('a', { id: 'to-debrief' });
  #error = h('p', { class: 'control-error', role: 'alert' });
  #next = h('div', { class: 'session-next' });
  #built = '';

  connectedCallback() {
    if (this.firstChild) return;
    attr(this.#broken, 'aria-hidden', 'true');
    this.#recording.append(this.#broken, this.#words);
    this.append(this.#next, this.#who, this.#recording, this.#shared, this.#debrief, this.#end, this.#error);
    attr(this, 'role', 'region');
    this.#end.addEventListener('click', () => this.dispatchEvent(new CustomEvent('end')));
    this.#who.addEventListener('student', (e) =>
      this.dispatchEvent(new CustomEvent('student', { detail: /** @type {CustomEvent} */ (e).detail })),
    );
  }

  /** Shows what to fly next in a course. @param {HTMLElement | null} node */
  next(node) {
    if (this.#next.firstChild !== node) this.#next.replaceChildren(...(node ? [node] : []));
  }

  #name() {
    this.#built = language();
    attr(this, 'aria-label', t('Session'));
    text(this.#end, t('End the session'));
    text(this.#debrief, t('Debrief'));
  }

  /** @param {State} state @param {{ students: readonly string[], error: string }} context */
  update(state, { students, error }) {
    const { info, frame } = state;
    const failing = info?.recording === 'failing';
    const live = info !== null && info.link !== 'replaying';
    const flying = frame !== null && inTurn(frame);
    show(this, live && info.recording !== '' && (failing || !flying));
    if (!live || info.recording === '') return;
    if (this.#built !== language()) this.#name();
    show(this.#who, !flying);
    show(this.#next, !flying);
    this.#who.update(info.student, students);
    attr(this, 'data-recording', info.recording);
    show(this.#broken, failing);
    text(this.#words, recordingWords(info.recording, info.recordingWords));
    text(this.#shared, flying ? '' : shareWords(info.share));
    show(this.#shared, !flying && info.share !== undefined);
    const session = info.session || info.ended;
    show(this.#end, info.session !== '' && !flying);
    show(this.#debrief, session !== '' && !flying);
    attr(this.#debrief, 'href', `sessions/${encodeURIComponent(session)}`);
    text(this.#error, error || (info.trouble ? told(info.trouble) : ''));
  }
}

/** @param {'on' | 'off' | 'failing' | 'resting'} recording @param {Phrase} why */
function recordingWords(recording, why) {
  if (recording === 'failing') {
    return why === '' ? t('Nothing is being recorded') : t('Nothing is being recorded: {why}', { why: told(why) });
  }
  if (recording === 'resting') return t('The session is over; the next one begins with a maneuver');
  return recording === 'on' ? t('recorded') : t('not recorded');
}
