// What each control asks of the server, and the right that takes: whoever lacks it is not shown the control. Pure.

/** @import { Me } from '../people.d.ts' */

/**
 * A control, or a part of the page with several: what it asks first, and the right. A line each: the test of the
 * routes reads them.
 * @type {readonly { of: string, asks: string, right: string }[]}
 */
export const controls = [
  // the panel
  { of: 'ht-controls .field:has(> #maneuver)', asks: 'POST /api/stations/{name}/choose', right: 'fly' },
  { of: 'ht-controls .field:has(> #standard)', asks: 'POST /api/stations/{name}/choose', right: 'fly' },
  { of: 'ht-controls .field:has(> #aircraft)', asks: 'POST /api/stations/{name}/choose', right: 'fly' },
  { of: 'ht-controls .field:has(> #prompts)', asks: 'POST /api/stations/{name}/prompts', right: 'fly' },
  { of: 'ht-controls .field:has(> #private)', asks: 'POST /api/stations/{name}/private', right: 'fly' },
  { of: 'ht-debrief .drill', asks: 'POST /api/stations/{name}/drill', right: 'fly' },
  { of: 'ht-line .line-touch', asks: 'POST /api/stations/{name}/line', right: 'fly' },
  { of: 'ht-line .line-point', asks: 'POST /api/stations/{name}/line', right: 'fly' },
  { of: 'ht-wing', asks: 'POST /api/stations/{name}/about', right: 'fly' },
  { of: 'ht-about .about-touch', asks: 'POST /api/stations/{name}/about', right: 'fly' },
  { of: 'ht-student', asks: 'POST /api/stations/{name}/student', right: 'fly' },
  { of: '#end-session', asks: 'POST /api/stations/{name}/end', right: 'fly' },
  { of: '#to-debrief', asks: 'GET /api/sessions/{id}', right: 'read' },
  { of: 'ht-keys .key-row:has([data-act="mark"])', asks: 'POST /do/{act}', right: 'fly' },
  { of: 'ht-keys .key-row:has([data-act="point"])', asks: 'POST /do/{act}', right: 'fly' },
  { of: 'ht-keys .key-row:has([data-act="stop"])', asks: 'POST /do/{act}', right: 'fly' },
  { of: 'ht-keys .key-row:has([data-act="next"])', asks: 'POST /do/{act}', right: 'fly' },
  { of: 'ht-keys .key-row:has([data-act="step"])', asks: 'POST /do/{act}', right: 'fly' },
  { of: 'ht-keys .key-row:has([data-act="student"])', asks: 'POST /do/{act}', right: 'fly' },
  { of: 'ht-keys .key-row:has([data-act="end"])', asks: 'POST /do/{act}', right: 'fly' },
  { of: 'ht-replay', asks: 'POST /api/replays/{id}', right: 'read' },
  // the first page, and the set-up
  { of: 'ht-welcome ht-aircraft', asks: 'POST /api/stations/{name}/choose', right: 'fly' },
  { of: 'ht-welcome ht-maneuvers', asks: 'POST /api/stations/{name}/choose', right: 'fly' },
  { of: 'ht-welcome .first-other', asks: 'POST /api/stations/{name}/choose', right: 'fly' },
  { of: 'ht-welcome .step:nth-child(2)', asks: 'POST /api/stations/{name}/choose', right: 'fly' },
  { of: 'ht-welcome .step:nth-child(3)', asks: 'POST /api/demonstration', right: 'fly' },
  { of: 'ht-welcome .ways-in', asks: 'GET /api/find', right: 'fly' },
  { of: '.measure-mine', asks: 'POST /api/stations/{name}/card', right: 'instruct' },
  { of: 'ht-measure', asks: 'POST /api/stations/{name}/measure', right: 'fly' },
  { of: '#end-showing', asks: 'DELETE /api/demonstration', right: 'fly' },
  { of: 'ht-simulators .tile-row:has(input)', asks: 'POST /api/find', right: 'manage' },
  { of: 'ht-simulators .tile-noterow button', asks: 'POST /api/find', right: 'manage' },
  { of: '#network-open', asks: 'POST /api/network', right: 'manage' },
  { of: 'ht-network .roles', asks: 'POST /api/network', right: 'manage' },
  { of: 'ht-network', asks: 'GET /api/network', right: 'fly' },
  { of: '#network-title', asks: 'GET /api/network', right: 'fly' },
  { of: 'ht-buttonbox', asks: 'POST /do/{act}', right: 'fly' },
  { of: '#box-title', asks: 'POST /do/{act}', right: 'fly' },
  { of: '#to-first', asks: 'POST /api/demonstration', right: 'fly' },
  // a session that was flown
  { of: '#causes .drill', asks: 'POST /api/stations/{name}/drill', right: 'fly' },
  { of: 'ht-flew', asks: 'POST /api/sessions/{id}/student', right: 'fly' },
  { of: '#keep', asks: 'POST /api/sessions/{id}/keep', right: 'instruct' },
  { of: '#replay', asks: 'POST /api/sessions/{id}/replay', right: 'read' },
  { of: '#files', asks: 'GET /api/sessions/{id}/export', right: 'read' },
  { of: 'ht-over', asks: 'GET /api/sessions/{id}/legs/{n}/models', right: 'read' },
  { of: 'ht-by', asks: 'POST /api/sessions/{id}/regrade', right: 'instruct' },
  { of: '.otherwise .propose', asks: 'POST /api/sessions/{id}/regrade', right: 'instruct' },
  { of: '.remark-form', asks: 'POST /api/sessions/{id}/remarks', right: 'fly' },
  { of: '#rate', asks: 'POST /api/sessions/{id}/rate', right: 'fly' },
  { of: '.overrule-check', asks: 'POST /api/sessions/{id}/overrule', right: 'instruct' },
  { of: '.overrule-form', asks: 'POST /api/sessions/{id}/overrule', right: 'instruct' },
  { of: '.judge-row', asks: 'POST /api/sessions/{id}/sign', right: 'instruct' },
  { of: '.element-marks button', asks: 'POST /api/sessions/{id}/observe', right: 'instruct' },
  { of: '.form-head button', asks: 'GET /api/sessions/{id}/form.pdf', right: 'read' },
  // all sessions, and all of a student
  { of: '#filters', asks: 'GET /api/sessions', right: 'read' },
  { of: '#more', asks: 'GET /api/sessions', right: 'read' },
  { of: '#empty[type="button"]', asks: 'GET /api/sessions', right: 'read' },
  { of: '#progress', asks: 'GET /api/sessions/trend', right: 'read' },
  { of: '#trend', asks: 'GET /api/sessions/trend', right: 'read' },
  { of: '.take', asks: 'POST /api/sessions/import', right: 'instruct' },
  { of: '#take', asks: 'POST /api/sessions/import', right: 'instruct' },
  { of: '.sheet-facts button', asks: 'GET /api/students/{name}/sheet.pdf', right: 'read' },
  // the course of a student
  { of: '#course-choice', asks: 'POST /api/students/{name}/course', right: 'fly' },
  { of: '.fly-it', asks: 'POST /api/stations/{name}/step', right: 'fly' },
  { of: '.fly-set', asks: 'POST /api/stations/{name}/step', right: 'fly' },
  { of: '.ruling-form', asks: 'POST /api/students/{name}/steps/{step}', right: 'instruct' },
  { of: '.course-files button[data-file]', asks: 'GET /api/students/{name}/course.csv', right: 'read' },
  // the desk
  { of: 'ht-orders', asks: 'POST /api/stations/{name}/start', right: 'fly' },
  { of: '.orders-touch button:nth-child(3)', asks: 'POST /api/stations/{name}/demonstrate', right: 'fly' },
  { of: 'ht-say', asks: 'POST /api/stations/{name}/say', right: 'instruct' },
  { of: 'ht-markings', asks: 'POST /api/stations/{name}/mark', right: 'fly' },
  { of: '#knock-it-off', asks: 'POST /api/stations/{name}/stop', right: 'fly' },
  // people
  { of: '[data-card="password"]', asks: 'POST /api/password', right: 'enter' },
  { of: '[data-card="links"] form', asks: 'POST /api/stations/{name}/invite', right: 'invite' },
  { of: '[data-card="links"] li', asks: 'DELETE /api/invitations/{link}', right: 'invite' },
  { of: '[data-card="users"] form', asks: 'POST /api/people', right: 'manage' },
  { of: '[data-card="users"] .remove', asks: 'DELETE /api/people/{user}', right: 'manage' },
  { of: '[data-card="users"] .reset', asks: 'POST /api/people/{user}/password', right: 'manage' },
  { of: '.me button', asks: 'POST /api/logout', right: 'anyone' },
];

