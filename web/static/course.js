// The course of a student: how each step stands and what that rests on, what to fly next, the plan for today, the week.

/** @import { CourseCard, CourseList, CourseRecord, PlanItem } from './course.d.ts' */
/** @import { Station } from './types.d.ts' */
/** @import { Students } from './sessions.d.ts' */

import { call, post, save, shared } from './api.js';
import { h, show, text } from './dom.js';
import { at, backToList, dress } from './page.js';
import { itemWords } from './pure/course.js';
import { number } from './pure/format.js';
import { cardText, t } from './pure/text.js';
import { nextCards, planSection, weekSection } from './elements/courseplan.js';
import { recordSection } from './elements/courserecord.js';
import { courseStep, rulingForm, rulingNowhere } from './elements/coursestep.js';
import { blockTable, courseStrip } from './elements/coursestrip.js';
import { setUp } from './elements/flynext.js';
import { looking } from './rights.js';
import { liveStations, seatOf } from './seats.js';

dress('Course');
backToList();

/** @type {{ record: CourseRecord | null, step: string, stations: Station[], students: string[],
 *   courses: readonly CourseCard[], by: string }} */
const known = { record: null, step: '', stations: [], students: [], courses: [], by: '' };

/** @param {string} student */
const api = (student) => `api/students/${encodeURIComponent(student)}`;

/** Whose course is shown: who was asked for, who is logged in, who sits at a station, who flew last. */
async function whom() {
  const asked = new URLSearchParams(location.search).get('student') ?? '';
  const me = await looking();
  const own = me?.user && me.role === 'student' ? me.name : '';
  return asked || own || known.stations.find((s) => s.student !== '')?.student || known.students[0] || '';
}

async function run() {
  if (shared) return take(await call('api/shared/course'));
  const [students, stations, courses] = await Promise.all([
    /** @type {Promise<{ value: Students | null }>} */ (call('api/students')),
    liveStations(),
    /** @type {Promise<{ value: CourseList | null }>} */ (call('api/courses')),
  ]);
  known.students = students.value?.students ?? [];
  known.stations = stations;
  known.courses = courses.value?.courses ?? [];
  const student = await whom();
  if (student === '') {
    text(at('state'), t('Nobody has flown yet. Say on the panel who flies, and fly: the course begins with that.'));
    return;
  }
  await ask(student);
}

/** @param {string} student @param {Record<string, string>} [query] */
async function ask(student, query = {}) {
  const more = new URLSearchParams(query).toString();
  take(await call(`${api(student)}/course${more === '' ? '' : `?${more}`}`));
}

/** @param {{ value: CourseRecord | null, error: string }} answer */
function take({ value, error }) {
  text(at('state'), error);
  if (!value) return;
  known.record = value;
  if (!value.course.steps.some((s) => s.id === known.step)) known.step = value.progress.now;
  draw(value);
}

/** @param {CourseRecord} r */
function draw(r) {
  const of = r.course.steps.length;
  text(at('course-title'), cardText(r.course.title));
  text(at('subtitle'), [r.student, t('steps passed: {n} of {of}', { n: number(r.progress.passed), of: number(of) })]
    .filter((w) => w !== '').join(' · '));
  show(at('course'), true);
  show(at('course-tools'), shared === null);
  if (shared === null) at('course-tools').replaceChildren(...tools(r));
  at('course').replaceChildren(
    h('p', { class: 'soft' }, cardText(r.course.summary)),
    courseStrip(r, known.step, (step) => {
      known.step = step;
      draw(r);
      document.querySelector(`[data-step="${CSS.escape(step)}"]`)?.scrollIntoView({ block: 'nearest' });
      /** @type {HTMLElement | null} */ (document.querySelector(`[data-step="${CSS.escape(step)}"]`))
        ?.focus({ preventScroll: true });
    }),
    ...blockTable(r),
    h('div', { class: 'next-row' }, ...nextCards(r, r.plan.items[0] ? flyButtons(r.plan.items[0], true) : [])),
    ...(known.step === '' ? [] : [courseStep(r, known.step, stepActs(r))]),
    h('div', { class: 'plan-row' }, planSection(r, (item) => flyButtons(item, false)), weekSection(r)),
    recordSection(r),
  );
  const form = ruling(r);
  if (form !== null) at('step').append(form);
}

