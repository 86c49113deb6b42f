// The brief of a maneuver in an aircraft: read before it is flown, and printed.

/** @import { BriefSheet, Card, Cards, Leg, Phrase, StationList, Trace } from './types.d.ts' */
/** @import { View } from './sessions.d.ts' */

import { call } from './api.js';
import { shortCaution } from './caution.js';
import { attr, h, show, text } from './dom.js';
import { Nav } from './elements/nav.js';
import { pathViews } from './elements/path.js';
import { FlownSheetElement } from './elements/sheet.js';
import { explained, term } from './elements/term.js';
import { at, dress } from './page.js';
import { bandWords } from './pure/check.js';
import { digitsOf, joined, withUnit } from './pure/format.js';
import { numbers, query } from './pure/path.js';
import { sentence, told } from './pure/phrase.js';
import { cardText, language, t } from './pure/text.js';

customElements.define('ht-sheet', FlownSheetElement);

/** Errors that are always shown and printed; the others are a click away. */
const most = 10;

const fields = {
  maneuver: h('select', { id: 'maneuver' }),
  standard: h('select', { id: 'standard' }),
  aircraft: h('select', { id: 'aircraft' }),
};
const print = h('button', { type: 'button', id: 'print' });
/** @type {Omit<Cards, 'auto'>} */ let cards = { maneuvers: [], standards: [], aircraft: [] };
/** Answers of a choice that was changed since are not shown. */
let asked = 0;
const station = new URLSearchParams(location.search).get('station') ?? '';

function standing() {
  dress('Brief');
  text(print, t('Print'));
  const field = (/** @type {string} */ name, /** @type {HTMLElement} */ node) =>
    h('label', { class: 'field', for: node.id }, h('span', { class: 'soft' }, name), node);
  at('choices').replaceChildren(
    field(t('Maneuver'), fields.maneuver),
    field(t('Standard'), fields.standard),
    field(t('Aircraft'), fields.aircraft),
    print,
  );
  attr(at('choices'), 'aria-label', t('Choices'));
}

/** @param {HTMLSelectElement} node @param {Card[]} options @param {string} value */
function fill(node, options, value) {
  node.replaceChildren(...options.map((o) => h('option', { value: o.name }, cardText(o.title))));
  node.value = value;
}

function wanted() {
  return { maneuver: fields.maneuver.value, standard: fields.standard.value, aircraft: fields.aircraft.value };
}

/** @param {{ maneuver: string, standard: string, aircraft: string }} of */
async function ask(of) {
  const mine = ++asked;
  /** @type {{ value: BriefSheet, error: '' } | { value: null, error: string }} */
  const answer = await call(`api/brief?${query(of)}`);
  if (mine !== asked) return;
  text(at('state'), answer.error);
  const main = /** @type {HTMLElement} */ (document.querySelector('main'));
  show(main, answer.value !== null);
  if (answer.value) draw(main, answer.value);
}

/** @param {HTMLElement} main @param {BriefSheet} b */
function draw(main, b) {
  fields.standard.value = b.plan.standard;
  const standard = cards.standards?.find((s) => s.name === b.plan.standard)?.title ?? b.plan.standard;
  const title = cardText(b.maneuver.title);
  text(at('title'), title);
  const facts = [
    t('{name} standard', { name: cardText(standard) }),
    b.aircraft ? cardText(b.aircraft.title) : t('no aircraft chosen'),
    b.plan.legs > 1 ? t('{n} legs', { n: b.plan.legs }) : t('one leg'),
  ];
  text(at('subtitle'), facts.join(' · '));
  document.title = `${title} · ${t('Brief')} · Halfturn`;
  const sheet = new FlownSheetElement();
  // no empty lanes
  const lanes = (b.plan.lanes ?? []).filter((l) => b.path !== null || (l.corridor ?? []).length > 1);
  const plan = { ...b.plan, lanes };
  attr(sheet, 'data-lanes', plan.lanes.length);
  const caption = b.path
    ? t('The band is what is allowed, the line the reference path, over the turn')
    : t('What is allowed, over the turn');
  main.replaceChildren(
    h('p', { class: 'on-paper small' }, shortCaution()),
    h('p', { class: 'summary' }, cardText(b.maneuver.summary ?? '')),
    numbersPart(b),
    h('section', { class: 'reference', 'aria-label': t('Reference path') },
      h('figure', { class: 'sheet-figure' }, h('figcaption', {}, h('span', {}, ...explained(caption))), sheet),
      h('div', { class: 'path-views' }, ...pathViews(b)),
    ),
    checkpointsPart(b),
    h('div', { class: 'two' }, gatesPart(b), usualPart(b)),
    errorsPart(b),
    h('footer', { class: 'small soft' },
      h('p', {}, [t('Sources'), ...b.sources.map((s, i) => `${t(i === 0 ? 'Maneuver' : 'Aircraft')}: ${s}`)]
        .join(' · ')),
      h('p', { class: 'cautions' }, b.cautions.map(cardText).join(' ')),
    ),
  );
  const view = { main: { plan, leg: reference(b), samples: {} }, over: null };
  sheet.update(/** @type {View} */ (/** @type {unknown} */ (view)));
}

