// What was flown: the sessions, newest first, and how each check goes from one to the next. What is looked for is in the address.

/** @import { SessionList, SessionRow, Trend, TrendCheck } from './sessions.d.ts' */
/** @import { Filters } from './pure/sessions.js' */

import { call } from './api.js';
import { attr, h, show, text } from './dom.js';
import { hatch } from './elements/hatch.js';
import { mark } from './elements/mark.js';
import { trendPlot, trendTable } from './elements/trend.js';
import { digitsOf, number, stationWords, verdictWords } from './pure/format.js';
import { askedOf, byDay, chosenWords, filtersOf, grades, lasted, open, queryOf, subjectOf, timeWords, trendWords } from './pure/sessions.js';
import { said, t } from './pure/text.js';
import { at, dress, leaveList } from './page.js';

dress('Sessions');

/** @type {Filters} */ let filters = filtersOf(location.search);
/** @type {SessionRow[]} */ let rows = [];
/** @type {SessionList | null} */ let list = null;
/** @type {Trend | null} */ let trend = null;
let chosen = new URLSearchParams(location.search).get('check') ?? '';
/** Answers of a question that was changed since are not shown. */
let asked = 0;

const fields = {
  student: h('select', { id: 'student' }), maneuver: h('select', { id: 'maneuver' }), aircraft: h('select', { id: 'aircraft' }), grade: h('select', { id: 'grade' }),
  from: h('input', { type: 'date', id: 'from' }), to: h('input', { type: 'date', id: 'to' }),
  text: h('input', { type: 'search', id: 'text', maxlength: 200, autocomplete: 'off', spellcheck: 'false' }),
};
const all = h('button', { type: 'button', id: 'all' }, t('Show all'));
const choose = h('button', { type: 'button', id: 'choose', 'aria-expanded': 'false' }); // there on a narrow page only
const more = h('button', { type: 'button', id: 'more' }, t('Show older ones'));
const take = h('input', { type: 'file', id: 'take', class: 'visually-hidden', accept: '.pcap,.pcapng,.gz,.zst' });
const taken = h('p', { class: 'soft', id: 'taken', role: 'status' });
const found = h('p', { class: 'soft', id: 'found', role: 'status' });
const leftOut = h('details', { class: 'left-out', id: 'left-out', hidden: '' });
const days = h('div', { class: 'days' });
const empty = h('button', { type: 'button', id: 'empty' });

function buildFilters() {
  const field = (/** @type {string} */ name, /** @type {HTMLElement} */ node) => h('label', { class: 'filter', for: node.id }, h('span', { class: 'soft small' }, name), node);
  at('filters').append(choose, field(t('Student'), fields.student), field(t('Maneuver'), fields.maneuver), field(t('Aircraft'), fields.aircraft), field(t('Grade'), fields.grade),
    field(t('From'), fields.from), field(t('To'), fields.to), field(t('In the remarks'), fields.text), all);
  attr(at('filters'), 'aria-label', t('Which sessions'));
  choose.addEventListener('click', () => attr(choose, 'aria-expanded', String(choose.getAttribute('aria-expanded') === 'false')));
  at('filters').addEventListener('submit', (e) => e.preventDefault());
  for (const name of /** @type {const} */ (['student', 'maneuver', 'aircraft', 'grade', 'from', 'to'])) {
    fields[name].addEventListener('change', () => want({ ...filters, [name]: fields[name].value }, true));
  }
  /** @type {ReturnType<typeof setTimeout> | undefined} */ let typing;
  fields.text.addEventListener('input', () => {
    clearTimeout(typing);
    typing = setTimeout(() => want({ ...filters, text: fields.text.value }, false), 200);
  });
  empty.addEventListener('click', () => want({ ...filters, empty: filters.empty === '' ? '1' : '' }, true));
  all.addEventListener('click', () => want(filtersOf(''), true));
  addEventListener('popstate', () => {
    filters = filtersOf(location.search);
    chosen = new URLSearchParams(location.search).get('check') ?? '';
    leaveList(location.search);
    void ask();
  });
}

/** @param {Filters} to @param {boolean} step whether Back undoes it */
function want(to, step) {
  filters = to;
  address(step);
  void ask();
}

