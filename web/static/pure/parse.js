// Reads the messages of the live socket. Pure.

/** @import { Message } from '../types.d.ts' */

const types = new Set([
  'hello', 'station', 'plan', 'frame', 'setup', 'phase', 'callout', 'leg', 'series', 'session', 'act', 'mark', 'acted',
  'hole', 'handover', 'watching', 'wall',
]);

/**
 * Reads one message. A text that is none, or of a type this page does not know, is null:
 * a newer server may say more than an older page understands.
 * @param {unknown} text
 * @returns {Message | null}
 */
export function parse(text) {
  if (typeof text !== 'string') return null;
  /** @type {unknown} */
  let value;
  try {
    value = JSON.parse(text);
  } catch {
    return null;
  }
  if (typeof value !== 'object' || value === null) return null;
  const { type, station } = /** @type {Record<string, unknown>} */ (value);
  if (typeof type !== 'string' || !types.has(type) || typeof station !== 'string') return null;
  return /** @type {Message} */ (value);
}
