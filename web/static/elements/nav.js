// The links to the pages, the same on each; the attribute page names the current one.

import { h } from '../dom.js';
import { sawMany } from '../many.js';
import { language, t } from '../pure/text.js';

/** Before the others, for whoever has more than one station to look at. */
const desk = { page: 'desk', title: 'Desk', path: 'desk' };

/**
 * The pages by name, with their paths from the root of the pages.
 * @type {readonly { page: string, title: string, path: string }[]}
 */
const pages = [
  { page: 'panel', title: 'Panel', path: '' },
  { page: 'brief', title: 'Brief', path: 'brief' },
  { page: 'sessions', title: 'Sessions', path: 'sessions' },
  { page: 'setup', title: 'Set-up', path: 'setup' },
];

/** Where the pages lie, also for a page in a folder. */
const root = new URL('../', import.meta.url);

export class Nav extends HTMLElement {
  #built = '';
  /** Of a page's address, after the ?. @type {Record<string, string>} */ #queries = {};

  connectedCallback() {
    this.update();
  }

  /**
   * Puts the links in, in the language of now.
   * @param {Record<string, string>} [queries] by page, what its address carries: brief: 'maneuver=wing-over'
   */
  update(queries = this.#queries) {
    this.#queries = queries;
    const here = this.getAttribute('page');
    const all = here === desk.page || sawMany() ? [desk, ...pages] : pages;
    const key = language() + all.length + JSON.stringify(queries);
    if (this.#built === key) return;
    this.#built = key;
    const links = all.map(({ page, title, path }) => {
      const url = new URL(path, root);
      url.search = queries[page] ?? '';
      const current = page === here ? { 'aria-current': 'page' } : {};
      return h('li', {}, h('a', { href: url.href, 'data-words': t(title), ...current }, t(title)));
    });
    const focused = [...this.querySelectorAll('a')].findIndex((a) => a === document.activeElement);
    this.replaceChildren(h('nav', { 'aria-label': t('Pages') }, h('ul', {}, ...links)));
    if (focused >= 0) this.querySelectorAll('a')[focused]?.focus();
  }
}

if (!customElements.get('ht-nav')) customElements.define('ht-nav', Nav);
