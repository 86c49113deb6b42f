// The logic of the sessions page: its filters in the address, days, and the positions of a trend's marks. Pure.

/** @import { Band, Verdict } from '../types.d.ts' */
/** @import { SessionRow, TrendCheck, TrendPoint } from '../sessions.d.ts' */

import { number, withUnit } from './format.js';
import { form, t } from './text.js';

/**
 * @typedef {{ student: string, maneuver: string, aircraft: string, from: string, to: string, grade: string, text:
 *   string, empty: string }} Filters
 */

/** @type {readonly (keyof Filters)[]} */
const names = ['student', 'maneuver', 'aircraft', 'from', 'to', 'grade', 'text', 'empty'];

/** From worst to best, as the server writes them. */
export const grades = ['unable', 'fair', 'good', 'excellent'];

const longest = 200; // characters of a filter; the server refuses more

/** The filters of an address. @param {string} search @returns {Filters} */
export function filtersOf(search) {
  const query = new URLSearchParams(search);
  /** @type {Filters} */
  const f = { student: '', maneuver: '', aircraft: '', from: '', to: '', grade: '', text: '', empty: '' };
  for (const name of names) f[name] = (query.get(name) ?? '').slice(0, longest);
  for (const name of /** @type {const} */ (['from', 'to'])) if (!/^\d{4}-\d{2}-\d{2}$/.test(f[name])) f[name] = '';
  if (!grades.includes(f.grade)) f.grade = '';
  if (f.empty !== '1') f.empty = '';
  return f;
}

/** The filters as a query, those left open left out. @param {Filters} f */
export function queryOf(f) {
  const query = new URLSearchParams();
  for (const name of names) if (f[name].trim() !== '') query.set(name, f[name].trim());
  return query.toString();
}

/** The filters as the server is asked: sessions without a leg only when they are wanted. @param {Filters} f */
export function askedOf(f) {
  const query = new URLSearchParams(queryOf(f));
  query.delete('empty');
  if (f.empty === '') query.set('flown', '1');
  return query.toString();
}

/** Whether all is shown. @param {Filters} f */
export function open(f) {
  return queryOf({ ...f, empty: '' }) === '';
}

/**
 * What is chosen, in a line: "Bo · good · from Nov 20, 2026"; where all is shown, that one can choose.
 * @param {Filters} f @param {(name: keyof Filters, value: string) => string} title how people read a value
 */
export function chosenWords(f, title) {
  const words = [
    .../** @type {const} */ (['student', 'maneuver', 'aircraft', 'grade'])
      .filter((name) => f[name] !== '')
      .map((name) => title(name, f[name])),
    f.from === '' ? '' : t('from {day}', { day: shortDay(f.from) }),
    f.to === '' ? '' : t('to {day}', { day: shortDay(f.to) }),
    f.text.trim() === '' ? '' : `“${f.text.trim()}”`,
  ].filter((w) => w !== '');
  return words.length === 0 ? t('Filter') : words.join(' · ');
}

/** @param {string} day 2026-11-25 */
function shortDay(day) {
  return format({ year: 'numeric', month: 'short', day: 'numeric' }).format(new Date(`${day}T12:00:00`));
}

/** @param {Intl.DateTimeFormatOptions} options */
function format(options) {
  return new Intl.DateTimeFormat(form().locale, options);
}

/** "Wednesday, November 25, 2026", of the clock here. @param {string} at RFC 3339 */
export function dayWords(at) {
  const when = new Date(at);
  return Number.isNaN(when.getTime())
    ? t('without a date')
    : format({ weekday: 'long', year: 'numeric', month: 'long', day: 'numeric' }).format(when);
}

/** "Nov 25". @param {string} at RFC 3339 */
export function dayShort(at) {
  const when = new Date(at);
  return Number.isNaN(when.getTime()) ? '' : format({ month: 'short', day: 'numeric' }).format(when);
}

/** "14:05". @param {string} at RFC 3339 */
export function timeWords(at) {
  const when = new Date(at);
  return Number.isNaN(when.getTime())
    ? ''
    : format({ hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }).format(when);
}

/** How long it took, in words; '' while it goes on. @param {SessionRow} row */
export function lasted(row) {
  const minutes = (Date.parse(row.ended) - Date.parse(row.began)) / 60000;
  if (!(minutes >= 0)) return '';
  return minutes < 1 ? t('under a minute') : withUnit(Math.round(minutes), 'min');
}

/**
 * Sessions by the day they began on, in their order.
 * @param {readonly SessionRow[]} rows
 * @returns {{ day: string, rows: SessionRow[] }[]}
 */
export function byDay(rows) {
  /** @type {{ day: string, rows: SessionRow[] }[]} */
  const days = [];
  for (const row of rows) {
    const day = dayWords(row.began);
    const last = days.at(-1);
    if (last?.day === day) last.rows.push(row);
    else days.push({ day, rows: [row] });
  }
  return days;
}

