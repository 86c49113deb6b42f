// Which of its faces the panel shows, and what it says of itself. Pure.

/** @import { State } from '../view.d.ts' */

import { clock, quality } from './format.js';
import { inTurn } from './store.js';

/** Without a frame for so long, ms, what is shown is no longer now. */
export const staleAfter = 1500;

/** @param {State} state @returns {'empty' | 'set-up' | 'leg' | 'after'} */
export function mode(state) {
  const { info, frame, plan } = state;
  if (!info || !plan || !frame) return 'empty';
  if (info.link === 'gone' && !state.last) return 'empty';
  if (inTurn(frame)) return 'leg';
  return state.last ? 'after' : 'set-up';
}

/** Whether frames should come and do not. @param {State} state @param {number} now */
export function stale(state, now) {
  return state.frame !== null && now - state.frameAt > staleAfter;
}

/**
 * How it stands with the stream, in words.
 * @param {State} state
 * @param {number} now ms since 1970
 */
export function linkWords(state, now) {
  const { link, info } = state;
  if (link.state === 'connecting') return 'connecting to Halfturn';
  if (link.state === 'lost') {
    const wait = link.retryAt === null ? 0 : Math.ceil((link.retryAt - now) / 1000);
    return `lost Halfturn at ${clock(link.since)} · ${wait > 0 ? `trying again in ${wait} s` : 'trying again'}`;
  }
  if (!info) return 'no simulator yet';
  switch (info.link) {
    case 'paused': return `paused since ${clock(state.linkAt)}`;
    case 'silent': return `nothing heard since ${clock(state.linkAt)}`;
    case 'gone': return `gone since ${clock(state.linkAt)}`;
    default: break;
  }
  if (info.advice !== '') return (info.channels ?? []).length === 0 ? 'cannot be read' : 'something is wrong: see Set-up';
  if (stale(state, now)) return `stale since ${clock(state.frameAt)}`;
  return `live · ${quality(info)}`;
}

/** What the band says when nothing is called out. @param {State} state */
export function hint(state) {
  if (state.link.state !== 'open' || !state.info) return 'Waiting for a simulator';
  if (state.info.link === 'paused') return 'Paused';
  if (state.info.link !== 'live') return 'Waiting for the simulator';
  const { frame } = state;
  if (!frame || inTurn(frame)) return '';
  if (frame.ready) return 'Set up. Ready when you are';
  const gate = (frame.gates ?? []).find((g) => !g.ok);
  return gate ? `${gate.label}: ${gate.want}` : '';
}

/** The line under the title. @param {State} state */
export function subtitle(state) {
  const { plan } = state;
  if (!plan) return '';
  const standard = plan.standard === '' || plan.standard.endsWith('standard') ? plan.standard : `${plan.standard} standard`;
  const parts = [standard, plan.aircraft === '' ? 'no aircraft chosen' : plan.aircraft].filter((p) => p !== '');
  if (plan.legs > 1 && mode(state) !== 'after') {
    parts.unshift(`leg ${Math.min(state.legsInSeries + 1, plan.legs)} of ${plan.legs}`);
  }
  return parts.join(' · ');
}