/** The reference path as if it were flown. @param {BriefSheet} b @returns {Partial<Leg>} */
function reference(b) {
  /** @type {Trace[]} */
  const trace = (b.path ?? []).map(({ turn, time, bank, pitch, airspeed, height, along, across }) => ({
    turn,
    time,
    bank,
    pitch,
    airspeed,
    height,
    along,
    across,
  }));
  return { checks: [], trace };
}

/** @param {BriefSheet} b */
function numbersPart(b) {
  const { known, unknown } = numbers(b);
  const shown = known.map((n) => h('div', { 'data-number': n.id }, h('dt', {}, ...explained(told(n.label))), value(n)));
  return h('section', { 'aria-labelledby': 'numbers-title' },
    h('h2', { id: 'numbers-title' }, t('Numbers')),
    h('dl', { class: 'numbers' }, ...shown),
    ...(unknown.length === 0 ? [] : [missingLine(b, unknown)]),
    ...(b.problem === '' ? [] : [h('p', { class: 'unknown' }, ...explained(noPath(b)))]),
    ...(b.plan.warnings ?? []).map((w) => h('p', { class: 'warning' }, sentence(w))),
    ...(b.notes ?? []).map((n) => h('p', { class: 'note' }, sentence(n))));
}

/** @param {BriefSheet} b @param {readonly Phrase[]} unknown the labels of the numbers that are not known */
function missingLine(b, unknown) {
  const what = joined(unknown.map((label) => lower(told(label))));
  const line = h('p', { class: 'unknown' }, t('Not known: {what}.', { what }));
  if (b.aircraft === null) {
    const advice = t('They need an aircraft card: choose one above, or measure yours from a recording with');
    line.append(' ', advice, ' ', h('code', {}, 'halfturn cards measure'), '.');
  }
  return line;
}

/** Why there is no reference path. @param {BriefSheet} b */
function noPath(b) {
  if (b.aircraft !== null) return t('There is no reference path: {why}.', { why: told(b.problem) });
  return t(
    'Without an aircraft there is no reference path, so the highest nose, the height it takes, ' +
      'the load and the margin over the stall cannot be told.',
  );
}

/** A number as read; where it falls stands small beside it. @param {BriefSheet['numbers'][number]} n */
function value(n) {
  const number = n.value === null ? cardText(n.words) : withUnit(n.value, n.unit, n.digits);
  const band = bandWords(n.met, n.unit, digitsOf(n.unit));
  return h('dd', {}, number,
    ...(n.where === '' ? [] : [h('span', { class: 'where' }, ` ${told(n.where)}`)]),
    ...(band === '' ? [] : [h('span', { class: 'where' }, ` (${band})`)]));
}

/** A label within a sentence; German nouns keep their capitals. @param {string} label */
function lower(label) {
  return language() === 'de' ? label : label.charAt(0).toLowerCase() + label.slice(1);
}

