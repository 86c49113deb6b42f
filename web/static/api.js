// Calls of the debrief pages. Paths count from this file, so that a page may lie in a folder.

import { said, t } from './pure/text.js';

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
  try {
    const answer = await fetch(url(path), { ...options, headers: { accept: 'application/json', ...options.headers } });
    const body = await answer.json();
    if (answer.ok) return { value: body, error: '' };
    return { value: null, error: typeof body?.error === 'string' ? said(body.error) : t('refused ({status})', { status: answer.status }) };
  } catch {
    return { value: null, error: t('Halfturn does not answer. Is it still running?') };
  }
}

/** @template T @param {string} path @param {unknown} body @returns {ReturnType<typeof call<T>>} */
export function post(path, body) {
  return call(path, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) });
}
