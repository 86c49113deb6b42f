// A logbook that answers like the server's, for the tests of the pages: 130 invented sessions of three invented
// students.

const students = ['Ada', 'Bo', 'Cleo'];
const maneuvers = [
  { name: 'wing-over', title: 'Wing-over' },
  { name: 'chandelle-civil', title: 'Chandelle, constant bank' },
];
const aircraft = [
  { name: 'turboprop-trainer', title: 'Turboprop trainer' },
  { name: 'light-single', title: 'Light single' },
];
const verdicts = ['met', 'near', 'missed'];
const changes = ['Pull more gently', 'Roll out sooner', '', 'More bank at the top'];
const grades = { met: 'good', near: 'good', missed: 'fair' };

/** A repeatable stray in [0, 1). */
const stray = (n) => ((Math.sin(n * 127.1) * 43758.5453) % 1 + 1) % 1;

export const sessions = Array.from({ length: 130 }, (_, i) => {
  const began = new Date(Date.UTC(2026, 10, 24, 18, 30) - i * 19 * 3600e3);
  const legs = 2 + Math.floor(stray(i) * 9);
  const marks = Array.from(
    { length: legs },
    (_, k) => verdicts[Math.floor(stray(i * 31 + k) * (1.4 + i / 90))] ?? 'missed',
  );
  const remark = i % 5 === 0 ? 'Nose dropped early in the second half; the point off the wing was lost.' : '';
  return {
    id: `2026-${String(1130 - i)}-seat-${(i % 3) + 1}`,
    began: began.toISOString(),
    ended: i === 0 ? '' : new Date(+began + (9 + legs * 2.2) * 60e3).toISOString(),
    station: `Seat ${(i % 3) + 1}`,
    student: i % 7 === 6 ? '' : students[i % 3],
    keep: i % 11 === 0,
    maneuvers: [maneuvers[i % 4 === 3 ? 1 : 0]],
    standard: 'course',
    aircraft: i % 4 === 3 ? aircraft[1] : aircraft[0],
    verdicts: marks,
    legs,
    score: Math.round(96 - i / 6 - stray(i + 7) * 12),
    grade: grades[marks[0]],
    headline: '',
    change: changes[i % 4],
    remarks: remark ? 1 : 0,
    found: '',
    remark,
  };
});

/** What the second leg of any session can be held against: a recorded flight of the tests. */
const models = {
  version: 1,
  best: {
    session: 'wing-over-turboprop-a-turbulence-good',
    n: 1,
    began: '2026-11-20T10:00:00Z',
    student: 'Ada',
    score: 97.2,
    grade: 'excellent',
  },
  kept: [
    {
      session: 'wing-over-turboprop-a-turbulence-good',
      n: 2,
      began: '2026-11-19T10:00:00Z',
      student: 'Uma',
      score: 95,
      grade: 'excellent',
    },
  ],
};

/** @param {URLSearchParams} q */
function matching(q) {
  const is = (name, value) => !q.get(name) || q.get(name) === value;
  return sessions.filter(
    (s) =>
      is('student', s.student) &&
      is('grade', s.grade) &&
      is('aircraft', s.aircraft.name) &&
      (!q.get('maneuver') || s.maneuvers.some((m) => m.name === q.get('maneuver'))) &&
      (!q.get('from') || s.began.slice(0, 10) >= q.get('from')) &&
      (!q.get('to') || s.began.slice(0, 10) <= q.get('to')) &&
      (!q.get('text') || s.remark.toLowerCase().includes(q.get('text').toLowerCase())),
  );
}

/** What a rebuild could not take in: nothing, unless a test says otherwise. */
export const leftOut = { total: 0, sessions: [] };

/** GET /api/sessions */
export function list(q) {
  const found = matching(q);
  const from = Number(q.get('after') ?? 0);
  const size = Number(q.get('limit') ?? 50);
  const page = found
    .slice(from, from + size)
    .map(({ remark, ...s }) => ({ ...s, found: q.get('text') ? remark : '' }));
  return {
    version: 1,
    total: found.length,
    unflown: q.get('flown') === '1' ? 2 : 0,
    sessions: page,
    next: from + size < found.length ? String(from + size) : '',
    students,
    maneuvers,
    aircraft,
    leftOut,
  };
}

const kinds = [
  ['bank-at-45', 'Bank at 45°', '°', 45, [36, 53], [30, 60]],
  ['highest-nose', 'Highest nose', '°', 17, [12, 21], [8, 26]],
  ['nose-at-90', 'Nose at 90°', '°', 1, [-5, 6], [-9, 10]],
  ['bank-at-90', 'Bank at 90°', '°', 75, [60, 88], [52, 90]],
  ['speed-lowest', 'Lowest speed', 'kt', 112, [101, 123], [95, 130]],
  ['stall-margin', 'Margin over the stall', 'kt', null, [5, null], [0, null]],
  ['turn-at-exit', 'Turn at the exit', '°', 180, [173, 187], [168, 192]],
  ['height-at-exit', 'Height at the exit', 'ft', 0, [-110, 110], [-200, 200]],
  ['ball-rule', 'Ball most of the time', 'balls', 0, [0, 0.4], [0, 0.7]],
];

/** The first sessions were held against wider bands. */
const judged = (aim, met, near, i) => ({
  ...(aim === null ? {} : { aim }),
  metBand: i < 15 ? near : met,
  nearBand: near,
});

