// The debrief of a session: its legs at a glance, one of them in full, and one cursor through
// all its pictures. Which leg, what lies over it and where the cursor stands is in the address.

/** @import { Verdict } from './types.d.ts' */
/** @import { FlownLeg, FlownLegs, FlownSheet, LegRef, ReplayState, SessionDetail, Students, View } from './sessions.d.ts' */

import { call, post, save } from './api.js';
import { attr, h, show, text } from './dom.js';
import { GroundTrack } from './elements/ground.js';
import { causes, calloutTable, changeLine, checkTable, verdictLine } from './elements/judged.js';
import { mark } from './elements/mark.js';
import { LayOver, legName } from './elements/over.js';
import { TimePlots } from './elements/plots.js';
import { Remarks } from './elements/remarks.js';
import { FlownSheetElement, smallSheet } from './elements/sheet.js';
import { CursorValues } from './elements/values.js';
import { WhoFlew } from './elements/whoflew.js';
import { at, backToList, dress } from './page.js';
import { atTurn, nearest, value } from './pure/flight.js';
import { capital, judged, number, stationWords, verdictWords, withUnit } from './pure/format.js';
import { refOf, refWords, sameRef } from './pure/reference.js';
import { dayWords, timeWords } from './pure/sessions.js';
import { said, t } from './pure/text.js';

dress('Debrief');
backToList();
for (const [name, made] of /** @type {[string, CustomElementConstructor][]} */ ([['ht-sheet', FlownSheetElement], ['ht-ground', GroundTrack], ['ht-plots', TimePlots],
  ['ht-values', CursorValues], ['ht-over', LayOver], ['ht-remarks', Remarks], ['ht-flew', WhoFlew]])) customElements.define(name, made);

const id = decodeURIComponent(location.pathname.split('/').at(-1) ?? '');
const api = `api/sessions/${encodeURIComponent(id)}`;

/** @template T @param {string} tag @param {Record<string, string>} [attributes] @returns {T} */
function element(tag, attributes = {}) {
  return /** @type {T} */ (/** @type {unknown} */ (h(/** @type {any} */ (tag), attributes)));
}

