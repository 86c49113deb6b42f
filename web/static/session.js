// The debrief of a session: its legs at a glance, one of them in full, and one cursor through
// all its pictures. Which leg, what lies over it and where the cursor stands is in the address.

/** @import {
 *   FlownLeg, FlownLegs, Forms, LegRef, ReplayState, SessionDetail, View
 * } from './sessions.d.ts' */

import { call, post, shared } from './api.js';
import { attr, h, show, text } from './dom.js';
import { drag } from './drag.js';
import { byWorst } from './elements/checklist.js';
import { fileMenu } from './elements/files.js';
import { headOf } from './elements/judged.js';
import { legGroups } from './elements/legs.js';
import { otherwise } from './elements/otherwise.js';
import { makeParts } from './elements/parts.js';
import { savePicture } from './elements/picture.js';
import { Playing } from './elements/playing.js';
import { askLogbook, headParts } from './elements/rating.js';
import { overName, standing, subtitle } from './elements/standing.js';
import { regradeList, showLast } from './elements/regrades.js';
import { drawTables } from './elements/tables.js';
import { at, backToList, dress } from './page.js';
import { foundWords } from './pure/around.js';
import { energyNamed } from './pure/energy.js';
import { atTurn, nearest, value } from './pure/flight.js';
import { capital } from './pure/format.js';
import { chosenFirst, known as lanesOf, rowsOf } from './pure/lanes.js';
import { inLeg, turnAt } from './pure/moments.js';
import { textOf } from './pure/phrase.js';
import { refOf, refWords, sameRef } from './pure/reference.js';
import { cardText, t } from './pure/text.js';

dress('Debrief');
backToList();
const id = shared ? 'shared' : decodeURIComponent(location.pathname.split('/').at(-1) ?? '');
const api = `api/sessions/${encodeURIComponent(id)}`;
const parts = makeParts();

/** @type {FlownLegs | null} */ let list = null;
/** @type {SessionDetail | null} */ let detail = null;
/** @type {string[]} */ let students = [];
/** @type {Forms | null} */ let forms = null;
const seen = /** @type {Set<number>} legs whose grade was asked for without a rating */ (new Set());
/** @type {View | null} */ let view = null;
let cursor = 0;
let planned = false;
/** The lanes in the order chosen; null until one is pressed. @type {string[] | null} */ let chosen = null;
/** @type {Playing} */ let playing;
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
  if (shared) return; // a file's address is its place on the disk
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
  playing.stop();
  if (!shared) parts.over.update(list, sheet, id, view.over ? ref : null);
  drawHead(main);
  drawSubtitle();
  drawTables(parts, main, (time) => move(nearest(main.samples['time'], time)), shared ? null : detail);
  drawLanes();
  for (const p of [parts.views, parts.plots, parts.values]) p.update(view);
  drawRemarks();
  drawFiles();
  move(where.time != null ? nearest(main.samples['place'], where.time) : atTurn(main, where.turn ?? 0));
}

/** The lanes that are chosen, or come chosen with the leg. */
function drawLanes() {
  if (!view) return;
  const { main, over } = view;
  const rows = rowsOf(main);
  const there = lanesOf(rows);
  const ids = chosen?.filter((l) => there.some((k) => k.id === l)) ?? [];
  const { checks, causes } = main.leg;
  const now = ids.length > 0 ? ids : chosenFirst(byWorst(checks ?? []), there, energyNamed(causes ?? []));
  parts.lanes.update(there, now);
  parts.sheet.update(view, there.filter((k) => now.includes(k.id)), rows, over ? rowsOf(over) : null);
}

function drawSubtitle() {
  text(at('subtitle'), subtitle(detail, view?.main.plan ?? list?.plans[0], list?.legs.length ?? 0));
}

/** @param {FlownLeg} f */
function drawHead(f) {
  const { leg, plan } = f;
  const of = plan.legs > 1 ? t(', leg {n} of {of}', { n: leg.number, of: plan.legs }) : '';
  const side = leg.direction === 'left' ? t('to the left') : leg.direction === 'right' ? t('to the right') : '';
  drawVerdict(f);
  const standard = f.changed ? detail?.standard || plan.standard : undefined;
  parts.about.replaceChildren(h('h2', {}, cardText(plan.title) + of, h('span', { class: 'soft' }, ` ${side}`)),
    ...(shared ? [] : otherwise(leg, (by) => void regrade(by), standard)));
  const pale = view?.over && list ? t('Pale: {leg}', { leg: overName(id, view.over, list) }) : '';
  const notes = [capital(foundWords(leg.about)), pale].filter(Boolean);
  parts.about.append(...notes.map((words) => h('p', { class: 'on-paper small' }, words)));
}

