// The whole panel of one station beside the board: its ribbon and margins, and the instructor’s hand.

/** @import { Cards, Message } from '../types.d.ts' */
/** @import { Link, State } from '../view.d.ts' */
/** @import { Moment } from './markings.js' */

import { post } from '../api.js';
import { attr, h, show, text } from '../dom.js';
import { LiveLink } from '../link.js';
import { capital, number, stationWords, verdictWords } from '../pure/format.js';
import { actedWords } from '../pure/company.js';
import { current, hint, linkWords, unclear } from '../pure/mode.js';
import { told } from '../pure/phrase.js';
import { beforeVerdict, empty, inTurn, lastHere, reduce, withLink } from '../pure/store.js';
import { cardText, language, t } from '../pure/text.js';
import { readOf } from '../pure/voice.js';
import { Margins } from './margins.js';
import { Markings } from './markings.js';
import { StationOrders } from './orders.js';
import { Ribbon } from './ribbon.js';
import { Say } from './say.js';

for (const [name, made] of /** @type {const} */ ([['ht-ribbon', Ribbon], ['ht-margins', Margins]])) {
  if (!customElements.get(name)) customElements.define(name, made);
}

/** How long words are of now, ms. */
const fresh = 5000;

export class OpenedStation extends HTMLElement {
  /** @type {State} */ #state = empty(Date.now());
  #station = '';
  #name = h('h2', { tabindex: -1 });
  #sub = h('p', { class: 'soft' });
  #link = h('p', { class: 'small', role: 'status' });
  #full = h('a', {});
  #close = h('button', { type: 'button', id: 'close-station' });
  #sound = h('button', { type: 'button', id: 'station-sound', 'aria-pressed': 'false' });
  #box = h('p', { class: 'opened-box', role: 'status' });
  #verdict = h('p', { class: 'opened-verdict' });
  #ribbon = new Ribbon();
  #margins = new Margins();
  #say = new Say();
  #moments = new Markings();
  #orders = new StationOrders();
  #stopTitle = h('span', { class: 'stop-title' });
  #stopWords = h('span', { class: 'stop-words' });
  #stop = h('button', { type: 'button', id: 'knock-it-off' },
    h('span', { class: 'stop-end', 'aria-hidden': 'true' }),
    h('span', { class: 'stop-middle' }, this.#stopTitle, this.#stopWords),
    h('span', { class: 'stop-end', 'aria-hidden': 'true' }));
  #stopError = h('p', { class: 'control-error', role: 'alert' });
  #built = '';
  #live = new LiveLink({
    position: () => ({ seq: this.#state.seq, run: this.#state.run }),
    message: (message) => this.#take(message),
    link: (link) => this.#linked(link),
  });
  /** Asks for a drawing. */
  onneed = () => {};
  /** Asks for the sound of the station to be turned on or off. */
  onsound = () => {};

