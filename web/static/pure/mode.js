// Which view the panel shows, and the words about its state. Pure.

/** @import { Station } from '../types.d.ts' */
/** @import { State } from '../view.d.ts' */

import { capital, clock, quality } from './format.js';
import { holding, order, readyWords } from './order.js';
import { beforeVerdict, inTurn, lastHere } from './store.js';
import { cardText, t } from './text.js';

/** Without a frame for so long, ms, what is shown is no longer now. */
export const staleAfter = 1500;

/** @param {State} state @returns {'empty' | 'set-up' | 'leg' | 'after'} */
export function mode(state) {
  const { info, frame, plan } = state;
  if (!info || !plan || !frame) return 'empty';
  if (info.link === 'gone' && !state.last) return 'empty';
  if (beforeVerdict(frame)) return 'leg';
  return state.last ? 'after' : 'set-up';
}

/**
 * Whether nothing yet tells which maneuver it is: it is found from what is flown, and not clear.
 * @param {State} state
 */
export function unclear(state) {
  if (state.info?.auto !== true || state.frame === null) return false;
  const face = mode(state);
  // the last leg fitted none
  return state.frame.unclear || face === 'set-up' || (face === 'after' && state.lastPlan === null);
}

/** Whether frames should come and do not. @param {State} state @param {number} now */
export function stale(state, now) {
  const replay = state.info?.replay; // one that stands still is as it should be
  if (replay && (replay.paused || replay.over)) return false;
  return state.frame !== null && now - state.frameAt > staleAfter;
}

/** Whether something is flown or replayed before the eyes now. @param {State} state @param {number} now */
export function flying(state, now) {
  const { link, info } = state;
  if (link.state !== 'open' || !info || !state.frame || stale(state, now)) return false;
  return info.link === 'live' || (info.link === 'replaying' && !info.replay?.paused && !info.replay?.over);
}

/**
 * How it stands with the stream, in words.
 * @param {State} state
 * @param {number} now ms since 1970
 */
export function linkWords(state, now) {
  const { link, info } = state;
  if (link.state === 'connecting') return t('connecting to Halfturn');
  if (link.state === 'none') return t('this browser has no live link (WebSocket): take another browser');
  if (link.state === 'lost') {
    const wait = link.retryAt === null ? 0 : Math.ceil((link.retryAt - now) / 1000);
    const time = clock(link.since);
    return wait > 0
      ? t('lost Halfturn at {time} · trying again in {wait} s', { time, wait })
      : t('lost Halfturn at {time} · trying again', { time });
  }
  if (!info) return t('no simulator yet');
  switch (info.link) {
    case 'paused': return t('paused since {time}', { time: clock(state.linkAt) });
    case 'silent': return t('nothing heard since {time}', { time: clock(state.linkAt) });
    case 'gone': return t('gone since {time}', { time: clock(state.linkAt) });
    case 'replaying': return replayWords(info.replay);
    default: break;
  }
  if (info.advice !== '') {
    return (info.channels ?? []).length === 0 ? t('cannot be read') : t('something is wrong: see Set-up');
  }
  if (stale(state, now)) return t('stale since {time}', { time: clock(state.frameAt) });
  return t('live · {quality}', { quality: quality(info) });
}

/** @param {import('../types.d.ts').Replaying} [replay] */
function replayWords(replay) {
  if (replay?.over) return t('a recording, at its end');
  if (replay?.paused) return t('a recording, paused');
  return replay && replay.pace !== 1
    ? t('a recording, at {pace} times its pace', { pace: replay.pace })
    : t('a recording');
}

/**
 * Whether what is shown is of now: the link stands, the simulator flies, frames come.
 * @param {State} state
 * @param {number} now
 */
export function current(state, now) {
  const { link, info } = state;
  return link.state === 'open' && (info?.link === 'live' || info?.link === 'replaying') && !stale(state, now);
}

/**
 * The station to go on with where this one has fallen silent: the only live one of the same computer, '' for none.
 * A simulator that was started again at once is another station, as the one before was not silent yet.
 * @param {Station | null} info @param {readonly Station[]} stations
 */
export function heir(info, stations) {
  if (!info || (info.link !== 'silent' && info.link !== 'gone')) return '';
  const live = stations.filter((s) => s.link === 'live' && hostOf(s.address) === hostOf(info.address));
  return live.length === 1 ? live[0]?.name ?? '' : '';
}

/** @param {string} address HOST:PORT */
function hostOf(address) {
  return address.slice(0, address.lastIndexOf(':'));
}

/** What the band says when nothing is called out. @param {State} state @param {number} [now] */
export function hint(state, now = state.frameAt) {
  if (state.frame && state.link.state !== 'open') return t('Halfturn does not answer');
  if (state.link.state !== 'open' || !state.info) return t('Waiting for a simulator');
  if (state.info.link === 'paused') return t('Paused');
  if (state.info.replay?.over) return t('The recording is over');
  if (state.info.link !== 'live' && state.info.link !== 'replaying') return t('Waiting for the simulator');
  if (stale(state, now)) return t('No data arrives');
  const { frame } = state;
  if (!frame) return t('Waiting for the first data');
  if (frame.unclear) return t('Cues begin when it is clear what is flown');
  if (inTurn(frame)) return (frame.state === 'leg' ? capital(cardText(frame.phase)) : '') || t('In the turn');
  const gates = frame.gates ?? [];
  const speed = gates.find((g) => g.id === 'entry-speed');
  if (frame.ready) return speed?.value === null ? readyWords(gates, true) : t('Set up. Ready when you are');
  const gate = holding(gates);
  return gate ? order(gate) : t('Looking at the set-up');
}

/**
 * The plan of what the sheet shows: of the leg that is flown, after one of that leg, whatever was chosen since.
 * @param {State} state
 */
export function sheetPlan(state) {
  const flying = state.frame !== null && beforeVerdict(state.frame);
  return flying || lastHere(state) === null ? state.plan : state.lastPlan;
}

/** The line under the title. @param {State} state */
export function subtitle(state) {
  const { plan } = state;
  if (!plan) return '';
  const standard =
    plan.standard === '' || plan.standard.endsWith('standard')
      ? cardText(plan.standard)
      : t('{name} standard', { name: cardText(plan.standard) });
  const parts = [standard, plan.aircraft === '' ? t('no aircraft chosen') : cardText(plan.aircraft)].filter(
    (p) => p !== '',
  );
  const face = mode(state);
  if (unclear(state)) return parts.join(' · ');
  if (state.info?.auto && face !== 'leg') {
    parts.unshift(t('found from what is flown'));
  } else if (plan.legs > 1 && face !== 'after') {
    parts.unshift(t('leg {n} of {of}', { n: Math.min(state.legsInSeries + 1, plan.legs), of: plan.legs }));
  }
  return parts.join(' · ');
}
