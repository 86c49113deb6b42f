// The set-up page: who sends, what was understood, what is missing and what to switch on.

/** @import { StationList } from './types.d.ts' */
/** @import { Finding } from './begin.d.ts' */
/** @import { Guide, GuideList, Probe } from './setup.d.ts' */

import { attr, h, show, text } from './dom.js';
import { Channels } from './elements/channels.js';
import { ButtonBox } from './elements/buttonbox.js';
import './elements/network.js';
import { Simulators } from './elements/simulators.js';
import { find } from './finding.js';
import { at, dress } from './page.js';
import { filled, found } from './pure/first.js';
import { told } from './pure/phrase.js';
import { deskFor } from './pure/rights.js';
import { dropWords, formatWords, rateWords, rows } from './pure/probe.js';
import { cardText, t } from './pure/text.js';
import { looking, may } from './rights.js';

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

/** A sender's card; what does not change is not touched. */
class Sender {
  #name = h('h3');
  #format = h('p');
  #detail = h('p', { class: 'small' });
  #rate = h('p');
  #drops = h('p', { class: 'small' });
  #todo = h('ol', { class: 'todo' });
  #ready = h('p');
  #caption = h('summary');
  #body = h('tbody');
  node = h('article', { class: 'sender' },
    this.#name,
    this.#format,
    this.#detail,
    this.#rate,
    this.#drops,
    this.#ready,
    this.#todo,
    h('details', {},
      this.#caption,
      h('div', { class: 'scroll', tabindex: '0', role: 'group', 'aria-label': t('Channels') },
        h('table', {},
          h('thead', {},
            h('tr', {},
              ...[t('Channel'), t('Value'), t('Age'), t('For the card')].map((title) =>
                h('th', { scope: 'col' }, title),
              ),
            ),
          ),
          this.#body,
        ),
      ),
    ),
  );

  /** @param {boolean} alone of several the channels are a press away, so that all are seen */
  constructor(alone) {
    attr(/** @type {Element} */ (this.node.querySelector('details')), 'open', alone ? '' : null);
  }

