// The links to the pages, the same on each; the attribute page names the current one.

/** @import { Me } from '../people.d.ts' */

import { post } from '../api.js';
import { h } from '../dom.js';
import { sawMany } from '../many.js';
import { deskFor, has, pageRights } from '../pure/rights.js';
import { language, t } from '../pure/text.js';
import { looking } from '../rights.js';

/** Before the others, for whoever has more than one station to look at. */
const desk = { page: 'desk', title: 'Desk', path: 'desk' };

/**
 * The pages by name, with their paths from the root of the pages.
 * @type {readonly { page: string, title: string, path: string }[]}
 */
const pages = [
  { page: 'panel', title: 'Panel', path: '' },
  { page: 'brief', title: 'Brief', path: 'brief' },
  { page: 'course', title: 'Course', path: 'course' },
  { page: 'sessions', title: 'Sessions', path: 'sessions' },
  { page: 'setup', title: 'Set-up', path: 'setup' },
];

/** Where the pages lie, also for a page in a folder. */
const root = new URL('../', import.meta.url);

/** Ends the login, and goes to where one begins. */
async function logOut() {
  await post('api/logout', {});
  location.assign(new URL('login', root).href);
}

export class Nav extends HTMLElement {
  #built = '';
  /** @type {Me | null} */ #me = null;
  /** Of a page's address, after the ?. @type {Record<string, string>} */ #queries = {};

  connectedCallback() {
    this.update();
    void looking().then((me) => {
      this.#me = me;
      if (me !== null) this.update();
    });
  }

  /**
   * Puts the links in, in the language of now.
   * @param {Record<string, string>} [queries] by page, what its address carries: brief: 'maneuver=wing-over'
   */
  update(queries = this.#queries) {
    this.#queries = queries;
    const here = this.getAttribute('page');
    const me = this.#me;
    const all = [...(deskFor(me, sawMany()) ? [desk] : []), ...pages.filter((p) => has(me, pageRights[p.page] ?? ''))];
    const key = language() + all.map((p) => p.page) + JSON.stringify(queries) + (me?.login ? me.name : '');
    if (this.#built === key) return;
    this.#built = key;
    const links = all.map(({ page, title, path }) => {
      const url = new URL(path, root);
      url.search = queries[page] ?? '';
      const current = page === here ? { 'aria-current': 'page' } : {};
      return h('li', {}, h('a', { href: url.href, 'data-words': t(title), ...current }, t(title)));
    });
    if (me?.login) links.push(this.#self(me, here));
    const focused = [...this.querySelectorAll('a')].findIndex((a) => a === document.activeElement);
    this.replaceChildren(h('nav', { 'aria-label': t('Pages') }, h('ul', {}, ...links)));
    if (focused >= 0) this.querySelectorAll('a')[focused]?.focus();
  }

  /** Who is logged in, and the way out. @param {Me} me @param {string | null} here */
  #self(me, here) {
    const out = h('button', { type: 'button' }, t('Log out'));
    out.addEventListener('click', () => void logOut());
    const current = here === 'people' ? { 'aria-current': 'page' } : {};
    if (!me.user && !has(me, 'invite')) return h('li', { class: 'me' }, h('span', { class: 'soft' }, me.name), out);
    const own = h('a', { href: new URL('people', root).href, 'data-words': me.name, ...current }, me.name);
    return h('li', { class: 'me' }, own, out);
  }
}

if (!customElements.get('ht-nav')) customElements.define('ht-nav', Nav);