/** @param {boolean} step */
function address(step) {
  const query = queryOf(filters);
  const check = chosen === '' ? '' : `check=${encodeURIComponent(chosen)}`;
  const search = [query, check].filter((w) => w !== '').join('&');
  leaveList(search);
  const url = search === '' ? location.pathname : `${location.pathname}?${search}`;
  if (step) history.pushState(null, '', url);
  else history.replaceState(null, '', url);
}

async function ask() {
  const mine = ++asked;
  const query = askedOf(filters);
  const [answer, went] = await Promise.all([ask1(query), ask2(query)]);
  if (mine !== asked) return;
  text(at('state'), answer.error || went.error);
  if (answer.value) {
    list = answer.value;
    rows = [...list.sessions];
  }
  if (went.value) trend = went.value;
  draw();
}

/** @param {string} query @returns {Promise<{ value: SessionList, error: '' } | { value: null, error: string }>} */
function ask1(query) {
  return call(`api/sessions?limit=30${query === '' ? '' : `&${query}`}`);
}

/** @param {string} query @returns {Promise<{ value: Trend, error: '' } | { value: null, error: string }>} */
function ask2(query) {
  return call(`api/sessions/trend?${query}`);
}

async function older() {
  if (!list || list.next === '') return;
  const mine = asked;
  const query = new URLSearchParams(askedOf(filters));
  query.set('after', list.next);
  more.disabled = true;
  const answer = await ask1(query.toString());
  more.disabled = false;
  if (mine !== asked) return;
  text(at('state'), answer.error);
  if (!answer.value) return;
  const from = rows.length;
  rows = [...rows, ...answer.value.sessions];
  list = answer.value;
  draw();
  const next = days.querySelectorAll('a')[from];
  if (next instanceof HTMLElement) next.focus();
}

/** Sends a capture to the server, which makes sessions of it. */
async function takeIn() {
  const file = take.files?.[0];
  if (!file) return;
  text(taken, t('{name} is being taken in …', { name: file.name }));
  /** @type {Awaited<ReturnType<typeof call<{ sessions: { session: string, legs: number, double?: boolean, notGradable?: string }[] | null, notes?: string[] }>>>} */
  const got = await call(`api/sessions/import?name=${encodeURIComponent(file.name)}`, { method: 'POST', headers: { 'content-type': 'application/octet-stream' }, body: file });
  take.value = '';
  const made = got.value?.sessions ?? [];
  const why = [...made.map((m) => m.notGradable ?? ''), ...(got.value?.notes ?? [])].map(said).filter((w) => w !== '').join(' ');
  const words = made.length === 0 ? t('There is no session in it.') : made.every((m) => m.double) ? t('It is here already.') : made.length === 1 ? t('One session was taken in.') : t('{n} sessions were taken in.', { n: made.length });
  text(taken, got.error || [words, why].filter((w) => w !== '').join(' '));
  if (made.length > 0 && made.every((m) => m.legs === 0)) want({ ...filters, empty: '1' }, false);
  else await ask();
}

function draw() {
  if (!list) return;
  show(/** @type {Element} */ (document.querySelector('main')), true);
  fill(fields.student, t('all'), list.students.map((s) => ({ name: s, title: s })), filters.student);
  fill(fields.maneuver, t('all'), list.maneuvers.map((m) => ({ ...m, title: said(m.title) })), filters.maneuver);
  fill(fields.aircraft, t('all'), list.aircraft.map((m) => ({ ...m, title: said(m.title) })), filters.aircraft);
  fill(fields.grade, t('any'), grades.map((g) => ({ name: g, title: t(g) })), filters.grade);
  for (const name of /** @type {const} */ (['from', 'to', 'text'])) if (document.activeElement !== fields[name]) fields[name].value = filters[name];
  show(all, !open(filters));
  text(choose, chosenWords(filters, (name, value) => fields[name].querySelector(`option[value="${CSS.escape(value)}"]`)?.textContent ?? value));
  const bare = list.total === 0 && open(filters); // nothing to choose from, no trend
  show(at('filters'), !bare);
  show(at('trend'), !bare);
  text(at('subtitle'), list.total === 0 ? t('no session') : list.total === 1 ? t('one session') : t('{n} sessions', { n: number(list.total) }));
  drawLeftOut();
  drawDays();
  drawTrend();
}

