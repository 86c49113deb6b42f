// The debrief of a session: its legs at a glance, one of them in full, and one cursor through
// all its pictures. Which leg, what lies over it and where the cursor stands is in the address.

/** @import { Verdict } from './types.d.ts' */
/** @import { FlownLeg, FlownLegs, FlownSheet, LegRef, ReplayState, View } from './sessions.d.ts' */

import { call, post } from './api.js';
import { attr, h, show, text } from './dom.js';
import { causes, calloutTable, checkTable, verdictLine } from './elements/judged.js';
import { GroundTrack } from './elements/ground.js';
import { mark } from './elements/mark.js';
import { TimePlots } from './elements/plots.js';
import { FlownSheetElement, smallSheet } from './elements/sheet.js';
import { aimAt, atTurn, comparable, nearest, value } from './pure/flight.js';
import { digitsOf, number, signed, verdictWords, withUnit } from './pure/format.js';
import { said, setLanguage, t } from './pure/text.js';
import { setUnits } from './pure/units.js';
import { load } from './settings.js';

const settings = load();
setLanguage(settings.language);
setUnits(settings.units);

customElements.define('ht-sheet', FlownSheetElement);
customElements.define('ht-ground', GroundTrack);
customElements.define('ht-plots', TimePlots);

const id = decodeURIComponent(location.pathname.split('/').at(-1) ?? '');
const api = `api/sessions/${encodeURIComponent(id)}`;

/** @param {string} name */
function at(name) {
  const node = document.getElementById(name);
  if (!node) throw new Error(`the page has no ${name}`);
  return node;
}

/** What the values table reads, in this order. */
const quantities = [
  { row: 'bank', title: 'Bank', unit: '°', lane: 'bank' },
  { row: 'pitch', title: 'Nose', unit: '°', lane: 'pitch' },
  { row: 'airspeed', title: 'Speed', unit: 'kt', lane: 'airspeed' },
  { row: 'climb', title: 'Height', unit: 'ft', lane: 'height' },
  { row: 'normal-load', title: 'Load', unit: 'g', lane: '' },
  { row: 'ball', title: 'Ball', unit: 'balls', lane: '' },
  { row: 'stall', title: 'Above stall', unit: 'kt', lane: '' },
];

const parts = {
  sheet: /** @type {FlownSheetElement} */ (h(/** @type {any} */ ('ht-sheet'))),
  ground: /** @type {GroundTrack} */ (h(/** @type {any} */ ('ht-ground'), { class: 'card' })),
  plots: /** @type {TimePlots} */ (h(/** @type {any} */ ('ht-plots'))),
  head: h('div', { class: 'leg-head' }),
  scrub: h('input', { type: 'range', id: 'scrub', min: 0, step: 1, 'aria-label': t('Moment of the leg') }),
  when: h('output', { class: 'when', for: 'scrub' }),
  values: h('table', { class: 'values' }),
  over: h('select', { id: 'over' }),
  replay: h('button', { type: 'button', id: 'replay', class: 'main-button' }, t('Replay from here')),
  print: h('button', { type: 'button', id: 'print' }, t('Print')),
  error: h('p', { class: 'control-error', role: 'alert' }),
  causes: h('section', { class: 'card', id: 'causes', 'aria-labelledby': 'causes-title' }),
  checks: h('section', { id: 'checks', 'aria-labelledby': 'checks-title' }),
  said: h('section', { id: 'said', 'aria-labelledby': 'said-title' }),
  time: h('details', { id: 'time' }),
};

/** @type {FlownLegs | null} */ let list = null;
/** @type {View | null} */ let view = null;
let cursor = 0;
let planned = false;
/** @type {Map<string, FlownLeg>} */ const known = new Map();
/** @type {{ v: HTMLElement, o: HTMLElement, a: HTMLElement }[]} */ let cells = [];