const parts = {
  sheet: /** @type {FlownSheetElement} */ (element('ht-sheet')), ground: /** @type {GroundTrack} */ (element('ht-ground', { class: 'card' })),
  plots: /** @type {TimePlots} */ (element('ht-plots')), values: /** @type {CursorValues} */ (element('ht-values')), over: /** @type {LayOver} */ (element('ht-over')),
  remarks: /** @type {Remarks} */ (element('ht-remarks', { id: 'remarks', role: 'region', 'aria-labelledby': 'remarks-title' })), student: /** @type {WhoFlew} */ (element('ht-flew')),
  head: h('div', { class: 'leg-head' }),
  scrub: h('input', { type: 'range', id: 'scrub', min: 0, step: 1, 'aria-label': t('Moment of the leg') }),
  when: h('output', { for: 'scrub' }),
  replay: h('button', { type: 'button', id: 'replay', class: 'main-button' }, t('Replay from here')),
  print: h('button', { type: 'button', id: 'print' }, t('Print')),
  files: h('details', { class: 'menu', id: 'files' }),
  keep: h('button', { type: 'button', id: 'keep', 'aria-pressed': 'false' }, t('Keep')),
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

/** @param {{ outcome: string, grade: string, verdict: Verdict }} leg */
function wordOf(leg) {
  if (leg.outcome === 'broken-off') return t('broken off');
  if (leg.outcome === 'knock-off') return t('stopped for safety');
  return t(leg.grade || verdictWords(leg.verdict));
}

/** The legs at a glance, with what only a series shows. @param {FlownLegs} all */
function drawLegs(all) {
  /** @type {Map<number, FlownSheet[]>} */
  const series = new Map();
  for (const leg of all.legs) series.set(leg.series, [...(series.get(leg.series) ?? []), leg]);
  at('legs').replaceChildren(...[...series].map(([n, legs]) => h('div', { class: 'series', role: 'group', 'aria-label': t('Series {n}', { n }) },
    h('div', { class: 'series-legs' }, ...legs.map((leg) => legButton(all, leg))), seriesLine(all, n))));
}

/** @param {FlownLegs} all @param {FlownSheet} leg */
function legButton(all, leg) {
  const button = h('button', { type: 'button', class: 'leg-button', 'data-leg': leg.n },
    h('span', { class: 'leg-name' }, legName(all, leg)),
    smallSheet(/** @type {import('./types.d.ts').Plan} */ (all.plans[leg.plan]), leg.trace ?? []),
    h('span', { class: 'leg-grade' }, mark(leg.verdict), ` ${wordOf(leg)}`, h('span', { class: 'leg-score' }, judged(leg) ? ` ${number(leg.score)}` : '')));
  button.addEventListener('click', () => void open(leg.n));
  return button;
}

/** @param {FlownLegs} all @param {number} n */
function seriesLine(all, n) {
  const whole = all.series[n - 1];
  const told = (whole?.checks ?? []).filter((c) => c.verdict !== 'not-measured');
  if (!whole || (told.length === 0 && !whole.missing)) return ''; // a single leg, or one broken off, is all there is to tell
  const off = told.filter((c) => c.verdict !== 'met' && !(whole.missing && (c.kind === 'legs' || c.kind === 'directions')));
  const words = [whole.missing ? t('not complete: {what}', { what: said(whole.missing) }) : '', ...off.map((c) => `${said(c.label)}: ${verdictWords(c.verdict)}`)].filter((w) => w !== '');
  const score = whole.verdict === 'not-measured' ? t('the series') : t('the series, {score}', { score: number(whole.score) });
  return h('p', { class: 'series-line small' }, mark(whole.verdict), h('span', {}, score), h('span', { class: 'soft' }, words.length === 0 ? t('leg against leg: nothing off') : words.join(', ')));
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
  for (const b of at('legs').querySelectorAll('button')) attr(b, 'aria-pressed', String(b.dataset['leg'] === String(n)));
  parts.over.update(list, sheet, id, view.over ? ref : null);
  drawHead(main);
  drawSubtitle();
  drawTables(main);
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
  parts.head.replaceChildren(h('h2', {}, said(plan.title) + of, h('span', { class: 'soft' }, ` ${side}`)),
    verdictLine(leg.verdict, capital(wordOf(leg)), judged(leg) ? leg.score : null));
  if (leg.reason) parts.head.append(h('p', { class: 'strong' }, capital(said(leg.reason))));
  parts.head.append(changeLine(leg));
  if (view?.over && list) parts.head.append(h('p', { class: 'on-paper small' }, t('Pale: {leg}', { leg: overName(view.over, list) })));
}

/** What is laid over, in words for the paper. @param {FlownLeg} over @param {FlownLegs} all */
function overName(over, all) {
  const sheet = over.session === id ? all.legs.find((l) => l.n === over.n) : undefined;
  return sheet ? `${legName(all, sheet)}, ${judged(sheet) ? number(sheet.score) : wordOf(sheet)}` : `${over.session}, ${t('leg {n}', { n: over.n })}`;
}

function drawSubtitle() {
  const plan = view?.main.plan ?? list?.plans[0];
  const legs = list?.legs.length ?? 0;
  const when = detail ? `${dayWords(detail.began)}, ${timeWords(detail.began)}` : '';
  const flown = plan ? [t('{standard} standard', { standard: said(plan.standard.replace(/ standard$/, '')) }), plan.aircraft ? said(plan.aircraft) : t('no aircraft chosen')] : [];
  text(at('subtitle'), [detail?.student ?? '', when, stationWords(detail?.station ?? ''), goesOn() ? t('being flown now') : '', (legs === 0 ? t('no leg') : legs === 1 ? t('one leg') : t('{n} legs', { n: legs })).replace(' ', '\u00a0'), ...flown].filter((w) => w !== '').join('\u00a0· '));
}

function drawSession() {
  drawSubtitle();
  for (const node of [parts.keep, parts.files, parts.student, parts.remarks]) show(node, detail !== null);
  if (!detail) return;
  attr(parts.keep, 'aria-pressed', String(detail.keep));
  text(parts.keep, detail.keep ? t('Kept') : t('Keep'));
  attr(parts.keep, 'title', t('A session that is kept is never removed by age or size.'));
  parts.student.update(detail.student, students);
  parts.remarks.update(id, detail.said, turnOf);
  if (!view) drawFiles();
  drawRegrades(detail);
}

/** @param {SessionDetail} d */
function drawRegrades(d) {
  const box = at('regrades');
  show(box, d.regrades.length > 0);
  box.replaceChildren(h('h2', { id: 'regrades-title' }, t('Graded again')), ...d.regrades.map((r) => h('details', {},
    h('summary', {}, [timeOf(r.at), said(r.standard), t(r.grade || 'no grade'), r.score === null ? '' : number(r.score)].filter((w) => w !== '').join(' · ')),
    r.differences.length === 0 ? h('p', {}, t('Nothing differs from the first grade.')) : h('ul', { class: 'rows' }, ...r.differences.map((w) => h('li', {}, said(w)))))));
}

/** @param {string} when */
function timeOf(when) {
  return `${dayWords(when)}, ${timeWords(when)}`;
}

/** The moments remarked on, as marks on the ribbon. */
function drawRemarks() {
  if (!view) return;
  const { main } = view;
  parts.remarks.update(id, detail?.said ?? [], turnOf);
  parts.sheet.notes((detail?.said ?? []).filter((r) => r.leg === main.n && r.time !== null)
    .map((r) => ({ turn: turnOf(r) ?? 0, words: r.words })));
}

/** The turn angle of a remarked moment, null where it is not in the turn. @param {import('./sessions.d.ts').Remark} r */
function turnOf(r) {
  const leg = list?.legs.find((l) => l.n === r.leg);
  if (!leg || r.time === null) return null;
  const time = leg.start + r.time - leg.place;
  if (time < leg.start - 0.5) return null; // times are rounded
  return (leg.trace?.findLast((p) => p.time <= time) ?? leg.trace?.[0])?.turn ?? null;
}

/** @param {FlownLeg} f */
function drawTables(f) {
  const scroll = (/** @type {string} */ name, /** @type {Node} */ table) => h('div', { class: 'scroll', tabindex: 0, role: 'group', 'aria-label': name }, table);
  show(parts.causes, (f.leg.causes ?? []).length > 0);
  parts.causes.replaceChildren(h('h2', { id: 'causes-title' }, t('Why, and what to change')), causes(f.leg));
  parts.checks.replaceChildren(h('h2', { id: 'checks-title' }, t('Checks')), scroll(t('Checks'), checkTable(f.leg.checks ?? [], t('In the order of the turn'))));
  parts.said.replaceChildren(h('h2', { id: 'said-title' }, t('Callouts')), scroll(t('Callouts'), calloutTable(f, (time) => move(nearest(f.samples['time'], time)))));
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
  resting = setTimeout(() => parts.remarks.cursor({ leg: main.n, time: value(main.samples, 'place', cursor), turn }), 120); // a field that changes lays the page out anew
  if (parts.time.open) parts.plots.cursor(cursor);
  if (parts.scrub.valueAsNumber !== cursor) parts.scrub.value = String(cursor);
  const words = t('{seconds} s · {turn}° turned', { seconds: number(seconds, 1), turn: number(turn) });
  text(parts.when, withUnit(seconds, 's', 1));
  attr(parts.scrub, 'aria-valuetext', words);
}

/** Lets a pointer drag the cursor over a picture. @param {Element} node @param {(e: PointerEvent) => number | null} where */
function drag(node, where) {
  const follow = (/** @type {Event} */ e) => {
    const i = where(/** @type {PointerEvent} */ (e));
    if (i !== null) move(i);
  };
  node.addEventListener('pointerdown', (e) => {
    const p = /** @type {PointerEvent} */ (e);
    if (p.button !== 0) return;
    node.setPointerCapture(p.pointerId);
    follow(p);
  });
  node.addEventListener('pointermove', (e) => {
    if (node.hasPointerCapture(/** @type {PointerEvent} */ (e).pointerId)) follow(e);
  });
}

function build() {
  parts.time.append(h('summary', {}, t('Over time')), parts.plots);
  at('leg').replaceChildren(
    h('div', { class: 'leg-row' }, parts.head, h('div', { class: 'tools' }, parts.over, parts.replay, parts.error)),
    h('div', { class: 'pictures' }, h('div', { class: 'ribbon-side' }, parts.sheet, h('div', { class: 'scrub-row' }, h('p', { class: 'when' }, h('span', {}, t('Time')), parts.when), parts.scrub)), parts.ground, parts.values),
    parts.causes, parts.time, parts.checks, parts.said, parts.remarks);
  drag(parts.sheet, (e) => (view ? atTurn(view.main, parts.sheet.turnAt(e.clientX)) : null));
  drag(parts.ground.picture, (e) => parts.ground.sampleAt(e.clientX, e.clientY));
  drag(parts.plots, (e) => {
    const svg = e.target instanceof Element ? e.target.closest('svg') ?? parts.plots.querySelector('svg') : null;
    return svg && view ? nearest(view.main.samples['time'], parts.plots.secondsAt(svg, e.clientX) + view.main.leg.start) : null;
  });
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
  at('signatures').replaceChildren(...['Student', 'Instructor', 'Date'].map((w) => h('p', {}, h('span', { class: 'line' }), t(w))));
}

/** What can be carried away: the session, and the leg that is shown. */
function drawFiles() {
  const link = (/** @type {string} */ path, /** @type {string} */ name) => {
    const a = h('a', { href: new URL(`${api}/${path}`, import.meta.url).href, download: '' }, name);
    a.addEventListener('click', async (e) => { // a link alone could not say why there is no file
      e.preventDefault();
      text(at('state'), await save(`${api}/${path}`));
    });
    return a;
  };
  const n = view?.main.n;
  const row = (/** @type {string} */ name, /** @type {string} */ leg) => h('p', {}, h('span', { class: 'soft' }, name),
    ...[['csv', 'CSV'], ['parquet', 'Parquet'], ['gpx', 'GPX'], ['kml', 'KML'], ['json', 'JSON']].map(([format = '', word = '']) => link(`export?format=${format}${leg}`, word)), link(`print.pdf${leg.replace('&', '?')}`, 'PDF'));
  parts.files.replaceChildren(h('summary', {}, t('Export')), h('div', { class: 'menu-sheet' }, row(t('the session'), ''), ...(n ? [row(t('leg {n}', { n }), `&leg=${n}`)] : [])));
}

/** @param {'keep' | 'student'} what @param {Partial<SessionDetail>} to */
async function change(what, to) {
  /** @type {Awaited<ReturnType<typeof call<{ student?: string }>>>} */
  const { value: kept, error } = await post(`${api}/${what}`, to);
  text(at('state'), error);
  if (error === '' && detail) detail = { ...detail, ...to, ...kept }; // a name is told as it was first written
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
  else if (list?.legs.length === 0) words.push(list.advice ? t('No leg was flown in this session.') : t('No leg was flown in this session. What was not a leg can still be replayed.'));
  if (list?.legs.length === 0 && list.advice) words.push(said(list.advice));
  if (list?.damage) words.push(t('The recording could not be read to its end: {why}', { why: said(list.damage) }));
  words.push(detail?.problem ? said(detail.problem) : error);
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
  drawLegs(list);
  const query = new URLSearchParams(location.search);
  const thing = query.get('thing'); // the leg where this was the one thing, the latest such
  const wanted = list.legs.find((l) => l.n === Number(query.get('leg'))) ?? list.legs.findLast((l) => thing !== null && l.change === thing) ?? list.legs[0];
  address({ thing: null });
  await open(wanted?.n ?? 1, { turn: Number(query.get('turn') ?? 0) });
}

void run();
