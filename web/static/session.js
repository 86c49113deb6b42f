// The debrief of a session: its legs at a glance, one of them in full, and one cursor through
// all its pictures. Which leg, what lies over it and where the cursor stands is in the address.

/** @import {
 *   FlownLeg, FlownLegs, LegRef, ReplayState, SessionDetail, Students, View
 * } from './sessions.d.ts' */

import { call, post } from './api.js';
import { attr, h, show, text } from './dom.js';
import { drag } from './drag.js';
import { GroundTrack } from './elements/ground.js';
import { fileMenu } from './elements/files.js';
import { changeLine, verdictLines } from './elements/judged.js';
import { legGroups, wordOf } from './elements/legs.js';
import { otherwise } from './elements/otherwise.js';
import { LayOver, legName } from './elements/over.js';
import { TimePlots } from './elements/plots.js';
import { regradeList, showLast } from './elements/regrades.js';
import { Remarks } from './elements/remarks.js';
import { FlownSheetElement } from './elements/sheet.js';
import { drawTables } from './elements/tables.js';
import { CursorValues } from './elements/values.js';
import { WhoFlew } from './elements/whoflew.js';
import { at, backToList, dress } from './page.js';
import { atTurn, nearest, value } from './pure/flight.js';
import { capital, judged, number, stationWords, withUnit } from './pure/format.js';
import { textOf, told } from './pure/phrase.js';
import { refOf, refWords, sameRef } from './pure/reference.js';
import { dayWords, timeWords } from './pure/sessions.js';
import { cardText, t } from './pure/text.js';

dress('Debrief');
backToList();
for (const [name, made] of /** @type {[string, CustomElementConstructor][]} */ ([
  ['ht-sheet', FlownSheetElement],
  ['ht-ground', GroundTrack],
  ['ht-plots', TimePlots],
  ['ht-values', CursorValues],
  ['ht-over', LayOver],
  ['ht-remarks', Remarks],
  ['ht-flew', WhoFlew],
])) {
  customElements.define(name, made);
}

const id = decodeURIComponent(location.pathname.split('/').at(-1) ?? '');
const api = `api/sessions/${encodeURIComponent(id)}`;

/** @template T @param {string} tag @param {Record<string, string>} [attributes] @returns {T} */
function element(tag, attributes = {}) {
  return /** @type {T} */ (/** @type {unknown} */ (h(/** @type {any} */ (tag), attributes)));
}

const parts = {
  sheet: /** @type {FlownSheetElement} */ (element('ht-sheet')),
  ground: /** @type {GroundTrack} */ (element('ht-ground', { class: 'card' })),
  plots: /** @type {TimePlots} */ (element('ht-plots')),
  values: /** @type {CursorValues} */ (element('ht-values')),
  over: /** @type {LayOver} */ (element('ht-over')),
  remarks: /** @type {Remarks} */ (
    element('ht-remarks', { id: 'remarks', role: 'region', 'aria-labelledby': 'remarks-title' })
  ),
  student: /** @type {WhoFlew} */ (element('ht-flew')),
  head: h('div', { class: 'leg-head' }),
  scrub: h('input', { type: 'range', id: 'scrub', min: 0, step: 1, 'aria-label': t('Moment of the leg') }),
  when: h('output', { for: 'scrub' }),
  replay: h('button', { type: 'button', id: 'replay', class: 'main-button' }, t('Replay from here')),
  print: h('button', { type: 'button', id: 'print' }, t('Print')),
  files: h('details', { class: 'menu', id: 'files' }),
  keep: h('button', { type: 'button', id: 'keep', 'aria-pressed': 'false' }, t('Protect')),
  error: h('p', { class: 'control-error', role: 'alert' }),
  causes: h('section', { class: 'card', id: 'causes', 'aria-labelledby': 'causes-title' }),
  checks: h('section', { id: 'checks', 'aria-labelledby': 'checks-title' }),
  said: h('section', { id: 'said', 'aria-labelledby': 'said-title' }),
  time: h('details', { id: 'time' }),
};

/** @type {FlownLegs | null} */ let list = null;
/** @type {SessionDetail | null} */ let detail = null;
/** @type {string[]} */ let students = [];
/** @type {View | null} */ let view = null;
let cursor = 0;
let planned = false;
/** @type {ReturnType<typeof setTimeout> | undefined} */ let resting;
/** @type {Map<string, FlownLeg>} */ const known = new Map();

/** @param {LegRef} ref @returns {Promise<FlownLeg | null>} */
async function flight(ref) {
  const key = refWords(ref, '');
  const had = known.get(key);
  if (had) return had;
  /** @type {Awaited<ReturnType<typeof call<FlownLeg>>>} */
  const got = await call(`api/sessions/${encodeURIComponent(ref.session)}/legs/${ref.n}`);
  text(parts.error, got.error);
  if (got.value === null) return null;
  known.set(key, got.value);
  return got.value;
}