/** @param {LegRef} ref @returns {Promise<FlownLeg | null>} */
async function flight(ref) {
  const key = `${ref.session}:${ref.n}`;
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

/** A leg to lay over, from the address: "3" of this session, "ID:3" of another. @param {string | null} words @returns {LegRef | null} */
function reference(words) {
  const m = /^(?:(.+):)?(\d+)$/.exec(words ?? '');
  return m ? { session: m[1] ?? id, n: Number(m[2]) } : null;
}

/** @param {FlownSheet} leg */
function nameOf(leg) {
  const plan = list?.plans[leg.plan];
  return t('{n} {side}', { n: leg.n, side: t(leg.direction || 'leg') }) + (list && list.plans.length > 1 ? ` · ${said(plan?.title ?? '')}` : '');
}

/** @param {{ outcome: string, grade: string, verdict: Verdict }} leg */
function wordOf(leg) {
  if (leg.outcome === 'broken-off') return t('broken off');
  if (leg.outcome === 'knock-off') return t('stopped for safety');
  return t(leg.grade || verdictWords(leg.verdict));
}

/** The legs at a glance. @param {FlownLegs} all */
function drawLegs(all) {
  /** @type {Map<number, FlownSheet[]>} */
  const series = new Map();
  for (const leg of all.legs) series.set(leg.series, [...(series.get(leg.series) ?? []), leg]);
  at('legs').replaceChildren(...[...series].map(([n, legs]) => h('div', { class: 'series', role: 'group', 'aria-label': t('Series {n}', { n }) },
    ...legs.map((leg) => {
      const button = h('button', { type: 'button', class: 'leg-button', 'data-leg': leg.n },
        h('span', { class: 'leg-name' }, nameOf(leg)),
        smallSheet(/** @type {import('./types.d.ts').Plan} */ (all.plans[leg.plan]), leg.trace ?? []),
        h('span', { class: 'leg-grade' }, mark(leg.verdict), ` ${wordOf(leg)}`, h('span', { class: 'leg-score' }, leg.outcome === 'finished' ? ` ${number(leg.score)}` : '')));
      button.addEventListener('click', () => void open(leg.n));
      return button;
    }))));
}

/** Shows a leg. @param {number} n @param {number} [turn] where the cursor begins */
async function open(n, turn = 0) {
  const main = await flight({ session: id, n });
  if (!main || !list) return;
  const ref = reference(new URLSearchParams(location.search).get('over'));
  const over = ref && !(ref.session === id && ref.n === n) ? await flight(ref) : null;
  view = { main, over: over?.plan.turn === main.plan.turn ? over : null };
  address({ leg: String(n), over: view.over ? new URLSearchParams(location.search).get('over') : null });
  for (const b of at('legs').querySelectorAll('button')) attr(b, 'aria-pressed', String(b.dataset['leg'] === String(n)));
  fillOver(n);
  drawHead(main, list);
  drawTables(main);
  const count = main.samples['time']?.length ?? 1;
  attr(parts.scrub, 'max', count - 1);
  parts.sheet.update(view);
  parts.ground.update(view);
  parts.plots.update(view);
  move(atTurn(main, turn));
}

/** @param {number} n */
function fillOver(n) {
  const options = comparable(list?.legs ?? [], n);
  const now = new URLSearchParams(location.search).get('over') ?? '';
  const own = options.map((l, i) => h('option', { value: l.n },
    i === 0 ? t('{name}, {score}: the best here', { name: nameOf(l), score: number(l.score) }) : t('{name}, {score}', { name: nameOf(l), score: number(l.score) })));
  const other = now.includes(':') ? [h('option', { value: now }, t('leg {n} of {session}', { n: now.split(':').at(-1) ?? '', session: now.slice(0, now.lastIndexOf(':')) }))] : [];
  parts.over.replaceChildren(h('option', { value: '' }, t('nothing')), ...own, ...other);
  parts.over.value = view?.over ? now : '';
  parts.over.disabled = own.length + other.length === 0;
}

/** @param {FlownLeg} f @param {FlownLegs} all */
function drawHead(f, all) {
  const { leg, plan } = f;
  const of = plan.legs > 1 ? t(', leg {n} of {of}', { n: leg.number, of: plan.legs }) : '';
  parts.head.replaceChildren(h('h2', {}, said(plan.title) + of, h('span', { class: 'soft' }, leg.direction ? ` ${t(`to the ${leg.direction}`)}` : '')),
    verdictLine(leg.verdict, capital(wordOf(leg)), leg.outcome === 'finished' ? leg.score : null));
  if (leg.reason) parts.head.append(h('p', { class: 'strong' }, capital(said(leg.reason))));
  const aircraft = plan.aircraft ? said(plan.aircraft) : t('no aircraft chosen');
  text(at('subtitle'), [all.legs.length === 1 ? t('one leg') : t('{n} legs', { n: all.legs.length }), t('{standard} standard', { standard: said(plan.standard.replace(/ standard$/, '')) }), aircraft].join(' · '));
}

/** @param {FlownLeg} f */
function drawTables(f) {
  parts.causes.replaceChildren(h('h2', { id: 'causes-title' }, t('What to change')), ...causes(f.leg));
  parts.checks.replaceChildren(h('h2', { id: 'checks-title' }, t('Checks')),
    h('div', { class: 'scroll', tabindex: 0, role: 'group', 'aria-label': t('Checks') }, checkTable(f.leg.checks ?? [], t('In the order of the turn'))));
  parts.said.replaceChildren(h('h2', { id: 'said-title' }, t('Callouts')),
    h('div', { class: 'scroll', tabindex: 0, role: 'group', 'aria-label': t('Callouts') },
      calloutTable(f, (time) => move(nearest(f.samples['time'], time)))));
  const shown = quantities.filter((q) => f.samples[q.row]);
  cells = shown.map(() => ({ v: h('td', { class: 'number now' }), o: h('td', { class: 'number soft' }), a: h('td', { class: 'number soft' }) }));
  parts.values.replaceChildren(h('caption', { class: 'visually-hidden' }, t('Values at the cursor')),
    h('thead', {}, h('tr', {}, h('td'), h('th', { scope: 'col' }, t('here')), h('th', { scope: 'col' }, t('aim')), ...(view?.over ? [h('th', { scope: 'col' }, t('laid over'))] : []))),
    h('tbody', {}, ...shown.map((q, i) => {
      const c = /** @type {typeof cells[0]} */ (cells[i]);
      return h('tr', {}, h('th', { scope: 'row' }, t(q.title)), c.v, c.a, ...(view?.over ? [c.o] : []));
    })));
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
  if (parts.time.open) parts.plots.cursor(cursor);
  if (parts.scrub.valueAsNumber !== cursor) parts.scrub.value = String(cursor);
  const words = t('{seconds} s · {turn}° turned', { seconds: number(seconds, 1), turn: number(turn) });
  text(parts.when, words);
  attr(parts.scrub, 'aria-valuetext', words);
  quantities.filter((q) => main.samples[q.row]).forEach((q, n) => {
    const cell = cells[n];
    if (!cell) return;
    text(cell.v, reading(q, value(main.samples, q.row, cursor)));
    text(cell.o, over ? reading(q, value(over.samples, q.row, other)) : '');
    const aim = q.lane === '' || seconds < -0.2 ? null : aimAt(main.plan, q.lane, turn);
    text(cell.a, reading(q, aim));
  });
}

/** @param {typeof quantities[number]} q @param {number | null} v */
function reading(q, v) {
  if (v === null) return '';
  const digits = digitsOf(q.unit);
  return q.row === 'climb' ? `${signed(v)}\u00a0${q.unit}` : withUnit(v, q.unit, digits);
}

/** @param {string} words */
function capital(words) {
  return words.charAt(0).toUpperCase() + words.slice(1);
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
  const tools = h('div', { class: 'tools' }, h('label', { class: 'field', for: 'over' }, h('span', { class: 'soft' }, t('Lay over it')), parts.over),
    parts.replay, parts.print, parts.error);
  at('leg').replaceChildren(
    h('div', { class: 'leg-row' }, parts.head, tools),
    h('div', { class: 'pictures' },
      h('div', { class: 'ribbon-side' }, parts.sheet, h('div', { class: 'scrub-row' }, parts.scrub, parts.when)),
      h('div', { class: 'side' }, h('section', { class: 'card', 'aria-label': t('Values at the cursor') }, parts.values), parts.ground)),
    parts.causes, parts.time, parts.checks, parts.said);
  parts.scrub.addEventListener('input', () => move(parts.scrub.valueAsNumber));
  drag(parts.sheet, (e) => (view ? atTurn(view.main, parts.sheet.turnAt(e.clientX)) : null));
  drag(parts.ground.picture, (e) => parts.ground.sampleAt(e.clientX, e.clientY));
  drag(parts.plots, (e) => {
    const svg = e.target instanceof Element ? e.target.closest('svg') ?? parts.plots.querySelector('svg') : null;
    return svg && view ? nearest(view.main.samples['time'], parts.plots.secondsAt(svg, e.clientX) + view.main.leg.start) : null;
  });
  parts.time.addEventListener('toggle', () => move(cursor));
  parts.over.addEventListener('change', () => {
    address({ over: parts.over.value });
    const turn = view ? value(view.main.samples, 'turn', cursor) ?? 0 : 0;
    if (view) void open(view.main.n, turn);
  });
  parts.print.addEventListener('click', () => {
    parts.time.open = true;
    print();
  });
  parts.replay.addEventListener('click', () => void replay());
  addEventListener('keydown', keys);
  drawSignatures();
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
  if (!view) return;
  const from = value(view.main.samples, 'place', cursor) ?? 0;
  /** @type {Awaited<ReturnType<typeof call<ReplayState>>>} */
  const got = await post(`${api}/replay`, { from, pace: 1 });
  text(parts.error, got.error);
  if (got.value) location.assign(new URL(`./?station=${encodeURIComponent(got.value.station)}`, import.meta.url));
}

function drawSignatures() {
  at('signatures').replaceChildren(...['Student', 'Instructor', 'Date'].map((w) => h('p', {}, h('span', { class: 'line' }), t(w))));
}

async function run() {
  document.documentElement.dataset['theme'] = settings.theme;
  document.documentElement.lang = settings.language;
  text(at('title'), t('Debrief'));
  text(at('caution'), t('Simulator practice only. Never for use in an aircraft, not for navigation, no credit toward a license. The aircraft’s handbook, local rules and a licensed instructor come first.'));
  text(at('state'), t('The recording is being read …'));
  /** @type {Awaited<ReturnType<typeof call<FlownLegs>>>} */
  const got = await call(`${api}/legs`);
  text(at('state'), got.error);
  list = got.value;
  if (!list) return;
  document.title = `${t('Debrief')} · Halfturn`;
  text(at('state'), list.damage === '' ? '' : t('The recording could not be read to its end: {why}', { why: list.damage }));
  if (list.legs.length === 0) {
    text(at('state'), t('No leg was flown in this session. What was not a leg can still be replayed.'));
    return;
  }
  build();
  drawLegs(list);
  show(/** @type {Element} */ (document.querySelector('main')), true);
  const query = new URLSearchParams(location.search);
  const wanted = list.legs.find((l) => l.n === Number(query.get('leg'))) ?? list.legs[0];
  await open(wanted?.n ?? 1, Number(query.get('turn') ?? 0));
}

void run();
