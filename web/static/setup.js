// The set-up page: who sends, what was understood, what is missing and what to switch on.

/** @import { StationList } from './types.d.ts' */
/** @import { Guide, GuideList, Probe } from './setup.d.ts' */

import { attr, h, show, text } from './dom.js';
import { dropWords, formatWords, rateWords, rows } from './pure/probe.js';
import { load } from './settings.js';

/** How often is asked, ms, while the page is seen. */
const every = 1000;

/** @template T @param {string} path @returns {Promise<T | null>} */
async function get(path) {
  try {
    const answer = await fetch(path, { headers: { accept: 'application/json' } });
    return answer.ok ? await answer.json() : null;
  } catch {
    return null;
  }
}

/** @param {string} id */
function at(id) {
  const node = document.getElementById(id);
  if (node === null) throw new Error(`the page has no ${id}`);
  return node;
}

/** A sender's card; what does not change is not touched. */
class Sender {
  #name = h('h3');
  #format = h('p');
  #detail = h('p', { class: 'small' });
  #rate = h('p');
  #drops = h('p', { class: 'small' });
  #todo = h('ol', { class: 'todo' });
  #ready = h('p');
  #caption = h('caption');
  #body = h('tbody');
  node = h('article', { class: 'sender' }, this.#name, this.#format, this.#detail, this.#rate, this.#drops, this.#ready, this.#todo,
    h('div', { class: 'scroll', tabindex: '0', role: 'group', 'aria-label': 'Channels' }, h('table', {}, this.#caption,
      h('thead', {}, h('tr', {}, ...['Channel', 'Value', 'Age', 'For the card'].map((t) => h('th', { scope: 'col' }, t)))), this.#body)));

  /** @param {Probe} p */
  update(p) {
    text(this.#name, `${p.name === p.address ? p.name : `${p.name} (${p.address})`}, ${p.link}`);
    text(this.#format, formatWords(p));
    text(this.#detail, [p.detail, p.signs].filter((t) => t !== '').join('; '));
    text(this.#rate, rateWords(p));
    text(this.#drops, dropWords(p));
    text(this.#caption, `Channels, and what the card ${p.maneuver} needs of them`);
    const ready = p.todo.length === 0 && p.samples > 0;
    text(this.#ready, `All that the card ${p.maneuver} needs is there.`);
    show(this.#ready, ready);
    show(this.#todo, p.todo.length > 0);
    lines(this.#todo, p.todo);
    this.#table(p);
  }

  /** @param {Probe} p */
  #table(p) {
    const list = rows(p);
    while (this.#body.children.length > list.length) this.#body.lastElementChild?.remove();
    list.forEach((row, i) => {
      const tr = this.#body.children[i] ?? this.#body.appendChild(
        h('tr', {}, h('th', { scope: 'row' }), h('td', { class: 'number' }), h('td', { class: 'number' }), h('td')));
      attr(tr, 'data-state', row.state);
      [row.title, row.value, row.age, row.need].forEach((t, k) => text(/** @type {Element} */ (tr.children[k]), t));
    });
  }
}

/** Makes a list's items say the texts. @param {HTMLElement} list @param {string[]} texts */
function lines(list, texts) {
  while (list.children.length > texts.length) list.lastElementChild?.remove();
  texts.forEach((t, i) => text(list.children[i] ?? list.appendChild(h('li')), t));
}

/** @type {Map<string, Sender>} */
const senders = new Map();

/** @param {StationList} list @param {(Probe | null)[]} probes */
function draw(list, probes) {
  const known = probes.filter((p) => p !== null);
  const where = list.listen.length === 0 ? '127.0.0.1:7181' : list.listen.join(' or ');
  text(at('state'), known.length === 0
    ? `Nothing is heard yet. Let the simulator send to ${where}, as told below; this page shows it as soon as it comes.`
    : `${known.length === 1 ? 'One simulator is' : `${known.length} simulators are`} heard on ${where}.`);
  const names = new Set(known.map((p) => p.name));
  for (const [name, sender] of senders) {
    if (names.has(name)) continue;
    sender.node.remove();
    senders.delete(name);
  }
  for (const p of known) {
    let sender = senders.get(p.name);
    if (sender === undefined) {
      sender = new Sender();
      senders.set(p.name, sender);
      at('senders').append(sender.node);
    }
    sender.update(p);
  }
}

async function refresh() {
  /** @type {StationList | null} */
  const list = await get('api/stations');
  if (list === null) {
    text(at('state'), 'Halfturn does not answer. Is it still running? This page comes back by itself when it is.');
    return;
  }
  /** @type {Promise<Probe | null>[]} */
  const asked = list.stations.filter((s) => s.link !== 'gone' && s.link !== 'replaying').map((s) => get(`api/stations/${encodeURIComponent(s.name)}/probe`));
  draw(list, await Promise.all(asked));
}

/** @param {Guide} g */
function guide(g) {
  const files = g.files ?? [];
  return h('details', { id: `guide-${g.name}` }, h('summary', {}, g.title),
    h('p', {}, `Port: ${g.port}.`), h('p', {}, `What to expect: ${g.quality}`),
    h('ol', {}, ...g.steps.map((step) => h('li', {}, step))),
    ...(g.notes ? [h('p', {}, g.notes)] : []),
    ...(files.length > 0 ? [h('p', { class: 'small' }, `Files: ${files.join(', ')}`)] : []),
    h('p', {}, 'Check here, above, or with ', h('code', {}, g.check), '.'));
}

async function guides() {
  /** @type {GuideList | null} */
  const list = await get('api/guides');
  at('guides').replaceChildren(...(list?.guides ?? []).map(guide));
}

async function run() {
  if (document.visibilityState === 'visible') await refresh();
  setTimeout(run, every);
}

document.documentElement.dataset['theme'] = load().theme;
void guides();
void run();