/** What is on the disk and not in the list. */
function drawLeftOut() {
  const { total, sessions } = list?.leftOut ?? { total: 0, sessions: [] };
  show(leftOut, total > 0);
  const rest = total - sessions.length;
  leftOut.replaceChildren(
    h('summary', {}, total === 1 ? t('One session is left out of the logbook') : t('{n} sessions are left out of the logbook', { n: number(total) })),
    h('ul', { class: 'rows' }, ...sessions.map((s) => h('li', {}, h('strong', {}, s.id), h('span', {}, said(s.why)))),
      ...(rest > 0 ? [h('li', {}, t('and {n} more', { n: number(rest) }))] : [])),
    h('p', { class: 'soft small' }, t('Their folders stay as they are. Mend what is said of each, then stop the server and run:'), ' ', h('code', {}, 'halfturn sessions rebuild')));
}

/** @param {HTMLSelectElement} node @param {string} any @param {{ name: string, title: string }[]} options @param {string} value */
function fill(node, any, options, value) {
  const known = value === '' || options.some((o) => o.name === value) ? options : [...options, { name: value, title: value }];
  node.replaceChildren(h('option', { value: '' }, any), ...known.map((o) => h('option', { value: o.name }, o.title)));
  node.value = value;
}

function drawDays() {
  const none = rows.length === 0;
  text(found, !none ? '' : open(filters) ? t('Nothing was flown yet. The first leg begins the first session.') : t('No session is like that. Choose less, or show all.'));
  days.replaceChildren(...byDay(rows).map(({ day, rows: of }) => h('section', { class: 'day', 'aria-label': day }, h('h3', {}, day), h('ul', { class: 'rows' }, ...of.map(row)))));
  show(more, list?.next !== '' && !none);
  const n = list?.unflown ?? 0;
  show(empty, n > 0 || filters.empty !== '');
  text(empty, filters.empty !== '' ? t('Hide sessions without a leg') : n === 1 ? t('Show also one session without a leg') : t('Show also {n} sessions without a leg', { n: number(n) }));
}

/** @param {SessionRow} r */
function row(r) {
  const marks = h('span', { class: 'marks', role: 'img', 'aria-label': counted(r) }, ...r.verdicts.slice(0, 24).map((v) => mark(v)), r.verdicts.length > 24 ? '…' : '');
  for (const m of marks.querySelectorAll('svg')) attr(m, 'aria-hidden', 'true');
  const facts = [timeWords(r.began), r.ended === '' ? t('being flown now') : lasted(r), r.legs === 1 ? t('one leg') : t('{n} legs', { n: number(r.legs) }), r.keep ? t('kept') : '',
    r.remarks === 0 ? '' : r.remarks === 1 ? t('one remark') : t('{n} remarks', { n: number(r.remarks) })].filter((w) => w !== '');
  const [who, what] = r.student ? [r.student, subjectOf(r)] : [subjectOf(r), stationWords(r.station)];
  return h('li', { class: 'session-row' },
    h('a', { class: 'session-link', href: `sessions/${encodeURIComponent(r.id)}` },
      h('span', { class: 'session-who' }, who), h('span', { class: 'session-what' }, what)),
    h('span', { class: 'session-grade' }, t(r.grade || 'no grade'), h('span', { class: 'session-score' }, r.score === null ? '' : ` ${number(r.score)}`)),
    h('span', { class: 'session-line' }, marks, h('span', { class: 'session-facts soft small' }, facts.join(' · '))),
    ...(r.change === '' ? [] : [h('span', { class: 'session-change' }, h('span', { class: 'soft' }, `${t('The one thing')}: `), said(r.change))]),
    ...(r.found === '' ? [] : [h('q', { class: 'session-found small' }, r.found)]));
}

/** "5 met, 1 near". @param {SessionRow} r */
function counted(r) {
  const of = /** @type {const} */ (['met', 'near', 'missed', 'not-measured']).map((v) => [r.verdicts.filter((x) => x === v).length, verdictWords(v)]);
  return of.filter(([n]) => n !== 0).map(([n, w]) => `${n} ${w}`).join(', ') || t('no leg');
}

