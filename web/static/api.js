// Calls of the debrief pages. Paths count from this file, so that a page may lie in a folder.

import { h } from './dom.js';
import { capital } from './pure/format.js';
import { told } from './pure/phrase.js';
import { t } from './pure/text.js';

/**
 * In a file that holds a debrief, the answers of the server by their paths; null on a page of the server's.
 * @type {Record<string, any> | null}
 */
export const shared = JSON.parse(document.getElementById('shared')?.textContent ?? 'null');

/** @param {string} path */
function url(path) {
  return new URL(path, import.meta.url);
}

/**
 * @template T
 * @param {string} path
 * @param {RequestInit} [options]
 * @returns {Promise<{ value: T, error: '' } | { value: null, error: string }>} error is in words
 */
export async function call(path, options = {}) {
  if (shared) {
    const held = shared[path];
    return held === undefined ? { value: null, error: silent() } : { value: structuredClone(held), error: '' };
  }
  try {
    const answer = await fetch(url(path), { ...options, headers: { accept: 'application/json', ...options.headers } });
    if (!answer.ok) return { value: null, error: await refused(answer) };
    return { value: await answer.json(), error: '' };
  } catch {
    return { value: null, error: silent() };
  }
}

/** What a refusal says, as a sentence of its own. @param {Response} answer */
async function refused(answer) {
  const body = await answer.json();
  if (typeof body?.error !== 'string') return t('refused ({status})', { status: answer.status });
  const { error, code, args } = body;
  return capital(told(typeof code === 'string' ? { code, args, text: error } : error));
}

const silent = () => t('Halfturn does not answer. Is it still running?');

/**
 * Saves a file of the server's. Nothing of it passes through the page: the request that shows whether there is one ends
 * where the file begins.
 * @param {string} path
 * @returns {Promise<string>} why there is no file, in words; '' when it is on its way
 */
export async function save(path) {
  const stop = new AbortController();
  try {
    const answer = await fetch(url(path), { signal: stop.signal });
    if (!answer.ok) return await refused(answer);
  } catch {
    return silent();
  } finally {
    stop.abort();
  }
  h('a', { href: url(path).href, download: '' }).click();
  return '';
}

/** @template T @param {string} path @param {unknown} body @returns {ReturnType<typeof call<T>>} */
export function post(path, body) {
  return call(path, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) });
}