  connectedCallback() {
    if (this.firstChild) return;
    this.append(
      h('div', { class: 'opened-head' }, this.#name, this.#full, this.#close), this.#sub, this.#link,
      this.#ribbon, this.#verdict, this.#box, this.#margins,
      this.#orders, this.#sound,
      h('div', { class: 'opened-hand' }, this.#say, this.#moments, this.#stop, this.#stopError),
    );
    this.#close.addEventListener('click', () => this.dispatchEvent(new Event('shut')));
    this.#sound.addEventListener('click', () => this.onsound());
    this.#say.onsay = (say) => this.#ask('say', { say });
    this.#moments.onmark = () => this.#mark();
    this.#moments.onwrite = (moment, words) => this.#write(moment, words);
    this.#orders.onorder = (command, body) => this.#ask(command, body);
    this.#stop.addEventListener('click', async () => {
      attr(this.#stop, 'data-pressed', 'true');
      text(this.#stopError, await this.#ask('stop', {}));
      setTimeout(() => attr(this.#stop, 'data-pressed', null), fresh);
    });
  }

  /** The station that is open, '' for none. */
  get station() {
    return this.#station;
  }

  /** Opens a station. @param {string} station */
  open(station) {
    if (station === this.#station) return;
    this.#station = station;
    this.#state = empty(Date.now());
    for (const part of [this.#say, this.#moments, this.#orders]) part.clear();
    text(this.#stopError, '');
    show(this, true);
    this.#live.watch(station);
  }

  shut() {
    this.#station = '';
    this.#live.close();
    show(this, false);
  }

  /** Takes the reader to the station’s name. */
  greet() {
    this.#name.focus({ preventScroll: true });
  }

  /** @param {Message} message */
  #take(message) {
    this.#state = reduce(this.#state, message, Date.now());
    this.onneed();
  }

  /** @param {Link} link */
  #linked(link) {
    this.#state = withLink(this.#state, link);
    this.onneed();
  }

  /** @param {string} command @param {object} body @returns {Promise<string>} why not, '' when it is done */
  async #ask(command, body) {
    return (await post(this.#path(command), body)).error;
  }

  /** @param {string} command */
  #path(command) {
    return `api/stations/${encodeURIComponent(this.#station)}/${command}`;
  }

  /** @returns {Promise<Moment | string>} */
  async #mark() {
    /** @type {Awaited<ReturnType<typeof post<{ id?: string }>>>} */
    const got = await post(this.#path('mark'), { mark: '' });
    if (got.value === null) return got.error;
    const session = this.#state.info?.session ?? '';
    return { id: got.value.id ?? '', at: Date.now(), words: '', session };
  }

  /** @param {Moment} moment @param {string} words */
  async #write(moment, words) {
    if (moment.session === '') return t('No session is kept here, so there is nothing to write on.');
    const path = `api/sessions/${encodeURIComponent(moment.session)}/remarks`;
    return (await post(path, { leg: 0, time: null, by: '', words, mark: moment.id })).error;
  }

  #words() {
    if (this.#built === language()) return;
    this.#built = language();
    text(this.#full, t('Open the panel'));
    text(this.#close, t('Close'));
    text(this.#stopTitle, t('Knock it off'));
  }

  /**
   * @param {number} now ms since 1970 @param {boolean} heard whether its sound is on
   * @param {{ cards: Cards | null, students: readonly string[] }} known
   */
  update(now, heard, known) {
    if (this.#station === '') return;
    this.#words();
    const state = this.#state;
    const { info, frame, plan } = state;
    const student = info?.student ?? '';
    const station = stationWords(this.#station, true);
    const name = student || station;
    text(this.#name, name);
    attr(this.#name, 'data-address', String(student === '' && station !== this.#station));
    attr(this, 'aria-label', name);
    const flying = frame !== null && beforeVerdict(frame);
    const what = unclear(state) ? t('Whichever is flown') : plan ? titleOf(state) : '';
    text(this.#sub, [student === '' ? '' : station, what, legOf(state)].filter(Boolean).join(' · '));
    text(this.#link, state.private
      ? t('This station is private now')
      : [linkWords(state, now), actedWords(state, now)].filter(Boolean).join(' · '));
    attr(this.#link, 'data-well', String(current(state, now)));
    attr(this.#full, 'href', `./?station=${encodeURIComponent(this.#station)}`);
    attr(this, 'data-unclear', String(unclear(state)));
    show(this.#ribbon, frame !== null && plan !== null);
    if (frame && plan) this.#ribbon.update(state);
    show(this.#margins, flying);
    if (flying) this.#margins.update(state);
    this.#tell(state, now);
    const able = info !== null && info.link !== 'gone';
    this.#say.update(name, able);
    this.#moments.update(able);
    this.#orders.update(state, known.cards, known.students);
    text(this.#sound, heard ? t('Sound on') : t('Sound off'));
    attr(this.#sound, 'aria-pressed', String(heard));
    this.#stop.disabled = !able;
    text(this.#stopWords, t('stops the leg at once, says so to {name}', { name }));
  }

  /** What is said, and how the last leg went. @param {State} state @param {number} now */
  #tell(state, now) {
    const safety = state.safety.at(-1);
    const { band, frame } = state;
    const news = band !== null && (now - band.at < fresh || (frame !== null && inTurn(frame)));
    text(this.#box, safety ? readOf(safety) : news && band ? readOf(band.callout) : hint(state, now));
    attr(this.#box, 'data-kind', safety ? 'safety' : news ? 'said' : 'idle');
    const last = frame !== null && beforeVerdict(frame) ? null : lastHere(state);
    show(this.#verdict, last !== null);
    if (!last) return;
    const points = last.outcome === 'finished' && last.verdict !== 'not-measured'
      ? t('{n} of 100', { n: number(last.score) }) : '';
    const change = told(last.change);
    text(this.#verdict, [
      [last.headline ? told(last.headline) : capital(verdictWords(last.verdict)), points].filter(Boolean).join(', '),
      change,
    ].filter(Boolean).join(' · '));
  }
}

/** Which leg of the series is flown. @param {State} state */
function legOf({ plan, legsInSeries, frame }) {
  if (!plan || plan.legs < 2 || !frame || !beforeVerdict(frame)) return '';
  return t('leg {n} of {of}', { n: Math.min(legsInSeries + 1, plan.legs), of: plan.legs });
}

/** @param {State} state */
function titleOf({ plan, frame }) {
  const title = cardText(plan?.title ?? '');
  if (!frame || !inTurn(frame) || frame.direction === '') return title;
  return `${title} ${frame.direction === 'left' ? t('to the left') : t('to the right')}`;
}

customElements.define('ht-opened', OpenedStation);