/** @param {Record<string, string | null>} change */
function address(change) {
  const url = new URL(location.href);
  for (const [name, v] of Object.entries(change)) {
    if (v === null || v === '') url.searchParams.delete(name);
    else url.searchParams.set(name, v);
  }
  history.replaceState(null, '', url);
}

/** Shows a leg. @param {number} n @param {{ turn?: number, time?: number | null }} [where] the cursor begins */
async function open(n, where = {}) {
  const main = await flight({ session: id, n });
  const sheet = list?.legs.find((l) => l.n === n);
  if (!main || !list || !sheet) return;
  const ref = refOf(new URLSearchParams(location.search).get('with'), id);
  const over = ref && !sameRef(ref, { session: id, n }) ? await flight(ref) : null;
  view = { main, over: over?.plan.turn === main.plan.turn ? over : null };
  address({ leg: String(n), with: view.over ? refWords(ref, id) : null });
  for (const b of at('legs').querySelectorAll('button')) {
    attr(b, 'aria-pressed', String(b.dataset['leg'] === String(n)));
  }
  parts.over.update(list, sheet, id, view.over ? ref : null);
  drawHead(main);
  drawSubtitle();
  drawTables(parts, main, (time) => move(nearest(main.samples['time'], time)));
  attr(parts.scrub, 'max', (main.samples['time']?.length ?? 1) - 1);
  for (const p of [parts.sheet, parts.ground, parts.plots, parts.values]) p.update(view);
  drawRemarks();
  drawFiles();
  move(where.time != null ? nearest(main.samples['place'], where.time) : atTurn(main, where.turn ?? 0));
}

/** @param {FlownLeg} f */
function drawHead(f) {
  const { leg, plan } = f;
  const of = plan.legs > 1 ? t(', leg {n} of {of}', { n: leg.number, of: plan.legs }) : '';
  const side = leg.direction === 'left' ? t('to the left') : leg.direction === 'right' ? t('to the right') : '';
  parts.head.replaceChildren(h('h2', {}, cardText(plan.title) + of, h('span', { class: 'soft' }, ` ${side}`)),
    ...verdictLines(leg), ...(leg.another ? [] : [changeLine(leg)]),
    ...otherwise(leg, (by) => void regrade(by), f.changed ? detail?.standard : undefined));
  if (view?.over && list) {
    const words = t('Pale: {leg}', { leg: overName(view.over, list) });
    parts.head.append(h('p', { class: 'on-paper small' }, words));
  }
}

/** Grades the session again by other cards. @param {import('./elements/otherwise.js').OtherCards} by */
async function regrade(by) {
  /** @type {Awaited<ReturnType<typeof post<SessionDetail>>>} */
  const got = await post(`${api}/regrade`, by);
  text(parts.error, got.error);
  if (got.value === null) return;
  detail = got.value;
  drawSession();
  showLast(at('regrades'));
}

/** What is laid over, in words for the paper. @param {FlownLeg} over @param {FlownLegs} all */
function overName(over, all) {
  const sheet = over.session === id ? all.legs.find((l) => l.n === over.n) : undefined;
  return sheet
    ? `${legName(all, sheet)}, ${judged(sheet) ? number(sheet.score) : wordOf(sheet)}`
    : `${over.session}, ${t('leg {n}', { n: over.n })}`;
}

function drawSubtitle() {
  const plan = view?.main.plan ?? list?.plans[0];
  const legs = list?.legs.length ?? 0;
  const when = detail ? `${dayWords(detail.began)}, ${timeWords(detail.began)}` : '';
  const words = [
    detail?.student ?? '',
    when,
    stationWords(detail?.station ?? ''),
    goesOn() ? t('being flown now') : '',
    (legs === 0 ? t('no leg') : legs === 1 ? t('one leg') : t('{n} legs', { n: legs })).replace(' ', '\u00a0'),
  ];
  if (plan) {
    words.push(t('{standard} standard', { standard: cardText(plan.standard) }));
    words.push(plan.aircraft ? cardText(plan.aircraft) : t('no aircraft chosen'));
  }
  text(at('subtitle'), words.filter((w) => w !== '').join('\u00a0· '));
}

function drawSession() {
  drawSubtitle();
  for (const node of [parts.keep, parts.files, parts.student, parts.remarks]) show(node, detail !== null);
  if (!detail) return;
  attr(parts.keep, 'aria-pressed', String(detail.keep));
  text(parts.keep, detail.keep ? t('Protected') : t('Protect'));
  attr(parts.keep, 'title', t('A protected session is never deleted to make room, however old it is.'));
  parts.student.update(detail.student, students);
  parts.remarks.update(id, detail.said, turnOf);
  if (view) drawHead(view.main); // by which standard is known only now
  else drawFiles();
  show(at('regrades'), detail.regrades.length > 0);
  at('regrades').replaceChildren(...regradeList(detail.regrades));
}

