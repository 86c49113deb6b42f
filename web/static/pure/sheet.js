// What a small sheet of the desk shows: which lanes, and which words. Pure.

/** @import { Lane, Plan } from '../types.d.ts' */
/** @import { SheetWords, Tile } from '../desk.d.ts' */
/** @import { State } from '../view.d.ts' */

import { capital, number, stationParts, stationWords, verdictWords, withUnit } from './format.js';
import { told } from './phrase.js';
import { cardText, t } from './text.js';
import { faultWords, trouble } from './trouble.js';
import { flown } from './wall.js';
import { readOf } from './voice.js';

/** How long words stand on a sheet between legs, ms. */
const fresh = 8000;

/** A nose that moves less than this in a maneuver, °, says less than the height. */
const level = 8;

/** What is wrong at a station now. @param {Tile} tile */
function wrong(tile) {
  const { plan, now, stage } = tile;
  if (!plan || !now || !stage) return null;
  const state = /** @type {State} */ (/** @type {unknown} */ ({ safety: tile.safety }));
  return trouble(state, plan, now, stage.state !== 'turn' && !stage.unclear);
}

/**
 * The two lanes of a sheet: bank, and what the maneuver turns on beside it; where a limit is passed, its lane.
 * @param {Tile} tile @returns {readonly Lane[]}
 */
export function sheetLanes(tile) {
  const lanes = tile.plan?.lanes ?? [];
  const limit = tile.safety.length > 0 ? wrong(tile)?.named ?? '' : '';
  const usual = flat(tile.plan) ? 'height' : 'pitch';
  const second = limit === '' || limit === 'bank' ? usual : limit;
  return lanes.filter((l) => l.channel === 'bank' || l.channel === second);
}

/** Whether the nose hardly moves in a maneuver: it is a level turn. @param {Plan | null} plan */
function flat(plan) {
  const aims = (plan?.lanes?.find((l) => l.channel === 'pitch')?.corridor ?? []).map((c) => c.aim);
  return aims.length > 0 && Math.max(...aims) - Math.min(...aims) < level;
}

/** Who sits at a station, and which it is, '' where the first says it. @param {Tile} tile */
export function sheetNames(tile) {
  const station = stationWords(tile.name, true);
  const student = tile.info?.student ?? '';
  return student === '' ? { name: station, seat: '' } : { name: student, seat: station };
}

/**
 * The same as it stands on the sheet, each in two parts, of which the first is cut where there is no room for both.
 * @param {Tile} tile @returns {{ name: [string, string], seat: [string, string] }}
 */
export function sheetTitle(tile) {
  const station = stationParts(tile.name);
  const student = tile.info?.student ?? '';
  return student === '' ? { name: station, seat: ['', ''] } : { name: [student, ''], seat: station };
}

/**
 * The words of a sheet.
 * @param {Tile} tile @param {number} now ms since 1970
 * @param {number} ahead how much later the server’s clock is, ms
 * @returns {SheetWords}
 */
export function sheetWords(tile, now, ahead) {
  if (tile.private) return privateWords();
  const is = flown(tile) && tile.info?.link === 'live' ? wrong(tile) : null;
  const fault = is && is.named !== '' ? faultOf(tile, is) : '';
  return {
    phase: fault || phaseWords(tile),
    off: fault !== '',
    ...largeWords(tile, now + ahead),
    ...markWords(tile),
    ...boxWords(tile, now),
    link: linkWords(tile),
  };
}

/** A private station says no more than that. @returns {SheetWords} */
function privateWords() {
  return {
    phase: '', off: false, large: t('Private'), small: '', turning: false, verdict: '', post: '', mark: '', box: '',
    boxKind: 'idle', link: '',
  };
}

/** @param {Tile} tile @param {NonNullable<ReturnType<typeof wrong>>} is */
function faultOf(tile, is) {
  const out = is.out.get(is.named);
  const lane = tile.plan?.lanes?.find((l) => l.channel === is.named);
  return out && lane ? faultWords(is.named, out.side, withUnit(out.by, lane.unit)) : '';
}

/** What is done now. @param {Tile} tile */
function phaseWords(tile) {
  const { stage, last, plan, info } = tile;
  if (!stage || !info) return '';
  if (flown(tile)) {
    const phase = stage.unclear ? t('in the turn') : cardText(stage.phase);
    if (stage.direction === '') return phase;
    return stage.direction === 'left'
      ? t('{phase}, to the left', { phase })
      : t('{phase}, to the right', { phase });
  }
  if (last && plan && plan.legs > 1 && last.outcome === 'finished' && last.number < plan.legs) {
    return t('between legs, {n} of {of}', { n: last.number, of: plan.legs });
  }
  return plan ? cardText(plan.title) : '';
}