/** The verdict, or before it the question how the leg was. @param {FlownLeg} f */
function drawVerdict(f) {
  parts.head.replaceChildren(...headParts(f, { detail, forms, seen }, (grade, thing) => void rate(f, grade, thing)));
  if (!shared) parts.judging.update(api, detail, list, forms, f.n);
}

/** Keeps a student's rating, and shows the grade. @param {FlownLeg} f @param {string} g @param {string} thing */
async function rate(f, g, thing) {
  seen.add(f.n);
  if (g !== '') {
    /** @type {Awaited<ReturnType<typeof post<SessionDetail>>>} */
    const got = await post(`${api}/rate`, { leg: f.n, grade: g, thing });
    text(parts.error, got.error);
    detail = got.value ?? detail;
  }
  drawHead(f);
}

/** Shows what was judged: grades may have changed. @param {SessionDetail} judged */
async function judgedAgain(judged) {
  detail = judged;
  known.clear();
  /** @type {[Awaited<ReturnType<typeof call<FlownLegs>>>, Awaited<ReturnType<typeof call<Forms>>>]} */
  const [legs, all] = await Promise.all([call(`${api}/legs`), call(`${api}/forms`)]);
  list = legs.value ?? list;
  forms = all.value ?? forms;
  if (list) at('legs').replaceChildren(...legGroups(list, (n) => void open(n)));
  if (view) await open(view.main.n, { turn: value(view.main.samples, 'turn', cursor) ?? 0 });
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

function drawSession() {
  drawSubtitle();
  for (const node of [parts.keep, parts.files, parts.student, parts.remarks, parts.by]) show(node, detail !== null);
  if (!detail) return;
  attr(parts.keep, 'aria-pressed', String(detail.keep));
  text(parts.keep, detail.keep ? t('Protected') : t('Protect'));
  attr(parts.keep, 'title', t('A protected session is never deleted to make room, however old it is.'));
  if (shared) return;
  parts.by.update(detail);
  parts.student.update(detail.student, students);
  parts.remarks.update(id, said(), turnOf);
  if (view) drawHead(view.main); // by which standard is known only now
  else drawFiles();
  show(at('regrades'), detail.regrades.length > 0);
  at('regrades').replaceChildren(...regradeList(detail.regrades));
}

/** The remarks, each with the leg its moment lies in. */
const said = () => (detail?.said ?? []).map((r) => inLeg(r, list?.legs ?? []));

/** The moments remarked on, as marks on the ribbon. */
function drawRemarks() {
  if (!view) return;
  const { main } = view;
  parts.remarks.update(id, said(), turnOf);
  parts.sheet.notes(said().filter((r) => r.leg === main.n && r.time !== null)
    .map((r) => ({ turn: turnOf(r) ?? 0, words: r.words })));
}

/**
 * The turn angle of a remarked moment, null where it is not in the turn.
 * @param {import('./sessions.d.ts').Remark} r
 */
function turnOf(r) {
  const leg = list?.legs.find((l) => l.n === r.leg);
  if (!leg || r.time === null) return null;
  return turnAt(leg.trace ?? [], leg.start + r.time - leg.place);
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
  parts.views.cursor(cursor, other);
  parts.values.cursor(cursor, other);
  clearTimeout(resting);
  const moment = { leg: main.n, time: value(main.samples, 'place', cursor), turn };
  if (!shared) resting = setTimeout(() => parts.remarks.cursor(moment), 120); // changing it costs a layout
  if (parts.time.open) parts.plots.cursor(cursor);
  parts.scrub.draw(turn, seconds);
}

function build() {
  parts.time.append(h('summary', {}, t('Over time')), parts.plots);
  const tools = h('div', { class: 'tools' }, ...(shared ? [] : [parts.over, parts.by, parts.replay]), parts.error);
  const ribbon = h('div', { class: 'ribbon-side' },
    parts.lanes, parts.sheet, parts.scrub.row);
  at('verdict').replaceChildren(parts.head);
  at('see').replaceChildren(parts.see);
  at('leg').replaceChildren(
    h('div', { class: 'pictures' }, ribbon, h('div', { class: 'beside' }, parts.views, parts.worst)),
    parts.values,
    h('div', { class: 'leg-row' }, parts.about, tools),
    parts.causes,
    parts.time,
    parts.checks,
    parts.said,
    ...(shared && !detail?.said.length ? [] : [parts.remarks]),
    ...(shared ? [] : [parts.judging]),
  );
  playing = new Playing(parts.see, { moment: played, move: (time) => {
    if (view) move(nearest(view.main.samples['time'], time));
  }, stops });
  listen();
}

/** What is played: from the entry to the exit. */
function played() {
  const { main } = /** @type {View} */ (view);
  return { now: value(main.samples, 'time', cursor) ?? main.leg.start, from: main.leg.start, to: main.leg.end };
}

/** When the checkpoints were reached. */
function stops() {
  const { main } = /** @type {View} */ (view);
  return (main.plan.checkpoints ?? []).map((p) => value(main.samples, 'time', atTurn(main, p.turn)) ?? main.leg.end);
}

/** The moment that a pointer over the plots is at. @param {PointerEvent} e */
function plotted(e) {
  const svg = e.target instanceof Element ? (e.target.closest('svg') ?? parts.plots.querySelector('svg')) : null;
  if (!svg || !view) return null;
  const time = parts.plots.secondsAt(svg, e.clientX) + view.main.leg.start;
  return nearest(view.main.samples['time'], time);
}

function listen() {
  drag(parts.sheet, (e) => (view ? atTurn(view.main, parts.sheet.turnAt(e.clientX)) : null), scrubbed);
  drag(parts.views.ground.picture, (e) => parts.views.ground.sampleAt(e.clientX, e.clientY), scrubbed);
  parts.sheet.addEventListener('layout', () => parts.scrub.align(parts.sheet));
  parts.lanes.addEventListener('lanes', (e) => {
    chosen = /** @type {CustomEvent<string[]>} */ (e).detail;
    drawLanes();
  });
  parts.by.addEventListener('cards', (e) => void regrade(/** @type {CustomEvent} */ (e).detail));
  drag(parts.plots, plotted, scrubbed);
  parts.scrub.input.addEventListener('input', () => {
    if (view) scrubbed(atTurn(view.main, parts.scrub.input.valueAsNumber));
  });
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
  parts.judging.addEventListener('judged', (e) => void judgedAgain(/** @type {CustomEvent} */ (e).detail));
  parts.remarks.addEventListener('remarks', (e) => {
    if (detail) detail = { ...detail, said: /** @type {CustomEvent} */ (e).detail };
    drawRemarks();
  });
  addEventListener('keydown', keys);
}

/** The cursor is moved by hand: nothing moves it on. @param {number} i */
function scrubbed(i) {
  playing.stop();
  move(i);
}

/** What can be carried away: the session, and the leg that is shown. */
function drawFiles() {
  if (shared) return;
  parts.files.replaceChildren(...fileMenu(api, view?.main.n, (words) => text(at('state'), words), picture));
}

/** Saves the picture of the leg. @param {import('./elements/picture.js').PictureKind} kind */
async function picture(kind) {
  if (view) text(at('state'), await savePicture(view, parts.sheet, parts.views.ground, headOf(view.main.leg), kind));
}

/** What is done to the session as a whole. */
function buildSession() {
  at('session-tools').replaceChildren(...(shared ? [] : [parts.student, parts.keep, parts.files]), parts.print);
  parts.replay.addEventListener('click', () => void replay());
  parts.print.addEventListener('click', () => {
    parts.time.open = parts.checks.open = true;
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
  scrubbed(cursor + step * (e.shiftKey ? 10 : 1));
}

async function replay() {
  const from = view ? value(view.main.samples, 'place', cursor) ?? 0 : 0;
  /** @type {Awaited<ReturnType<typeof call<ReplayState>>>} */
  const got = await post(`${api}/replay`, { from, pace: 1 });
  text(parts.error, got.error);
  if (got.value) location.assign(new URL(`./?station=${encodeURIComponent(got.value.station)}`, import.meta.url));
}

async function run() {
  text(at('state'), t('The recording is being read …'));
  /** @type {[Awaited<ReturnType<typeof call<FlownLegs>>>, Awaited<ReturnType<typeof askLogbook>>]} */
  const [got, logged] = await Promise.all([call(`${api}/legs`), askLogbook(api)]);
  ({ detail, students, forms } = logged);
  list = got.value;
  text(at('state'), capital(standing(detail, list, got.error)));
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