/** @typedef {{ aim: number | null, met: Band, near: Band }} Judged what values are held against */

/** @type {Band} */
const openBand = [null, null];

/** What a session was held against. @param {TrendPoint} p @returns {Judged} */
export function judgedBy(p) {
  return { aim: p.aim ?? null, met: p.metBand ?? openBand, near: p.nearBand ?? openBand };
}

/** The verdict a value has by the bands it is held against. @param {Judged} by @param {number} v @returns {Verdict} */
export function verdictOf(by, v) {
  const within = (/** @type {Band} */ [low, high]) => (low == null || v >= low) && (high == null || v <= high);
  return within(by.met) ? 'met' : within(by.near) ? 'near' : 'missed';
}

/**
 * What the plot of a check spans: its bands and all that was flown, except that a leg gone far astray does not
 * flatten the rest.
 * @param {TrendCheck} check
 */
export function reach(check) {
  const bands = [check, ...check.points.map(judgedBy)]
    .flatMap((by) => [...by.met, ...by.near, by.aim])
    .filter((v) => v !== null);
  const middle = check.points.flatMap((p) => [p.q1, p.q3]);
  let low = Math.min(...bands, ...middle);
  let high = Math.max(...bands, ...middle);
  const more = (high - low) * 0.5 || 1;
  low = Math.max(low - more, Math.min(low, ...check.points.map((p) => p.low)));
  high = Math.min(high + more, Math.max(high, ...check.points.map((p) => p.high)));
  const room = (high - low || 1) * 0.08;
  return { low: low - room, high: high + room };
}

/** How far the bands reach beyond the first and the last mark. */
const beyond = 10;

/**
 * Where things stand on the plot of a check, in its own units. The bands are those of each session, in spans of
 * sessions that had the same.
 * @param {TrendCheck} check
 * @param {{ left: number, right: number, top: number, bottom: number }} box
 */
export function places(check, box) {
  const { low, high } = reach(check);
  const n = check.points.length;
  const x = (/** @type {number} */ i) =>
    n < 2 ? (box.left + box.right) / 2 : box.left + beyond + ((box.right - box.left - 2 * beyond) * i) / (n - 1);
  const y = (/** @type {number} */ v) =>
    Math.min(Math.max(box.bottom - ((box.bottom - box.top) * (v - low)) / (high - low), box.top), box.bottom);
  const band = (/** @type {Band} */ [from, to]) => {
    const top = to === null ? box.top : y(to);
    return { top, height: (from === null ? box.bottom : y(from)) - top };
  };
  const spans = sameJudged(check.points).map(({ first, next, by }) => ({
    from: first === 0 ? box.left : (x(first - 1) + x(first)) / 2,
    to: next === n ? box.right : (x(next - 1) + x(next)) / 2,
    met: band(by.met),
    near: band(by.near),
    aim: by.aim === null ? null : y(by.aim),
  }));
  return {
    y,
    spans,
    points: check.points.map((p, i) => ({
      x: x(i),
      low: y(p.low),
      q1: y(p.q1),
      median: y(p.median),
      q3: y(p.q3),
      high: y(p.high),
      verdict: verdictOf(judgedBy(p), p.median),
    })),
  };
}

/**
 * Sessions in a row that were held against the same: from first to before next.
 * @param {readonly TrendPoint[]} points
 */
function sameJudged(points) {
  /** @type {{ first: number, next: number, by: Judged }[]} */
  const spans = [];
  points.forEach((p, i) => {
    const by = judgedBy(p);
    const last = spans.at(-1);
    if (last && JSON.stringify(last.by) === JSON.stringify(by)) last.next = i + 1;
    else spans.push({ first: i, next: i + 1, by });
  });
  return spans;
}

/** How a check went of late, in a sentence. @param {TrendCheck} check @param {number} digits */
export function trendWords(check, digits) {
  const [first, last] = [check.points[0], check.points.at(-1)];
  if (!first || !last) return t('never measured');
  const now = withUnit(last.median, check.unit, digits);
  const spread = withUnit(last.q3 - last.q1, check.unit, digits);
  const alike = Number((last.q3 - last.q1).toFixed(digits)) === 0; // "within 0°" would say nothing
  if (last.legs < 2 || alike) {
    if (first === last) return now;
    return t('last {now}; at first {first}', { now, first: withUnit(first.median, check.unit, digits) });
  }
  if (first === last) return t('{now}, half of the legs within {spread}', { now, spread });
  return t('last {now}, half of the legs within {spread}; at first {first}', {
    now,
    spread,
    first: withUnit(first.median, check.unit, digits),
  });
}

/** "4 of 6 legs met". @param {TrendPoint} p */
export function metWords(p) {
  return p.legs === 1
    ? t(p.met === 1 ? 'one leg, met' : 'one leg, not met')
    : t('{met} of {legs} legs met', { met: number(p.met), legs: number(p.legs) });
}
