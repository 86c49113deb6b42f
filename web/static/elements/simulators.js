// How each simulator reaches Halfturn: a tile with this machine's address to copy, or a button that asks it.

/** @import { Finding } from '../begin.d.ts' */
/** @import { Guide } from '../setup.d.ts' */

import { attr, h, show, text } from '../dom.js';
import { tell } from '../finding.js';
import { filled, own } from '../pure/first.js';
import { cardText, language, t } from '../pure/text.js';
import { copyButton } from './copy.js';
import { wayPicture } from './way.js';

/** What stands on a tile, and changes with the address. */
class Tile {
  #where = h('p', { class: 'tile-label' });
  #value = h('output', { class: 'tile-value' });
  #port = h('output', { class: 'tile-value' });
  #asked = h('input', { type: 'text', autocomplete: 'off', spellcheck: 'false', maxlength: 100 });
  #ask = h('button', { type: 'button' });
  #words = h('p', { class: 'tile-words', role: 'status' });
  node;

  /** @param {Guide} guide @param {(host: string) => Promise<string>} ask resolves to what is wrong */
  constructor(guide, ask) {
    this.guide = guide;
    const id = `tile-${guide.name}`;
    this.node = h('article', { class: 'tile', id, 'aria-labelledby': `${id}-name` },
      h('h3', { id: `${id}-name` }, cardText(guide.short)),
      h('p', { class: 'tile-say' }, cardText(guide.say)));
    if (guide.way === 'asked') this.#askable(id, ask);
    else this.#sends();
    this.node.append(
      h('div', { class: 'tile-foot' },
        h('a', { href: `setup#guide-${guide.name}` },
          guide.way === 'bridge' ? t('the bridge, and how to install it') : t('the steps')),
        this.#words,
        wayPicture(guide.way)),
    );
  }