/** @param {Tile} tile @param {number} now by the server’s clock */
function largeWords(tile, now) {
  const { info, stage, last } = tile;
  const none = { small: '', turning: false };
  if (!info || !stage) return { ...none, large: t('Waiting') };
  if (info.link === 'silent' || info.link === 'gone') {
    return { ...none, large: ageWords(now - info.since), small: t('silent') };
  }
  if (info.link === 'paused') return { ...none, large: t('Paused') };
  if (tile.now) return { ...none, large: `${number(tile.now.turn)}°`, turning: true };
  if (last && stage.state !== 'set-up') {
    if (last.outcome === 'knock-off') return { ...none, large: t('Stopped') };
    if (last.outcome !== 'finished') return { ...none, large: t('Broken off') };
    return { ...none, large: capital(verdictWords(last.verdict)) };
  }
  return { ...none, large: stage.ready ? t('Ready') : t('Setting up') };
}

/** "14 s", "3 min". @param {number} ms */
function ageWords(ms) {
  const s = Math.max(0, Math.round(ms / 1000));
  return s < 120 ? `${number(s)}\u202fs` : `${number(Math.floor(s / 60))}\u202fmin`;
}

/**
 * The last checkpoint with its mark; after a leg its points.
 * @param {Tile} tile
 * @returns {Pick<SheetWords, 'verdict' | 'post' | 'mark'>}
 */
function markWords(tile) {
  const { last, plan } = tile;
  if (!flown(tile) && last) {
    if (last.outcome !== 'finished') return { verdict: '', post: '', mark: '' };
    const n = number(last.score);
    const points = tile.stage?.state === 'set-up' ? t('last {n} of 100', { n }) : t('{n} of 100', { n });
    if (last.verdict === 'not-measured') return { verdict: last.verdict, post: '', mark: verdictWords(last.verdict) };
    return { verdict: last.verdict, post: '', mark: points };
  }
  const [turn, verdict] = [...tile.marks].sort(([a], [b]) => a - b).at(-1) ?? [];
  if (turn === undefined || verdict === undefined) return { verdict: '', post: '', mark: '' };
  const post = turn === 0 ? t('entry') : t(plan?.checkpoints?.find((c) => c.turn === turn)?.label ?? `${turn}°`);
  return { verdict, post, mark: verdictWords(verdict) };
}

/** @param {Tile} tile @param {number} now @returns {Pick<SheetWords, 'box' | 'boxKind'>} */
function boxWords(tile, now) {
  const { info, stage, said } = tile;
  const idle = (/** @type {string} */ box) => ({ box, boxKind: /** @type {const} */ ('idle') });
  if (!info || !stage) return idle(t('nothing heard yet'));
  if (info.recording === 'failing') return { box: t('Nothing is being recorded'), boxKind: 'said' };
  if (info.trouble) return { box: t('A fault ended the session'), boxKind: 'said' };
  if (info.link === 'silent' || info.link === 'gone') return idle(t('check the simulator'));
  if (info.link === 'paused') return idle(t('nothing is judged'));
  const safety = tile.safety.at(-1);
  if (safety) return { box: readOf(safety), boxKind: 'safety' };
  if (info.advice !== '') return { box: t('see Set-up'), boxKind: 'said' };
  if (said && (flown(tile) || now - said.at < fresh)) return { box: readOf(said.callout), boxKind: 'said' };
  if (flown(tile)) return idle('');
  if (stage.ready) return idle(t('waits for the entry'));
  return idle(stage.holds === '' ? '' : told(stage.gate));
}

/** @param {Tile} tile */
function linkWords({ info }) {
  if (info?.behind) return t('{seconds} s behind', { seconds: String(Math.round(info.behind)) });
  if (!info || info.link === 'silent' || info.link === 'gone') return t('nothing');
  return t('{rate} a second', { rate: number(info.rate) });
}

/**
 * A sheet in one sentence, for those who hear the page.
 * @param {Tile} tile @param {SheetWords} words
 */
export function sheetSentence(tile, words) {
  const { name, seat } = sheetNames(tile);
  const parts = [
    [name, seat].filter(Boolean).join(', '),
    words.boxKind === 'safety' ? t('Safety: {words}', { words: words.box }) : '',
    words.phase,
    words.turning
      ? t('{turn}° turned', { turn: words.large.replace('°', '') })
      : `${words.large} ${words.small}`.trim(),
    `${words.post} ${words.mark}`.trim(),
    words.boxKind === 'safety' ? '' : words.box,
  ];
  return parts.filter(Boolean).join('; ');
}
