// The grade sheet of a student: how each maneuver stands, and how well the student judges it.

/** @import { GradeSheet, SheetGrade, SheetRow } from './sessions.d.ts' */

import { call, save } from './api.js';
import { h, show, text } from './dom.js';
import { at, backToList, dress } from './page.js';
import { number } from './pure/format.js';
import { told } from './pure/phrase.js';
import { dayWords } from './pure/sessions.js';
import { cardText, language, t } from './pure/text.js';

dress('Grade sheet');
backToList();
const api = `api/students/${location.pathname.split('/').at(-1) ?? ''}/sheet`;

const heads = ['Maneuver', 'Legs', 'Last', 'Best', 'Median', 'Required', 'Work on'];

/** A cell, which says what it is where the rows are folded. @param {number} of @param {(Node | string)[]} children */
const cell = (of, ...children) => h('td', { 'data-head': heads.map((w) => t(w))[of] ?? '' }, ...children);

/** @param {number} of @param {SheetGrade} g */
function grade(of, g) {
  const place = `../sessions/${encodeURIComponent(g.session)}?leg=${g.n}`;
  return cell(of, h('a', { href: place, title: dayWords(g.began) }, `${t(g.grade)} ${number(g.score)}`));
}

/** @param {SheetRow} r */
function row(r) {
  const required = r.required === '' ? '–' : `${t(r.required)}, ${r.reached ? t('reached') : t('not yet')}`;
  const work = r.workOn === '' ? '–' : `${told(r.workOn)} ${t('({times} of {of})', { times: r.times, of: r.of })}`;
  return h('tr', {}, h('th', { scope: 'row' }, cardText(r.title)), cell(1, number(r.legs)),
    grade(2, r.last), grade(3, r.best), grade(4, r.median), cell(5, required), cell(6, work));
}

/** @param {GradeSheet} s */
function agreement(s) {
  const a = s.agreement;
  if (a.rated === 0) return [];
  return [h('section', {}, h('h2', {}, t('The student’s own view')),
    h('p', {}, t('Of {rated} rated legs {same} were rated as measured, {near} a grade apart.',
      { rated: number(a.rated), same: number(a.same), near: number(a.near) })),
    h('p', {}, t('Better than measured: {higher}; worse: {lower}.',
      { higher: number(a.higher), lower: number(a.lower) })),
    h('p', {}, t('The one thing was named in {named}, and was the measured one in {thing}.',
      { named: number(a.named), thing: number(a.thing) })))];
}

/** @param {string} kind */
function file(kind) {
  const words = kind === 'pdf' ? t('As PDF') : t('As CSV');
  const b = h('button', { type: 'button', 'data-file': kind }, words);
  const query = kind === 'pdf' && language() !== 'en' ? `?language=${language()}` : '';
  b.addEventListener('click', () => void save(`${api}.${kind}${query}`).then((error) => text(at('state'), error)));
  return b;
}

async function run() {
  /** @type {Awaited<ReturnType<typeof call<GradeSheet>>>} */
  const { value: s, error } = await call(api);
  text(at('state'), error);
  if (!s) return;
  show(at('sheet'), true);
  text(at('subtitle'), s.student);
  at('sheet').append(
    h('div', { class: 'sheet-facts' },
      h('a', { href: `../sessions?student=${encodeURIComponent(s.student)}` }, t('Sessions: {n}',
        { n: number(s.sessions) })),
      h('a', { href: `../course?student=${encodeURIComponent(s.student)}` }, t('Course')),
      h('span', {}, t('signed: {n}', { n: number(s.signed) })), file('pdf'), file('csv')),
    s.maneuvers.length === 0
      ? h('p', { class: 'soft' }, t('Nothing was graded yet.'))
      : h('div', { class: 'scroll', tabindex: 0, role: 'group', 'aria-label': t('Grade sheet') },
        h('table', { class: 'sheet-table' },
          h('thead', {}, h('tr', {}, ...heads.map((w) => h('th', { scope: 'col' }, t(w))))),
          h('tbody', {}, ...s.maneuvers.map(row)))),
    ...agreement(s),
  );
}

void run();
