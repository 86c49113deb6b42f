// What the first page says of simulators, channels and choices. Pure.

/** @import { Cards, Station } from '../types.d.ts' */
/** @import { Probe } from '../setup.d.ts' */
/** @import { Finding, Wish } from '../begin.d.ts' */

import { joined, number } from './format.js';
import { t } from './text.js';

/** The channels as a newcomer knows them; one of `any` is enough. */
const known = [
  { any: ['heading'], title: () => t('heading') },
  { any: ['pitch'], title: () => t('nose') },
  { any: ['bank'], title: () => t('bank') },
  { any: ['airspeed'], title: () => t('airspeed') },
  { any: ['altitude'], title: () => t('altitude') },
  { any: ['vertical-speed'], title: () => t('climb') },
  { any: ['latitude'], title: () => t('position') },
  { any: ['normal-load'], title: () => t('load') },
  { any: ['ball'], title: () => t('ball') },
  { any: ['throttle', 'torque', 'n1', 'rpm'], title: () => t('power') },
  { any: ['stall-warning', 'angle-of-attack'], title: () => t('stall') },
];

/** Without these nothing can be coached: the first three. */
const vital = 3;

/** The channels, and whether each comes. @param {Pick<Station, 'channels' | 'derived'> | null} info */
export function ticks(info) {
  const there = new Set([...(info?.channels ?? []), ...(info?.derived ?? [])]);
  return known.map(({ any, title }) => ({ title: title(), there: any.some((c) => there.has(c)) }));
}

/**
 * What the missing channels cost.
 * @param {ReturnType<typeof ticks>} list
 * @param {Pick<Probe, 'checks' | 'unmeasured'> | null} probe
 * @returns {{ head: string, rest: string }}
 */
export function cost(list, probe) {
  if (list.every((c) => !c.there)) {
    return { head: '', rest: t('A channel is ticked as it arrives. Before the first, all are dotted.') };
  }
  if (list.slice(0, vital).some((c) => !c.there)) {
    const what = joined(list.slice(0, vital).filter((c) => !c.there).map((c) => c.title));
    return { head: t('Not yet.'), rest: t('Without {what} nothing can be coached.', { what }) };
  }
  const missing = list.filter((c) => !c.there).map((c) => c.title);
  const head = t('You can fly now.');
  if (missing.length === 0) return { head, rest: t('Everything arrives.') };
  const what = joined(missing);
  if (!probe?.checks) return { head, rest: t('Not sent: {what}.', { what }) };
  if (probe.unmeasured === 0) return { head, rest: t('Not sent: {what}. No check needs it.', { what }) };
  return {
    head,
    rest: t('Until {what} arrive, {n} of {of} checks read “not measured”.', {
      what,
      n: probe.unmeasured,
      of: probe.checks,
    }),
  };
}

/**
 * What was found, in a sentence.
 * @param {Finding | null} finding @param {readonly Station[]} stations
 */
export function found(finding, stations) {
  const live = stations.filter((s) => s.link === 'live' && !s.demonstration);
  const [first] = live;
  if (first !== undefined) {
    const words = t('Data from {address}, {rate} a second', { address: first.address, rate: number(first.rate, 0) });
    return live.length === 1 ? words : t('{words}, and {n} more', { words, n: live.length - 1 });
  }
  const others = (finding?.announced ?? []).filter((a) => !a.here);
  const named = (finding?.asked ?? []).filter((a) => a.by === 'page' || a.by === 'settings');
  const answers = (finding?.asked ?? []).find((a) => a.answers);
  if (answers !== undefined) return t('{address} answers', { address: answers.address });
  const here = (finding?.announced ?? []).find((a) => a.here);
  if (here !== undefined) return t('A simulator is here ({name}); it is asked', { name: here.name });
  const [mute] = named;
  if (mute !== undefined) {
    return mute.waited < 4
      ? t('Asking {address} …', { address: mute.address })
      : t('{address} was asked, and does not answer', { address: mute.address });
  }
  const [other] = others;
  if (other !== undefined) {
    return t('A simulator announces itself at {address} ({name})', { address: other.address, name: other.name });
  }
  return finding?.asked.some((a) => a.by === 'itself')
    ? t('Nothing is heard yet; this machine is asked')
    : t('Nothing is heard yet');
}

