// What was flown: the sessions, newest first, and how each check goes from one to the next. What is looked for is
// in the address.

/** @import { SessionList, SessionRow, Trend } from './sessions.d.ts' */
/** @import { Phrase } from './types.d.ts' */
/** @import { Filters } from './pure/sessions.js' */

import { call } from './api.js';
import { attr, h, show, text } from './dom.js';
import { hatch } from './elements/hatch.js';
import { leftOutList } from './elements/leftout.js';
import { nothingYet, progress } from './elements/progress.js';
import { sessionRow } from './elements/sessionrow.js';
import { trends } from './elements/trends.js';
import { number } from './pure/format.js';
import { isSelf, seesSheet } from './pure/rights.js';
import {
  askedOf,
  byDay,
  chosenWords,
  filtersOf,
  grades,
  open,
  queryOf,
} from './pure/sessions.js';
import { told } from './pure/phrase.js';
import { cardText, t } from './pure/text.js';
import { at, dress, leaveList } from './page.js';
import { looking, self } from './rights.js';

dress('Sessions');

/** @type {Filters} */ let filters = filtersOf(location.search);
/** @type {SessionRow[]} */ let rows = [];
/** @type {SessionList | null} */ let list = null;
/** @type {Trend | null} */ let trend = null;
/** @type {Trend[]} One for each maneuver. */ let each = [];
let chosen = new URLSearchParams(location.search).get('check') ?? '';
/** Answers of a question that was changed since are not shown. */
let asked = 0;

const fields = {
  student: h('select', { id: 'student' }),
  maneuver: h('select', { id: 'maneuver' }),
  aircraft: h('select', { id: 'aircraft' }),
  grade: h('select', { id: 'grade' }),
  from: h('input', { type: 'date', id: 'from' }),
  to: h('input', { type: 'date', id: 'to' }),
  text: h('input', { type: 'search', id: 'text', maxlength: 200, autocomplete: 'off', spellcheck: 'false' }),
};
const all = h('button', { type: 'button', id: 'all' }, t('Show all'));
const choose = h('button', { type: 'button', id: 'choose', 'aria-expanded': 'false' }); // there on a narrow page only
const more = h('button', { type: 'button', id: 'more' }, t('Show older ones'));
/** Recordings, and the text logs of other programs. */
const taking = '.pcap,.pcapng,.gz,.zst,.csv,.tsv,.txt,.log,.json,.jsonl,.ndjson';
const take = h('input', { type: 'file', id: 'take', class: 'visually-hidden', accept: taking });
const taken = h('p', { class: 'soft', id: 'taken', role: 'status' });
const found = h('p', { class: 'soft', id: 'found', role: 'status' });
const leftOut = h('details', { class: 'left-out', id: 'left-out', hidden: '' });
const days = h('div', { class: 'days' });
const empty = h('button', { type: 'button', id: 'empty' });

function buildFilters() {
  const field = (/** @type {string} */ name, /** @type {HTMLElement} */ node) =>
    h('label', { class: 'filter', for: node.id }, h('span', { class: 'soft small' }, name), node);
  at('filters').append(
    choose,
    field(t('Student'), fields.student),
    field(t('Maneuver'), fields.maneuver),
    field(t('Aircraft'), fields.aircraft),
    field(t('Grade'), fields.grade),
    field(t('From'), fields.from),
    field(t('To'), fields.to),
    field(t('In the remarks'), fields.text),
    all,
  );
  attr(at('filters'), 'aria-label', t('Which sessions'));
  choose.addEventListener('click', () =>
    attr(choose, 'aria-expanded', String(choose.getAttribute('aria-expanded') === 'false')),
  );
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
void looking().then(() => draw());
  });
}

/** @param {Filters} to @param {boolean} step whether Back undoes it */
function want(to, step) {
  filters = to;
  address(step);
  void ask();
void looking().then(() => draw());
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
  void askEach(mine);
}

/** Asks how each maneuver goes, one after the other. @param {number} mine */
async function askEach(mine) {
  const names = (list?.maneuvers ?? []).map((m) => m.name);
  /** @type {Trend[]} */ const all = [];
  for (const name of names) {
    const known = name === trend?.maneuver?.name ? trend : null;
    const value = known ?? (await ask2(askedOf({ ...filters, maneuver: name }))).value;
    if (mine !== asked) return;
    if (value) all.push(value);
  }
  each = all;
  drawProgress();
}

function drawProgress() {
  const of = filters.maneuver || (trend?.maneuver?.name ?? '');
  const focus = document.activeElement;
  const pressed = focus instanceof HTMLElement ? focus.dataset['maneuver'] : undefined;
  at('progress').replaceChildren(...progress(each, of, (maneuver) => {
    want({ ...filters, maneuver: filters.maneuver === maneuver ? '' : maneuver }, true);
  }));
  if (pressed !== undefined) {
    const again = document.querySelector(`[data-maneuver="${CSS.escape(pressed)}"]`);
    if (again instanceof HTMLElement) again.focus({ preventScroll: true });
  }
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
  text(taken, t('{name} is being imported …', { name: file.name }));
  /**
   * @type {Awaited<ReturnType<typeof call<{ sessions: { session: string, legs: number, double?: boolean,
   *   notGradable?: Phrase }[] | null, notes?: Phrase[] }>>>}
   */
  const got = await call(`api/sessions/import?name=${encodeURIComponent(file.name)}`, {
    method: 'POST',
    headers: { 'content-type': 'application/octet-stream' },
    body: file,
  });
  take.value = '';
  const made = got.value?.sessions ?? [];
  const why = [...made.map((m) => m.notGradable ?? ''), ...(got.value?.notes ?? [])]
    .map(told)
    .filter((w) => w !== '')
    .join(' ');
  const words =
    made.length === 0
      ? t('There is no session in it.')
      : made.every((m) => m.double)
        ? t('It is here already.')
        : made.length === 1
          ? t('One session was imported.')
          : t('{n} sessions were imported.', { n: made.length });
  text(taken, got.error || [words, why].filter((w) => w !== '').join(' '));
  if (made.length > 0 && made.every((m) => m.legs === 0)) want({ ...filters, empty: '1' }, false);
  else await ask();
}