function drawTrend() {
  const box = at('trend');
  if (!trend || !trend.maneuver || trend.legs === 0 || trend.checks.every((c) => c.points.length === 0)) {
    box.replaceChildren(h('h2', { id: 'trend-title' }, t('Trend')), h('p', { class: 'soft' }, t('There is no finished leg to tell a trend from.')));
    return;
  }
  const { streak, things } = trend;
  const open = trend.checks.filter((c) => c.points.length > 0);
  const big = open.find((c) => c.id === chosen);
  box.replaceChildren(
    h('h2', { id: 'trend-title' }, t('Trend'), h('span', { class: 'soft' }, ` ${said(trend.maneuver.title)}, ${trend.legs === 1 ? t('one leg') : t('{n} legs', { n: number(trend.legs) })}`)),
    h('div', { class: 'trend-head' },
      h('section', { class: 'card', 'aria-labelledby': 'streak-title' }, h('h3', { id: 'streak-title' }, t('Good or better in a row')),
        h('p', { class: 'big-number' }, number(streak.now)), h('p', { class: 'soft small' }, t('the longest: {n}', { n: number(streak.best) }))),
      h('section', { class: 'card', 'aria-labelledby': 'things-title' }, h('h3', { id: 'things-title' }, t('Most often the one thing')),
        things.length === 0 ? h('p', {}, t('Nothing had to be changed.')) : h('ol', { class: 'things' }, ...things.slice(0, 4).map(thing)))),
    ...(big ? [bigTrend(big)] : []),
    h('p', { class: 'small soft' }, t('A mark is the median of a session; its bar holds the middle half of the legs, the hair all of them. The band is what was met in each of them.')),
    h('div', { class: 'multiples' }, ...open.map(multiple)));
}

/** @param {Trend['things'][number]} x */
function thing(x) {
  const legs = x.legs === 1 ? t('one leg') : t('{n} legs', { n: number(x.legs) });
  const share = (x.legs / (trend?.things[0]?.legs ?? x.legs)) * 100; // of the most frequent one: the rest compare with it
  const bar = h('span', { class: 'share', 'aria-hidden': 'true' });
  bar.style.setProperty('--share', `${share.toFixed(0)}%`);
  const latest = h('a', { href: `sessions/${encodeURIComponent(x.session)}?thing=${encodeURIComponent(x.words)}`, 'aria-label': t('The latest leg: {thing}', { thing: said(x.words) }) }, t('latest'));
  return h('li', {}, h('span', {}, said(x.words)), bar, h('span', { class: 'thing-legs small' }, legs, ' · ', latest));
}

/** @param {TrendCheck} c */
function multiple(c) {
  const button = h('button', { type: 'button', class: 'multiple', 'aria-pressed': String(c.id === chosen), 'data-check': c.id },
    h('span', { class: 'multiple-name' }, said(c.label)), trendPlot(c), h('span', { class: 'small soft' }, trendWords(c, digitsOf(c.unit))));
  button.addEventListener('click', () => {
    chosen = chosen === c.id ? '' : c.id;
    address(false);
    drawTrend();
    const again = document.querySelector(`[data-check="${CSS.escape(c.id)}"]`);
    if (again instanceof HTMLElement) again.focus({ preventScroll: true });
    document.getElementById('big')?.scrollIntoView({ block: 'nearest' });
  });
  return button;
}

/** @param {TrendCheck} c */
function bigTrend(c) {
  const close = h('button', { type: 'button', id: 'big-close' }, t('Close'));
  close.addEventListener('click', () => {
    chosen = '';
    address(false);
    drawTrend();
  });
  return h('section', { class: 'card', id: 'big', 'aria-labelledby': 'big-title' }, h('div', { class: 'big-head' }, h('h3', { id: 'big-title' }, said(c.label)), close),
    trendPlot(c, true), h('div', { class: 'scroll', tabindex: 0, role: 'group', 'aria-label': t('Session by session, the latest first') }, trendTable(c)));
}

leaveList(location.search);
at('patterns').append(hatch());
buildFilters();
at('list').append(h('div', { class: 'list-head' }, h('h2', { id: 'list-title' }, t('By day')), h('a', { href: '#trend', class: 'to-trend' }, t('To the trend')),
  h('label', { class: 'take', for: 'take' }, t('Take in a recording')), take), taken, leftOut, found, days, more, empty);
more.addEventListener('click', () => void older());
take.addEventListener('change', () => void takeIn());
void ask();
