// A word that explains itself: pressed, or reached by the Tab key, it opens a sentence beside it; Escape closes that.

/** @import { Term } from '../pure/terms.js' */

import { attr, h } from '../dom.js';
import { meaning, pieces } from '../pure/terms.js';

/** Between the word and its sentence, and from there to the edge of the window, px. */
const room = 8;

let count = 0;

/**
 * @param {Term} name
 * @param {string} words as they stand on the page
 * @param {boolean} [alone] whether no other target is near, so that there is room for a finger
 */
export function term(name, words, alone = false) {
  const id = `term-${++count}`;
  const says = h('span', { id, class: 'term-says', popover: 'auto', role: 'note' });
  const button = h('button',
    { type: 'button', class: alone ? 'term alone' : 'term', 'aria-describedby': id, 'data-term': name }, words);
  button.popoverTargetElement = says;
  // It is empty while it is closed: the words around it are read, copied and compared without it.
  says.addEventListener('beforetoggle', (e) => {
    says.textContent = /** @type {ToggleEvent} */ (e).newState === 'open' ? meaning(name) : '';
  });
  says.addEventListener('toggle', () => place(says, button));
  button.addEventListener('focus', () => {
    if (button.matches(':focus-visible')) says.showPopover();
  });
  button.addEventListener('blur', () => says.hidePopover());
  return h('span', { class: 'term-of' }, button, says);
}

/** Puts the sentence below its word, or above where there is no room. @param {HTMLElement} says @param {Element} by */
function place(says, by) {
  if (!says.matches(':popover-open')) return;
  const word = by.getBoundingClientRect();
  const own = says.getBoundingClientRect();
  const left = Math.max(room, Math.min(word.left, innerWidth - own.width - room));
  const below = word.bottom + room + own.height <= innerHeight;
  says.style.left = `${left}px`;
  says.style.top = `${Math.max(room, below ? word.bottom + room / 2 : word.top - own.height - room / 2)}px`;
}

/**
 * A sentence whose terms explain themselves.
 * @param {string} sentence
 * @param {{ names?: readonly Term[], alone?: boolean }} [how] the terms looked for, and whether they stand alone
 * @returns {(Node | string)[]}
 */
export function explained(sentence, { names, alone } = {}) {
  /** @type {(Node | string)[]} */ const nodes = [];
  for (const { term: name, words } of pieces(sentence, names)) {
    const [, mark = '', rest = ''] = /^([:;,.!?)]*)(.*)$/s.exec(words) ?? [];
    const before = nodes.at(-1);
    if (name) nodes.push(term(name, words, alone));
    else if (mark !== '' && before instanceof Element) {
      before.append(mark); // a mark never begins a line
      nodes.push(rest);
    } else nodes.push(words);
  }
  return nodes;
}

/** Like text() of dom.js, for a sentence whose terms explain themselves. @param {Element} node @param {string} words */
export function explain(node, words) {
  if (node.getAttribute('data-words') === words) return;
  attr(node, 'data-words', words);
  node.replaceChildren(...explained(words));
}