  #sends() {
    const whole = this.guide.line !== '';
    attr(this.#value, 'data-line', String(whole));
    text(this.#where, whole ? t('to copy') : t('this machine'));
    const copy = copyButton(this.#value, this.#words, t('Copy for {name}', { name: cardText(this.guide.short) }));
    const row = h('div', { class: 'tile-row' },
      h('div', { class: 'tile-field' }, this.#where, this.#value), copy);
    if (!whole) {
      row.append(h('div', { class: 'tile-field tile-port' }, h('p', { class: 'tile-label' }, t('port')), this.#port));
    }
    this.node.append(row);
  }

  /** @param {string} id @param {(host: string) => Promise<string>} ask */
  #askable(id, ask) {
    attr(this.#asked, 'id', `${id}-address`);
    attr(this.#asked, 'placeholder', '192.168.1.31');
    text(this.#ask, t('Ask it'));
    const go = async () => {
      const host = this.#asked.value.trim() || '127.0.0.1';
      attr(this.#ask, 'disabled', '');
      text(this.#words, await ask(host));
      attr(this.#ask, 'disabled', null);
    };
    this.#ask.addEventListener('click', () => void go());
    this.#asked.addEventListener('keydown', (e) => {
      if (e.key === 'Enter') void go();
    });
    this.node.append(
      h('div', { class: 'tile-row' },
        h('div', { class: 'tile-field' },
          h('label', { class: 'tile-label', for: `${id}-address` }, t('its machine; empty is this one')),
          this.#asked),
        this.#ask),
    );
  }

  /** @param {string} host @param {number} port */
  update(host, port) {
    const own = this.guide.ownPort || port;
    text(this.#value, this.guide.line === '' ? host : filled(this.guide.line, host, port));
    text(this.#port, String(own));
  }

  /** @param {boolean} live */
  mark(live) {
    attr(this.node, 'data-live', String(live));
  }
}

export class Simulators extends HTMLElement {
  #other = h('button', { type: 'button', class: 'linklike', 'aria-pressed': 'false' });
  #tiles = h('div', { class: 'tiles' });
  #note = h('p', { class: 'tile-note', role: 'status' });
  #open = h('button', { type: 'button' });
  #noteRow = h('div', { class: 'tile-noterow' }, this.#note, this.#open);
  #stop = h('button', { type: 'button' });
  #error = '';
  /** @type {Tile[]} */ #all = [];
  #built = '';
  /** As pressed; null while nobody pressed it. @type {boolean | null} */ #pressed = null;
  #address = '';
  /** @type {Finding | null} */ #finding = null;

  connectedCallback() {
    if (this.firstChild) return;
    this.append(this.#tiles, this.#noteRow);
    this.#other.addEventListener('click', () => {
      this.#pressed = !this.#elsewhere;
      this.#draw();
    });
    this.#open.addEventListener('click', () => void this.#tell({ open: this.#finding?.open !== true }));
    this.#stop.addEventListener('click', () => {
      const named = this.#finding?.asked.find((a) => a.by === 'page');
      if (named) void this.#tell({ stop: named.address });
    });
  }

  /** The button that tells where the simulator runs, to stand in a heading. */
  get where() {
    return this.#other;
  }

  /**
   * Whether the simulator is on another machine than Halfturn. On a page that is opened from another machine it is
   * taken to be there, as soon as it would be heard.
   */
  get #elsewhere() {
    return this.#pressed ?? (!own(location.hostname) && this.#finding?.open === true);
  }

  /** @param {Parameters<typeof tell>[0]} what @returns {Promise<string>} what is wrong */
  async #tell(what) {
    const { value, error } = await tell(what);
    if (value !== null) this.#finding = value;
    this.#error = error;
    this.#draw();
    return error;
  }

  /**
   * @param {readonly Guide[]} guides @param {Finding | null} finding
   * @param {string} format of what arrives, '' for nothing
   */
  update(guides, finding, format) {
    const key = language() + guides.map((g) => g.name).join(' ');
    if (this.#built !== key) {
      this.#built = key;
      const ask = (/** @type {string} */ host) => this.#tell({ ask: host });
      this.#all = guides.map((g) => new Tile(g, ask));
      this.#tiles.replaceChildren(...this.#all.map((tile) => tile.node));
    }
    this.#finding = finding;
    for (const tile of this.#all) tile.mark(format !== '' && sends(tile.guide.name, format));
    this.#draw();
  }

  #draw() {
    const f = this.#finding;
    const lan = f?.machine.find((a) => !a.includes(':')) ?? f?.machine[0];
    const here = own(location.hostname) ? t('It runs on this machine') : t('It runs on Halfturn’s machine');
    text(this.#other, this.#elsewhere ? t('It runs on another machine') : here);
    attr(this.#other, 'aria-pressed', String(this.#elsewhere));
    show(this.#other, lan !== undefined);
    const host = this.#elsewhere && lan !== undefined ? lan : '127.0.0.1';
    const port = f?.port || 7181;
    for (const tile of this.#all) tile.update(host, port);
    if (this.#address !== `${host} ${port}`) {
      this.#address = `${host} ${port}`;
      this.dispatchEvent(new CustomEvent('address', { detail: { host, port } }));
    }
    const closed = this.#elsewhere && f !== null && !f.open;
    const opened = f !== null && f.open && !f.fixed;
    show(this.#noteRow, closed || opened || this.#error !== '');
    show(this.#open, closed || opened);
    text(this.#open, closed ? t('Open the port to the network') : t('Close the port again'));
    text(this.#note, this.#error !== '' ? this.#error : closed
      ? t(
          'Another machine is not heard yet. Open the UDP port here, or start Halfturn with: ' +
            'halfturn serve --udp :{port}',
          { port: f.port },
        )
      : opened ? t('Simulators of the local network are heard.') : '');
  }
}

/** Whether a guide's simulator sends in a format. @param {string} guide @param {string} format */
function sends(guide, format) {
  switch (format) {
    case 'RREF replies': return guide === 'x-plane-ask';
    case 'DATA rows': return guide === 'x-plane-rows';
    case 'native FDM 24':
    case 'native FDM 25': return guide === 'flightgear';
    case 'JSON lines': return guide === 'bridge' || guide === 'json';
    default: return false;
  }
}

if (!customElements.get('ht-simulators')) customElements.define('ht-simulators', Simulators);