  /** @param {Probe} p */
  update(p) {
    text(this.#name, `${p.name === p.address ? p.name : `${p.name} (${p.address})`}, ${t(p.link)}`);
    text(this.#format, formatWords(p));
    text(this.#detail, [p.detail, p.signs].map(told).filter((words) => words !== '').join('; '));
    text(this.#rate, rateWords(p));
    text(this.#drops, dropWords(p));
    text(this.#caption, t('Channels, and what the card {name} needs of them', { name: p.maneuver }));
    const ready = p.todo.length === 0 && p.samples > 0;
    text(this.#ready, t('All that the card {name} needs is there.', { name: p.maneuver }));
    show(this.#ready, ready);
    show(this.#todo, p.todo.length > 0);
    lines(this.#todo, p.todo.map(told));
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
      [row.title, row.value, row.age, row.need].forEach((words, k) =>
        text(/** @type {Element} */ (tr.children[k]), words),
      );
    });
  }
}

/** Makes a list's items say the texts. @param {HTMLElement} list @param {string[]} texts */
function lines(list, texts) {
  while (list.children.length > texts.length) list.lastElementChild?.remove();
  texts.forEach((words, i) => text(list.children[i] ?? list.appendChild(h('li')), words));
}

/** @type {Map<string, Sender>} */
const senders = new Map();

/** @param {StationList} list @param {(Probe | null)[]} probes */
function draw(list, probes) {
  const known = probes.filter((p) => p !== null);
  const where = list.listen.length === 0 ? '127.0.0.1:7181' : list.listen.reduce((a, b) => t('{a} or {b}', { a, b }));
  const box = document.querySelector('ht-buttonbox');
  if (box instanceof ButtonBox) box.update(where);
  text(
    at('state'),
    known.length === 0
      ? t(
          'Nothing is heard yet. Let the simulator send to {where}, as the guides tell; this page shows it as ' +
            'soon as it comes.',
          { where },
        )
      : known.length === 1
        ? t('One simulator is heard on {where}.', { where })
        : t('{n} simulators are heard on {where}.', { n: known.length, where }),
  );
  const refused = list.refused;
  show(at('refused'), refused !== undefined);
  if (refused !== undefined) {
    text(
      at('refused'),
      t(
        'Datagrams from {address} are refused: {senders} senders are followed already, and max-stations in the ' +
          'configuration allows no more. Stop a sender that is not needed, or raise it.',
        { address: refused.address, senders: refused.senders },
      ),
    );
  }
  const names = new Set(known.map((p) => p.name));
  for (const [name, sender] of senders) {
    if (names.has(name)) continue;
    sender.node.remove();
    senders.delete(name);
  }
  for (const p of known) {
    let sender = senders.get(p.name);
    if (sender === undefined) {
      sender = new Sender(known.length === 1);
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
    text(at('state'), t('Halfturn does not answer. Is it still running? This page comes back by itself when it is.'));
    return;
  }
  /** @type {Promise<Probe | null>[]} */
  const asked = list.stations
    .filter((s) => may('fly') && s.link !== 'gone' && s.link !== 'replaying' && !s.demonstration)
    .map((s) => get(`api/stations/${encodeURIComponent(s.name)}/probe`));
  const [finding, probes] = await Promise.all([find(), Promise.all(asked)]);
  draw(list, probes);
  tiles(list, finding, probes);
}

const simulators = new Simulators();
const channels = new Channels();
/** @type {Guide[]} */ let known = [];

/** The tiles of all simulators, and the channels of the first that is heard. */
/** @param {StationList} list @param {Finding | null} finding @param {(Probe | null)[]} probes */
function tiles(list, finding, probes) {
  const live = list.stations.find((s) => s.link === 'live' && !s.demonstration) ?? null;
  text(at('found'), found(finding, list.stations));
  simulators.update(known, finding, live?.format ?? '');
  channels.update(live, probes.find((p) => p?.name === live?.name) ?? null);
}

/** Options stand as they are typed, and break only where they must. @param {string} words */
function typed(words) {
  return words.split(/(--[a-z]\S*\w)/).map((part, i) => (i % 2 === 0 ? part : h('code', {}, part)));
}

/** Where simulators send to, as the tiles show it. */
let address = { host: '127.0.0.1', port: 7181 };

/** A file that the page offers to keep, with that address in it. @param {Guide} g @param {string} file */
function download(g, file) {
  const path = file.split('/').map(encodeURIComponent).join('/');
  const to = new URLSearchParams({ host: address.host, port: String(address.port) });
  const href = `api/guides/${encodeURIComponent(g.name)}/files/${path}?${to}`;
  return h('a', { href, download: '' }, file.split('/').at(-1) ?? file);
}

/** @param {Guide} g */
function guide(g) {
  const files = g.files ?? [];
  return h('details', { id: `guide-${g.name}` },
    h('summary', {}, cardText(g.title)),
    h('p', {}, t('Port: {words}.', { words: cardText(g.port) })),
    h('p', {}, t('What to expect: {words}', { words: cardText(g.quality) })),
    h('ol', {}, ...g.steps.map((step) => h('li', {}, ...typed(cardText(step))))),
    ...(g.notes ? [h('p', {}, ...typed(cardText(g.notes)))] : []),
    ...(files.length > 0
      ? [h('p', {}, t('To download: '), ...files.flatMap((file, i) => [i > 0 ? ', ' : '', download(g, file)]))]
      : []),
    ...(g.line === '' ? [] : [h('p', {}, h('code', {}, filled(g.line, address.host, address.port)))]),
    h('p', {}, t('Check on this page, or with: '), h('code', {}, g.check)));
}

function drawGuides() {
  const opened = new Set([...at('guides').querySelectorAll('details[open]')].map((node) => node.id));
  at('guides').replaceChildren(...known.map(guide));
  for (const id of opened) attr(at(id), 'open', '');
}

async function guides() {
  /** @type {GuideList | null} */
  const list = await get('api/guides');
  known = list?.guides ?? [];
  drawGuides();
  const there = document.getElementById(decodeURIComponent(location.hash.slice(1)));
  if (there instanceof HTMLDetailsElement) {
    there.open = true;
    there.scrollIntoView();
  }
}

addEventListener('hashchange', () => void guides());

async function run() {
  if (document.visibilityState === 'visible') await refresh();
  setTimeout(run, every);
}

dress('Set-up');
text(at('heard-title'), t('What arrives'));
text(at('network-title'), t('A tablet beside it'));
text(at('people'), t('Users, and links for guests'));
text(at('to-desk'), t('Several simulators? The desk shows them all on one page.'));
text(at('box-title'), t('Buttons and switches'));
text(at('find-title'), t('Find a simulator'));
text(at('to-first'), t('Choose aircraft and maneuver, or measure yours'));
at('simulators').append(simulators, channels);
at('where').append(simulators.where);
simulators.addEventListener('address', (e) => {
  address = /** @type {CustomEvent} */ (e).detail;
  drawGuides();
});
text(at('guides-title'), t('How a simulator is set up'));
text(at('host'), t('HOST stands for the machine Halfturn runs on: 127.0.0.1 when it is the simulator’s own.'));
void guides();
void looking().then((me) => {
  show(at('people'), me === null || me.user || may('invite'));
  show(at('to-desk'), deskFor(me, true));
  return run();
});
