// The page of who is let in: one's own password, links to watch a station, and for the owner users and the log.

/** @import { Entry, Invitation, Me, People, Person } from './people.d.ts' */

import { call, post } from './api.js';
import { h, text } from './dom.js';
import { at, dress } from './page.js';
import { has } from './pure/rights.js';
import { language, t } from './pure/text.js';

dress('People');

/** A card with a title. @param {string} name @param {string} title @param {(Node | string)[]} inside */
const card = (name, title, ...inside) =>
  h('section', { class: 'card', 'data-card': name }, h('h2', {}, title), ...inside);

/** @param {string} when */
const day = (when) =>
  new Date(when).toLocaleString(language(), { dateStyle: 'medium', timeStyle: 'short' });

/**
 * A field with its label.
 * @param {string} label
 * @param {Record<string, string | number>} attributes
 */
function field(label, attributes) {
  const input = h('input', attributes);
  return { input, node: h('label', {}, h('span', {}, label), input) };
}

/**
 * A button that does something, and shows what went wrong.
 * @param {string} words @param {() => Promise<string>} act @param {string} [kind] its class
 */
function button(words, act, kind = '') {
  const node = h('button', { type: 'button', class: kind }, words);
  node.addEventListener('click', async () => text(at('wrong'), await act()));
  return node;
}

/** Something that is told once. @param {string} words @param {string} secret */
function toldOnce(words, secret) {
  at('told').replaceChildren(words, ' ', h('code', {}, secret));
}

/** @param {HTMLFormElement} form @param {() => Promise<string>} act */
function onSubmit(form, act) {
  form.addEventListener('submit', async (event) => {
    event.preventDefault();
    text(at('wrong'), await act());
  });
  return form;
}

/** @param {string} path */
const remove = async (path) => (await call(path, { method: 'DELETE' })).error;

/** One's own password. @param {Me} me */
function password(me) {
  const old = field(t('Password of now'), { type: 'password', autocomplete: 'current-password', required: '' });
  const next = field(t('New password'), {
    type: 'password', autocomplete: 'new-password', minlength: 8, maxlength: 128, required: '',
  });
  const user = h('input', { class: 'visually-hidden', autocomplete: 'username', value: me.name, tabindex: -1,
    'aria-hidden': 'true' });
  const form = h('form', {}, user, old.node, next.node, h('button', { type: 'submit' }, t('Change the password')));
  return card(
    'password',
    t('Your password'),
    onSubmit(form, async () => {
      const { error } = await post('api/password', { old: old.input.value, new: next.input.value });
      if (error === '') {
        form.reset();
        at('told').replaceChildren(t('The password is changed; you are logged out everywhere else.'));
      }
      return error;
    }),
  );
}

/** Links to watch a station. @param {Invitation[]} all @param {string[]} stations */
function links(all, stations) {
  const station = h('select', { 'aria-label': t('Station') }, ...stations.map((name) => h('option', {}, name)));
  const whom = field(t('For whom'), { maxlength: 80 });
  const hours = field(t('Hours'), { type: 'number', min: 1, max: 720, value: 24, required: '' });
  const form = h('form', {}, h('label', {}, h('span', {}, t('Station')), station), whom.node, hours.node,
    h('button', { type: 'submit' }, t('Make a link')));
  onSubmit(form, async () => {
    const body = { for: whom.input.value, hours: Number(hours.input.value) };
    /** @type {{ value: { path: string } | null, error: string }} */
    const { value, error } = await post(`api/stations/${encodeURIComponent(station.value)}/invite`, body);
    if (value !== null) {
      toldOnce(t('Whoever has this link can watch until it ends:'), new URL(value.path, document.baseURI).href);
      await draw();
    }
    return error;
  });
  const list = all.map((i) =>
    h('li', {},
      t('{station} for {name}, until {when}', { station: i.station, name: i.for || t('a guest'), when: day(i.until) }),
      ' ', button(t('End it'), async () => (await remove(`api/invitations/${i.id}`)) || draw())));
  return card(
    'links',
    t('Links to watch a station'),
    stations.length > 0 ? form : h('p', {}, t('A link can be made once a station is there.')),
    h('ul', { class: 'rows' }, ...list),
  );
}

/** @param {Person} u */
const where = (u) =>
  [...(u.stations ?? []), ...(u.group ? [t('group {name}', { name: u.group })] : [])].join(', ') || t('all stations');

/** @type {Record<string, () => string>} */
const roles = {
  owner: () => t('Owner'),
  instructor: () => t('Instructor'),
  student: () => t('Student'),
  viewer: () => t('Guest'),
};