/** The moments remarked on, as marks on the ribbon. */
function drawRemarks() {
  if (!view) return;
  const { main } = view;
  parts.remarks.update(id, detail?.said ?? [], turnOf);
  parts.sheet.notes((detail?.said ?? []).filter((r) => r.leg === main.n && r.time !== null)
    .map((r) => ({ turn: turnOf(r) ?? 0, words: r.words })));
}

/**
 * The turn angle of a remarked moment, null where it is not in the turn.
 * @param {import('./sessions.d.ts').Remark} r
 */
function turnOf(r) {
  const leg = list?.legs.find((l) => l.n === r.leg);
  if (!leg || r.time === null) return null;
  const time = leg.start + r.time - leg.place;
  if (time < leg.start - 0.5) return null; // times are rounded
  return (leg.trace?.findLast((p) => p.time <= time) ?? leg.trace?.[0])?.turn ?? null;
}

/** Moves the one cursor; drawn once before the next picture. @param {number} i */
function move(i) {
  const count = view?.main.samples['time']?.length ?? 1;
  cursor = Math.min(Math.max(Math.round(i), 0), count - 1);
  if (planned) return;
  planned = true;
  requestAnimationFrame(drawCursor);
}

function drawCursor() {
  planned = false;
  if (!view) return;
  const { main, over } = view;
  const turn = value(main.samples, 'turn', cursor) ?? 0;
  const seconds = (value(main.samples, 'time', cursor) ?? main.leg.start) - main.leg.start;
  const other = over ? atTurn(over, turn) : 0;
  parts.sheet.cursor(cursor, other);
  parts.ground.cursor(cursor, other);
  parts.values.cursor(cursor, other);
  clearTimeout(resting);
  const moment = { leg: main.n, time: value(main.samples, 'place', cursor), turn };
  resting = setTimeout(() => parts.remarks.cursor(moment), 120); // changing it costs a layout
  if (parts.time.open) parts.plots.cursor(cursor);
  if (parts.scrub.valueAsNumber !== cursor) parts.scrub.value = String(cursor);
  const words = t('{seconds} s · {turn}° turned', { seconds: number(seconds, 1), turn: number(turn) });
  text(parts.when, withUnit(seconds, 's', 1));
  attr(parts.scrub, 'aria-valuetext', words);
}

function build() {
  parts.time.append(h('summary', {}, t('Over time')), parts.plots);
  const tools = h('div', { class: 'tools' }, parts.over, parts.replay, parts.error);
  const when = h('p', { class: 'when' }, h('span', {}, t('Time')), parts.when);
  const ribbon = h('div', { class: 'ribbon-side' }, parts.sheet, h('div', { class: 'scrub-row' }, when, parts.scrub));
  at('leg').replaceChildren(
    h('div', { class: 'leg-row' }, parts.head, tools),
    h('div', { class: 'pictures' }, ribbon, parts.ground, parts.values),
    parts.causes,
    parts.time,
    parts.checks,
    parts.said,
    parts.remarks,
  );
  listen();
}

/** The moment that a pointer over the plots is at. @param {PointerEvent} e */
function plotted(e) {
  const svg = e.target instanceof Element ? (e.target.closest('svg') ?? parts.plots.querySelector('svg')) : null;
  if (!svg || !view) return null;
  const time = parts.plots.secondsAt(svg, e.clientX) + view.main.leg.start;
  return nearest(view.main.samples['time'], time);
}

function listen() {
  drag(parts.sheet, (e) => (view ? atTurn(view.main, parts.sheet.turnAt(e.clientX)) : null), move);
  drag(parts.ground.picture, (e) => parts.ground.sampleAt(e.clientX, e.clientY), move);
  drag(parts.plots, plotted, move);
  parts.scrub.addEventListener('input', () => move(parts.scrub.valueAsNumber));
  parts.time.addEventListener('toggle', () => move(cursor));
  parts.over.addEventListener('over', (e) => {
    address({ with: refWords(/** @type {CustomEvent<LegRef | null>} */ (e).detail, id) });
    if (view) void open(view.main.n, { turn: value(view.main.samples, 'turn', cursor) ?? 0 });
  });
  parts.remarks.addEventListener('go', (e) => {
    const { leg, time } = /** @type {CustomEvent<{ leg: number, time: number | null }>} */ (e).detail;
    void open(leg, { time });
    parts.sheet.scrollIntoView({ block: 'center' });
  });
  parts.remarks.addEventListener('remarks', (e) => {
    if (detail) detail = { ...detail, said: /** @type {CustomEvent} */ (e).detail };
    drawRemarks();
  });
  addEventListener('keydown', keys);
}