/** Controls that ask the server for nothing: they change what this browser shows and says. */
export const own = [
  'ht-controls #station', 'ht-controls .sounds > button', 'ht-controls .settings', 'ht-keys', 'ht-again', 'ht-lanes',
  'ht-views', '.copy', '.term', '.leg-button', '.moment', '#scrub', '#see-again', '#print', '#wall',
  '.strip-step', '#course-student',
  '.wall-sheet', '#close-station', '#station-sound', 'ht-simulators .linklike', '.ways-in', '.find-line', '#choices',
];

/** Whether a row is about the station that is watched. @param {{ asks: string }} row */
const atStation = ({ asks }) => asks.includes('/api/stations/{name}/') || asks.includes('/do/');

/**
 * Whether somebody has a right at a station, '' for beside all. Whoever is not known yet is kept from nothing: the
 * server says what is not allowed.
 * @param {Me | null} me @param {string} right @param {string} [station]
 */
export function has(me, right, station = '') {
  if (me === null || right === 'anyone') return true;
  return me.rights.includes(right) && (station === '' || me.all || me.stations.includes(station));
}

/**
 * Who looks as long as the server does not say who that is: nobody, who has no right.
 * @type {Readonly<Me>}
 */
export const stranger = {
  version: 1,
  name: '',
  role: 'viewer',
  login: false,
  user: false,
  all: false,
  stations: [],
  users: false,
  many: false,
  rights: [],
};

/**
 * The controls that somebody is not shown, as selectors.
 * @param {Me | null} me @param {string} station that is watched, '' for none
 */
export const kept = (me, station) =>
  controls.filter((row) => !has(me, row.right, atStation(row) ? station : '')).map((row) => row.of);

/**
 * Whether the desk stands among the pages: for an instructor always, for an owner once there is more than one station,
 * or once there are users.
 * @param {Me | null} me @param {boolean} saw whether this browser has seen more than one station
 */
export function deskFor(me, saw) {
  if (me === null) return saw;
  return me.role === 'instructor' || (me.role === 'owner' && (saw || me.many || me.users));
}

/** The right that opening each page makes sense with. @type {Readonly<Record<string, string>>} */
export const pageRights = { panel: 'enter', brief: 'enter', course: 'read', sessions: 'read', setup: 'fly' };

/** Whether a name is that of the user who looks, however it is written. @param {Me | null} me @param {string} name */
export const isSelf = (me, name) =>
  me !== null && me.user && me.name.normalize('NFC').toLowerCase() === name.normalize('NFC').toLowerCase();

/** Whether the grade sheet of a student is shown to somebody. @param {Me | null} me @param {string} name */
export const seesSheet = (me, name) => has(me, 'instruct') || isSelf(me, name);