/** @param {string | undefined} role */
const roleOf = (role) => roles[role ?? '']?.() ?? '';

/** The users. @param {People} people */
function users(people) {
  const name = field(t('Name'), { maxlength: 80, required: '' });
  const choices = ['owner', 'instructor', 'student'].map((r) => h('option', { value: r }, roleOf(r)));
  const role = h('select', {}, ...choices);
  if (people.users.length > 0) role.value = 'student';
  const stations = field(t('Stations, with commas between'), {});
  const group = field(t('Group of stations'), { maxlength: 80 });
  const form = h('form', {}, name.node, h('label', {}, h('span', {}, t('Role')), role), stations.node, group.node,
    h('button', { type: 'submit' }, t('Add a user')));
  onSubmit(form, async () => {
    const listed = stations.input.value.split(',').map((s) => s.trim()).filter((s) => s !== '');
    const body = { name: name.input.value, role: role.value, stations: listed, group: group.input.value };
    return made(await post('api/people', body));
  });
  const rows = people.users.map((u) =>
    h('li', {}, h('strong', {}, u.name), ` ${roleOf(u.role)}, ${where(u)} `,
      button(t('New password'), async () => made(await post(`api/people/${u.id}/password`, {})), 'reset'),
      ' ', button(t('Remove'), () => removed(u), 'remove')));
  const first = people.users.length > 0 ? [] : [
    h('p', {}, t(
      'There are no users: whoever is at this machine is its owner. Once there are, everybody logs in; add an owner ' +
        'first, and note the password.',
    )),
  ];
  return card('users', t('Users'), ...first, form, h('ul', { class: 'rows' }, ...rows));
}

/** Removes a user, and tells what stays. @param {Person} u */
async function removed(u) {
  const error = await remove(`api/people/${u.id}`);
  if (error !== '') return error;
  at('told').replaceChildren(t('{name} is removed, and can log in no more. What they flew and said stays.',
    { name: u.name }), ' ', t('To delete all of it:'), ' ',
  h('code', {}, `halfturn students forget "${u.name}"`));
  return draw();
}

/** Tells a new password. @param {{ value: any, error: string }} answer */
async function made({ value, error }) {
  if (value === null) return error;
  toldOnce(t('Password of {name}, told once:', { name: value.user.name }), value.password);
  return draw();
}

/** What was asked for last. @param {Entry[]} entries */
function log(entries) {
  const rows = entries.map((e) => {
    const who = [e.by.name, roleOf(e.by.role)].filter((words) => words !== '').join(', ');
    const rest = [e.on, e.address, e.status].filter((part) => part !== undefined && part !== '').join(' · ');
    return h('li', {}, h('span', { class: 'small' }, day(e.at)), ' ', h('strong', {}, who), ' ',
      h('code', {}, e.what), ' ', h('span', { class: 'small' }, rest));
  });
  return card('log', t('What was asked for last'), h('ul', { class: 'rows' }, ...rows));
}

/** Asks for everything and draws it. @returns {Promise<string>} why not, in words */
async function draw() {
  const { value: me, error } = /** @type {{ value: Me | null, error: string }} */ (await call('api/me'));
  if (me === null) return error;
  const may = (/** @type {string} */ right) => has(me, right);
  const cards = [];
  if (me.user) cards.push(password(me));
  if (me.user && me.role === 'student') {
    const href = `students/${encodeURIComponent(me.name)}`;
    cards.push(card('grades', t('Your grade sheet'), h('p', {}, h('a', { href }, t('Your grade sheet')))));
  }
  if (may('invite')) {
    /** @type {{ value: { invitations: Invitation[] } | null, error: string }} */
    const links1 = await call('api/invitations');
    /** @type {{ value: { stations: { name: string, replay?: unknown }[] } | null }} */
    const there = await call('api/stations');
    const stations = (there.value?.stations ?? []).filter((s) => !s.replay).map((s) => s.name);
    if (links1.value !== null) cards.push(links(links1.value.invitations, stations));
  }
  if (may('manage')) {
    /** @type {{ value: People | null, error: string }} */
    const { value } = await call('api/people');
    if (value !== null) cards.push(users(value), log(value.log));
  }
  at('cards').replaceChildren(...cards);
  return '';
}

at('main').append(
  h('div', { id: 'told', role: 'status' }),
  h('p', { id: 'wrong', class: 'wrong', role: 'alert' }),
  h('div', { id: 'cards' }),
);
text(at('wrong'), await draw());