/** @param {BriefSheet} b */
function checkpointsPart(b) {
  const checkpoints = b.plan.checkpoints ?? [];
  const turns = new Set([...checkpoints.map((c) => c.turn), ...b.said.map((s) => s.turn)]);
  const rows = [...turns].sort((x, y) => x - y).map((turn) => {
    const post = checkpoints.find((c) => c.turn === turn);
    const cues = b.said.filter((s) => s.turn === turn);
    const label = post?.label ?? cues[0]?.label ?? '';
    return h('tr', {},
      h('th', { scope: 'row' }, t(label)),
      h('td', {}, cardText(post?.words ?? '')),
      h('td', {}, told(post?.want ?? '')),
      h('td', {}, ...cues.map((s) => h('q', {}, told(s.words)))),
    );
  });
  const heads = [t('Turn angle'), t('What to see'), t('What to fly'), t('Callout')];
  const head = h('tr', {}, ...heads.map((w) => h('th', { scope: 'col' }, w)));
  return h('section', { 'aria-labelledby': 'turn-title' },
    h('h2', { id: 'turn-title' }, t('In the turn')),
    h('div', { class: 'scroll', tabindex: 0, role: 'group', 'aria-labelledby': 'turn-title' },
      h('table', { class: 'turn-table' }, h('thead', {}, head), h('tbody', {}, ...rows)),
    ),
  );
}

/** @param {BriefSheet} b */
function gatesPart(b) {
  return h('section', { 'aria-labelledby': 'gates-title' },
    h('h2', { id: 'gates-title' }, term('gate', t('Before you begin'), true)),
    h('dl', { class: 'gates' },
      ...b.gates.map((g) => h('div', {}, h('dt', {}, ...explained(told(g.label))), h('dd', {}, told(g.want)))),
    ),
  );
}

/** @param {BriefSheet} b */
function usualPart(b) {
  return h('section', { 'aria-labelledby': 'usual-title' }, h('h2', { id: 'usual-title' }, t('Usual errors')),
    h('ul', { class: 'usual' }, ...b.usual.map((e) => h('li', {}, ...explained(cardText(e))))));
}

/** @param {BriefSheet} b */
function errorsPart(b) {
  const row = (/** @type {BriefSheet['errors'][number]} */ e) =>
    h('div', { class: 'error' }, h('dt', {}, told(e.title)), h('dd', {}, told(e.advice)));
  const node = h('section', { class: 'errors', 'aria-labelledby': 'errors-title' },
    h('h2', { id: 'errors-title' }, t('What to change, when it goes wrong')),
    h('p', { class: 'soft small' }, t('What can cost most comes first.')),
    h('dl', { class: 'errors-list' }, ...b.errors.slice(0, most).map(row)),
  );
  const rest = b.errors.slice(most);
  if (rest.length > 0) {
    const more = h('summary', {}, t('{n} more', { n: rest.length }));
    node.append(h('details', {}, more, h('dl', { class: 'errors-list' }, ...rest.map(row))));
  }
  return node;
}

/** @param {ReturnType<typeof wanted>} of */
function ways(of) {
  const nav = document.querySelector('ht-nav');
  if (nav instanceof Nav) {
    nav.update({
      brief: query({ ...of, station }),
      ...(station === '' ? {} : { panel: new URLSearchParams({ station }).toString() }),
    });
  }
}

function changed() {
  const of = wanted();
  history.replaceState(null, '', `?${query({ ...of, station })}`);
  ways(of);
  void ask(of);
}

async function begin() {
  standing();
  const asks = new URLSearchParams(location.search);
  const [known, there] = await Promise.all([call('api/cards'), call('api/stations')]);
  if (known.error !== '') return text(at('state'), known.error);
  cards = /** @type {Cards} */ (known.value);
  const flown = /** @type {StationList | null} */ (there.value)?.stations.find(
    (s) => s.name === station || station === '',
  );
  const names = (cards.maneuvers ?? []).map((c) => c.name);
  const first =
    flown && names.includes(flown.maneuver)
      ? flown.maneuver
      : names.includes('wing-over')
        ? 'wing-over'
        : (names[0] ?? '');
  const of = {
    maneuver: asks.get('maneuver') ?? first,
    standard: asks.get('standard') ?? '',
    aircraft: asks.get('aircraft') ?? (asks.has('maneuver') ? '' : (flown?.aircraft ?? '')),
  };
  fill(fields.maneuver, cards.maneuvers ?? [], of.maneuver);
  fill(fields.standard, cards.standards ?? [], of.standard);
  fill(fields.aircraft, [{ name: '', title: t('none chosen') }, ...(cards.aircraft ?? [])], of.aircraft);
  ways(of);
  await ask(of);
}

for (const field of Object.values(fields)) field.addEventListener('change', changed);
print.addEventListener('click', () => window.print());
void begin();