/**
 * A line of a guide with this machine's address in it.
 * @param {string} line @param {string} host @param {number} port
 */
export function filled(line, host, port) {
  const bare = host.includes(':') ? `[${host}]` : host;
  return line.replace(/\bHOST\b/g, bare).replace(/\b7181\b/g, String(port));
}

/** Whether a page of this address is read on Halfturn's own machine. @param {string} hostname */
export function own(hostname) {
  return /^(localhost|127(\.\d+){3}|\[::1\])$/.test(hostname);
}

/** The aircraft and maneuvers that are chosen where nobody chose: whoever changes nothing can fly. */
export const defaults = { maneuver: 'wing-over', aircraft: 'radial-trainer' };

/** The maneuvers that stand first, by card. */
const firstFour = ['wing-over', 'chandelle-civil', 'lazy-eight', 'steep-turn'];

/**
 * What is chosen on the first page: what was pressed there, else what is flown, else the defaults.
 * @param {Partial<Wish>} wish @param {Pick<Station, 'maneuver' | 'aircraft' | 'auto'> | null} info
 * @param {Cards | null} cards
 * @returns {Wish}
 */
export function chosen(wish, info, cards) {
  const one = (/** @type {{ name: string }[] | null | undefined} */ list, /** @type {string} */ name) =>
    list?.some((c) => c.name === name) ? name : (list?.[0]?.name ?? '');
  return {
    maneuver: wish.maneuver ?? (info && !info.auto ? info.maneuver : one(cards?.maneuvers, defaults.maneuver)),
    aircraft: wish.aircraft ?? (info?.aircraft || one(cards?.aircraft, defaults.aircraft)),
  };
}

/**
 * The maneuvers as tiles, four of them, and the others in a list; the chosen one is always among the tiles.
 * @param {Cards | null} cards @param {string} maneuver
 */
export function offered(cards, maneuver) {
  const all = cards?.maneuvers ?? [];
  const wanted = firstFour.filter((name) => all.some((c) => c.name === name));
  for (const c of all) if (wanted.length < firstFour.length && !wanted.includes(c.name)) wanted.push(c.name);
  if (maneuver !== '' && !wanted.includes(maneuver) && all.some((c) => c.name === maneuver)) {
    wanted[wanted.length - 1] = maneuver;
  }
  const tiles = wanted.flatMap((name) => all.filter((c) => c.name === name));
  return { tiles, others: all.filter((c) => !tiles.includes(c)) };
}

/**
 * The corridor of a lane as a small picture.
 * @param {readonly { turn: number, low: number, aim: number, high: number }[]} corridor
 * @param {number} turn the full turn, degrees
 * @param {{ low: number, high: number }} lane
 * @param {{ w: number, h: number }} size
 */
export function picture(corridor, turn, lane, size) {
  const x = (/** @type {number} */ a) => ((a / turn) * size.w).toFixed(1);
  const high = Math.max(lane.high, ...corridor.map((c) => c.high));
  const low = Math.min(lane.low, ...corridor.map((c) => c.low));
  const y = (/** @type {number} */ v) => (size.h - ((v - low) / Math.max(1e-6, high - low)) * size.h).toFixed(1);
  const up = corridor.map((c) => `${x(c.turn)} ${y(c.high)}`);
  const back = corridor.toReversed().map((c) => `${x(c.turn)} ${y(c.low)}`);
  return {
    band: corridor.length < 2 ? '' : `M${[...up, ...back].join('L')}Z`,
    aim: corridor.length < 2 ? '' : `M${corridor.map((c) => `${x(c.turn)} ${y(c.aim)}`).join('L')}`,
  };
}