/** GET /api/sessions/trend */
export function trend(q) {
  const found = matching(q)
    .filter((s) => s.maneuvers[0].name === (q.get('maneuver') || 'wing-over'))
    .slice(0, 40)
    .reverse();
  const legs = found.reduce((n, s) => n + s.legs, 0);
  const checks = kinds.map(([id, label, unit, aim, met, near], k) => {
    const size = (met[1] ?? 45) - (met[0] ?? 0);
    const middle = aim ?? (met[0] ?? 0) + 12;
    return {
      id,
      label,
      unit,
      aim,
      met,
      near,
      points: found.map((s, i) => {
        const off = (stray(i * 7 + k) - 0.5 + ((k % 3) - 1) * 0.5) * size * (1.3 - i / found.length);
        const spread = size * (0.1 + 0.2 * stray(i + k * 3)) * (1.4 - i / found.length);
        const median = Math.round((middle + off) * 100) / 100;
        const at = (f) => Math.round((median + f * spread) * 100) / 100;
        return {
          session: s.id,
          began: s.began,
          legs: s.legs,
          met: Math.min(s.legs, Math.floor(stray(i + k) * (s.legs + 1))),
          low: at(-1.8),
          q1: at(-0.6),
          median,
          q3: at(0.7),
          high: at(2),
          ...judged(aim, met, near, i),
        };
      }),
    };
  });
  return {
    version: 1,
    maneuver: legs === 0 ? null : maneuvers.find((m) => m.name === (q.get('maneuver') || 'wing-over')),
    sessions: found.length,
    legs,
    checks,
    streak: { now: 5, best: 12, session: found.at(-1)?.id ?? '' },
    things:
      legs === 0
        ? []
        : [
            { words: 'Pull more gently', legs: Math.ceil(legs / 4), sessions: 9, session: found.at(-1).id },
            { words: 'Roll out sooner', legs: Math.ceil(legs / 7), sessions: 6, session: found.at(-1).id },
            { words: 'More bank at the top', legs: Math.ceil(legs / 15), sessions: 3, session: found[0].id },
          ],
  };
}

/** GET /api/sessions/{id}: of any name, as of the first session. */
export function detail(id) {
  const { remark, ...row } = sessions[0];
  return {
    version: 1, ...row, id, server: '0.0.0-check', problem: '', remarks: 1,
    said: [{ id: 1, leg: 1, time: 40, by: 'Uma', words: remark, at: '2026-11-24T19:10:00Z' }],
    regrades: [
      {
        at: '2026-11-25T09:00:00Z',
        server: '0.0.0-check',
        maneuver: 'wing-over',
        standard: 'check',
        aircraft: 'turboprop-trainer',
        score: 88,
        grade: 'good',
        headline: 'Within standard: 24 of 25 within limits; nearly: Bank at 90°',
        differences: ['leg 2, Bank at 90°: near, was met'],
      },
    ],
    judging: { overruled: [], observed: [], ratings: [], signed: [] },
  };
}

/** GET /api/sessions/{id}/forms: one series, an invented test of two elements. */
export const forms = {
  version: 1,
  first: false,
  aspects: ['bank', 'speed', 'nothing'],
  forms: [
    {
      series: 1, maneuver: 'wing-over', title: 'Wing-over', standard: 'check', flown: 'course',
      document: 'TEST-1', task: 'A.B', legs: 2, direction: '',
      elements: [
        {
          id: 'S1', asks: 'area cleared', stream: 'no', reason: 'no stream shows where the pilot looks', checks: [],
          computed: 'not-observed', mark: 'not-observed', by: '', at: '', afterSigning: false,
        },
        {
          id: 'S2', asks: 'bank about 30°', stream: 'yes', reason: '', by: 'B. Example', at: '2026-11-25T10:00:00Z',
          checks: [{ id: 'bank', label: 'Bank at 90°', verdict: 'met' }],
          computed: 'satisfactory', mark: 'unsatisfactory', afterSigning: false,
        },
      ],
    },
  ],
};

/** Answers the calls of the pages; calls collects what was asked, posts what was sent. */
export async function answer(page, calls = [], posts = []) {
  const reply = (route, value) => route.fulfill({ json: value });
  await page.route(/\/api\/sessions(\?|$)/, (route) => {
    const q = new URL(route.request().url()).searchParams;
    calls.push(q.toString());
    return reply(route, list(q));
  });
  await page.route(/\/api\/sessions\/[^/?]+$/, (route) =>
    reply(route, detail(decodeURIComponent(new URL(route.request().url()).pathname.split('/').at(-1)))),
  );
  await page.route(/\/api\/sessions\/trend(\?|$)/, (route) =>
    reply(route, trend(new URL(route.request().url()).searchParams)),
  );
  await page.route(/\/legs\/\d+\/models$/, (route) =>
    reply(route, route.request().url().includes('/2/') ? models : { version: 1, best: null, kept: [] }),
  );
  await page.route(/\/api\/sessions\/[^/]+\/forms$/, (route) => reply(route, forms));
  await page.route(/\/api\/students$/, (route) => reply(route, { version: 1, students }));
  await page.route(/\/api\/sessions\/[^/]+\/(remarks|keep|student)$/, (route) => {
    const body = route.request().postDataJSON();
    posts.push({ to: route.request().url().split('/').at(-1), ...body });
    return reply(
      route,
      route.request().url().endsWith('remarks') ? { id: 9, at: '2026-11-25T10:00:00Z', ...body } : {},
    );
  });
}