/** What can be carried away: the session, and the leg that is shown. */
function drawFiles() {
  parts.files.replaceChildren(...fileMenu(api, view?.main.n, (words) => text(at('state'), words)));
}

/** Whether the session is still being flown. */
function goesOn() {
  return detail?.ended === '';
}

/** What is done to the session as a whole. */
function buildSession() {
  at('session-tools').replaceChildren(parts.student, parts.keep, parts.files, parts.print);
  parts.replay.addEventListener('click', () => void replay());
  parts.print.addEventListener('click', () => {
    parts.time.open = true;
    print();
  });
  parts.keep.addEventListener('click', () => void change('keep', { keep: !detail?.keep }));
  parts.student.addEventListener('student', (e) => void change('student', /** @type {CustomEvent} */ (e).detail));
  at('signatures').replaceChildren(
    ...['Student', 'Instructor', 'Date'].map((w) => h('p', {}, h('span', { class: 'line' }), t(w))),
  );
}

/** @param {'keep' | 'student'} what @param {Partial<SessionDetail>} to */
async function change(what, to) {
  /** @type {Awaited<ReturnType<typeof call<{ student?: string }>>>} */
  const { value: kept, error } = await post(`${api}/${what}`, to);
  text(at('state'), error);
  if (error === '' && detail) detail = { ...detail, ...to, ...kept }; // the server answers with the spelling it keeps
  drawSession();
}

/** The arrows move the cursor from anywhere but a field of their own. @param {KeyboardEvent} e */
function keys(e) {
  const step = { ArrowLeft: -1, ArrowRight: 1 }[e.key];
  const field = e.target instanceof HTMLElement && e.target.closest('input, select, textarea, .scroll');
  if (step === undefined || field || e.altKey || e.ctrlKey || e.metaKey) return;
  e.preventDefault();
  move(cursor + step * (e.shiftKey ? 10 : 1));
}

async function replay() {
  const from = view ? value(view.main.samples, 'place', cursor) ?? 0 : 0;
  /** @type {Awaited<ReturnType<typeof call<ReplayState>>>} */
  const got = await post(`${api}/replay`, { from, pace: 1 });
  text(parts.error, got.error);
  if (got.value) location.assign(new URL(`./?station=${encodeURIComponent(got.value.station)}`, import.meta.url));
}

/** The logbook's words on the session; the flight is shown without them where there are none. */
async function logged() {
  /** @type {[Awaited<ReturnType<typeof call<SessionDetail>>>, Awaited<ReturnType<typeof call<Students>>>]} */
  const [got, names] = await Promise.all([call(api), call('api/students')]);
  detail = got.value;
  students = names.value?.students ?? [];
}

/** How it stands with the session and its recording, in words. @param {string} error why there are no pictures */
function standing(error) {
  const words = [];
  if (goesOn()) words.push(t('This session is being flown: a leg shows here once it is over.'));
  else if (list?.legs.length === 0) {
    words.push(
      list.advice
        ? t('No leg was flown in this session.')
        : t('No leg was flown in this session. The flight can still be replayed.'),
    );
  }
  if (list?.legs.length === 0 && list.advice) words.push(told(list.advice));
  if (list?.damage) words.push(t('The recording could not be read to its end: {why}', { why: told(list.damage) }));
  words.push(detail?.problem ? told(detail.problem) : error);
  return words.filter((w) => w !== '').join(' ');
}

async function run() {
  text(at('state'), t('The recording is being read …'));
  /** @type {[Awaited<ReturnType<typeof call<FlownLegs>>>, void]} */
  const [got] = await Promise.all([call(`${api}/legs`), logged()]);
  list = got.value;
  text(at('state'), capital(standing(got.error)));
  if (!list && !detail) return;
  buildSession();
  show(/** @type {Element} */ (document.querySelector('main')), true);
  drawSession();
  if (!list) return;
  if (list.legs.length === 0) {
    text(parts.replay, t('Replay'));
    at('leg').replaceChildren(h('div', { class: 'tools' }, parts.replay, parts.error));
    return;
  }
  build();
  at('legs').replaceChildren(...legGroups(list, (n) => void open(n)));
  const query = new URLSearchParams(location.search);
  const thing = query.get('thing'); // the leg where this was the one thing, the latest such
  const wanted =
    list.legs.find((l) => l.n === Number(query.get('leg'))) ??
    list.legs.findLast((l) => thing !== null && textOf(l.change) === thing) ??
    list.legs[0];
  address({ thing: null });
  await open(wanted?.n ?? 1, { turn: Number(query.get('turn') ?? 0) });
}

void run();