/** Buttons that set a station up, and go to its panel. @param {PlanItem} item @param {boolean} main */
function flyButtons(item, main) {
  if (shared) return [];
  const station = seatOf(known.stations, known.record?.student ?? '');
  const button = h('button', { type: 'button', class: main ? 'main-button fly-it' : 'fly-it' }, t('Fly it'));
  if (!main) button.setAttribute('aria-label', t('Fly: {maneuver}', { maneuver: itemWords(item) }));
  button.disabled = station === undefined;
  const said = h('p', { class: 'control-error small', role: 'alert' });
  if (station === undefined) {
    return main ? [button, h('p', { class: 'small soft' }, t('No simulator is heard yet.'))] : [button];
  }
  button.addEventListener('click', () => {
    button.disabled = true;
    void setUp(station, item).then((why) => {
      button.disabled = false;
      text(said, why);
      if (why === '') location.assign(`./?station=${encodeURIComponent(station.name)}`);
    });
  });
  return [button, said];
}

/** What can be done with the step that is shown. @param {CourseRecord} r */
function stepActs(r) {
  if (shared) return [];
  const instead = h('button', { type: 'button', class: 'fly-it', id: 'work-on' }, t('Work on this step'));
  instead.addEventListener('click', () => void ask(r.student, { ...r.flown, step: known.step })
    .then(() => document.querySelector('.next-card')?.scrollIntoView({ block: 'nearest' })));
  return r.plan.items[0]?.step === known.step ? [] : [instead];
}

/** The form of a ruling; null where nobody can rule. @param {CourseRecord} r */
function ruling(r) {
  const state = r.progress.steps.find((s) => s.id === known.step);
  if (shared || !state) return null;
  if (!r.known) return rulingNowhere(r.student);
  const named = document.body.dataset['named'] === 'true';
  return rulingForm(state, known.by, named, async (said) => {
    known.by = said.by;
    const answer = await post(`${api(r.student)}/steps/${encodeURIComponent(known.step)}`, { ...r.flown, ...said });
    if (answer.value) take(/** @type {{ value: CourseRecord, error: '' }} */ (answer));
    return answer.error;
  });
}

/** Whose course, which course, and files. @param {CourseRecord} r */
function tools(r) {
  const who = h('select', { id: 'course-student' },
    ...[...new Set([r.student, ...known.students])].map((name) => h('option', { value: name }, name)));
  who.value = r.student;
  who.addEventListener('change', () => {
    const url = new URL(location.href);
    url.searchParams.set('student', who.value);
    history.replaceState(null, '', url);
    known.step = '';
    void ask(who.value);
  });
  const which = h('select', { id: 'course-choice' },
    ...known.courses.map((c) => h('option', { value: c.name }, cardText(c.title))));
  which.value = r.course.name;
  which.addEventListener('change', async () => {
    known.step = '';
    /** @type {{ value: CourseRecord | null, error: string }} */
    const answer = await post(`${api(r.student)}/course`, { course: which.value });
    take(answer);
    if (answer.value === null) which.value = r.course.name;
  });
  const query = new URLSearchParams({ ...r.flown }).toString();
  const file = (/** @type {string} */ kind, /** @type {string} */ words) => {
    const b = h('button', { type: 'button', 'data-file': kind }, words);
    b.addEventListener('click', () => void save(`${api(r.student)}/course.${kind}?${query}&names=1`)
      .then((error) => text(at('state'), error)));
    return b;
  };
  const print = h('button', { type: 'button', id: 'print' }, t('Print'));
  print.addEventListener('click', () => window.print());
  const field = (/** @type {string} */ words, /** @type {HTMLElement} */ of) =>
    h('label', { class: 'field', for: of.id }, h('span', { class: 'soft' }, words), of);
  return [field(t('Student'), who), field(t('Course'), which),
    h('span', { class: 'course-files' }, file('html', t('As a page to share')), file('csv', t('As CSV')),
      file('json', t('As JSON')), print)];
}

void looking().then((me) => {
  document.body.dataset['named'] = String(me?.login ?? false);
});
void run();
