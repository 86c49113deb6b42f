// Helpers that build a subtree once and then change only what differs.

const SVG = 'http://www.w3.org/2000/svg';

/**
 * @typedef {Record<string, string | number>} Attributes
 * @typedef {(Node | string)[]} Children
 */

/**
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} tag
 * @param {Attributes} [attributes]
 * @param {Children} children
 * @returns {HTMLElementTagNameMap[K]}
 */
export function h(tag, attributes = {}, ...children) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, String(value));
  node.append(...children);
  return node;
}

/**
 * @template {keyof SVGElementTagNameMap} K
 * @param {K} tag
 * @param {Attributes} [attributes]
 * @param {Children} children
 * @returns {SVGElementTagNameMap[K]}
 */
export function s(tag, attributes = {}, ...children) {
  const node = /** @type {SVGElementTagNameMap[K]} */ (document.createElementNS(SVG, tag));
  for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, String(value));
  node.append(...children);
  return node;
}

/** Sets a node's text where it differs. @param {Node} node @param {string} value */
export function text(node, value) {
  if (node.textContent !== value) node.textContent = value;
}

/**
 * Sets an attribute where it differs; null takes it away.
 * @param {Element} node
 * @param {string} name
 * @param {string | number | null} value
 */
export function attr(node, name, value) {
  if (value === null) {
    if (node.hasAttribute(name)) node.removeAttribute(name);
    return;
  }
  const next = String(value);
  if (node.getAttribute(name) !== next) node.setAttribute(name, next);
}

/** Shows or hides. @param {Element} node @param {boolean} on */
export function show(node, on) {
  attr(node, 'hidden', on ? null : '');
}

/** The pixels of one rem, over the 16 the drawings are measured in. */
export function scale() {
  return parseFloat(getComputedStyle(document.documentElement).fontSize) / 16 || 1;
}