function draw() {
  if (!list) return;
  show(/** @type {Element} */ (document.querySelector('main')), true);
  const titled = (/** @type {{ name: string, title: string }[]} */ all) =>
    all.map((x) => ({ ...x, title: cardText(x.title) }));
  fill(fields.student, t('all'), list.students.map((s) => ({ name: s, title: s })), filters.student);
  fill(fields.maneuver, t('all'), titled(list.maneuvers), filters.maneuver);
  fill(fields.aircraft, t('all'), titled(list.aircraft), filters.aircraft);
  fill(fields.grade, t('any'), grades.map((g) => ({ name: g, title: t(g) })), filters.grade);
  for (const name of /** @type {const} */ (['from', 'to', 'text'])) {
    if (document.activeElement !== fields[name]) fields[name].value = filters[name];
  }
  show(all, !open(filters));
  text(choose, chosenWords(filters, (name, value) =>
    fields[name].querySelector(`option[value="${CSS.escape(value)}"]`)?.textContent ?? value));
  const bare = list.total === 0 && open(filters); // nothing to choose from, no trend
  show(at('filters'), !bare);
  show(at('trend'), !bare);
  show(at('progress'), !bare);
  const { total } = list;
  const count = total === 0
    ? t('no session')
    : total === 1
      ? t('one session')
      : list.more ? t('more than {n} sessions', { n: number(total) }) : t('{n} sessions', { n: number(total) });
  at('subtitle').replaceChildren(count, ...sheetLink());
  drawLeftOut();
  drawDays();
  drawTrend();
}

/** The way to the grade sheet of the student who is looked for, or of whoever looks. */
function sheetLink() {
  const me = self();
  const name = filters.student || (me?.role === 'student' && me.user ? me.name : '');
  if (name === '' || !seesSheet(me, name)) return [];
  const words = isSelf(me, name) ? t('Your grade sheet') : t('Grade sheet');
  return [' · ', h('a', { href: `students/${encodeURIComponent(name)}`, id: 'to-sheet' }, words)];
}

/**
 * @param {HTMLSelectElement} node
 * @param {string} any
 * @param {{ name: string, title: string }[]} options
 * @param {string} value
 */
function fill(node, any, options, value) {
  const known =
    value === '' || options.some((o) => o.name === value) ? options : [...options, { name: value, title: value }];
  node.replaceChildren(h('option', { value: '' }, any), ...known.map((o) => h('option', { value: o.name }, o.title)));
  node.value = value;
}

/** What is on the disk and not in the list. */
function drawLeftOut() {
  const left = list?.leftOut ?? { total: 0, sessions: [] };
  show(leftOut, left.total > 0);
  leftOut.replaceChildren(...leftOutList(left));
}

function drawTrend() {
  at('trend').replaceChildren(...trends(trend, chosen, (check) => {
    chosen = check;
    address(false);
    drawTrend();
  }));
}

function drawDays() {
  const none = rows.length === 0;
  const bare = none && open(filters);
  text(found, none && !bare ? t('No session matches. Choose fewer conditions, or show all.') : '');
  days.replaceChildren(
    ...(bare ? [nothingYet()] : []),
    ...byDay(rows).map(({ day, rows: of }) =>
      h('section', { class: 'day', 'aria-label': day },
        h('h3', {}, day),
        h('ul', { class: 'rows' }, ...of.map((r) =>
          sessionRow(r, rows[rows.indexOf(r) - 1] ?? null, rows.find((x) => x.grade === r.grade) === r))))),
  );
  show(more, list?.next !== '' && !none);
  const n = list?.unflown ?? 0;
  show(empty, n > 0 || filters.empty !== '');
  text(
    empty,
    filters.empty !== ''
      ? t('Hide sessions without a leg')
      : n === 1
        ? t('Show also one session without a leg')
        : t('Show also {n} sessions without a leg', { n: number(n) }),
  );
}

leaveList(location.search);
at('patterns').append(hatch());
buildFilters();
at('list').append(
  h('div', { class: 'list-head' },
    h('h2', { id: 'list-title' }, t('By day')),
    h('a', { href: '#trend', class: 'to-trend' }, t('To the trend')),
    h('label', { class: 'take', for: 'take' }, t('Import a recording')),
    take,
  ),
  taken,
  leftOut,
  found,
  days,
  more,
  empty,
);
more.addEventListener('click', () => void older());
take.addEventListener('change', () => void takeIn());
void ask();
void looking().then(() => draw());
