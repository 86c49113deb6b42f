// A leg by name, in an address: "3" of the same session, "ID/3" of another. Pure.

/** @import { LegRef } from '../sessions.d.ts' */

/** @param {string | null} words @param {string} here the session whose legs need no name @returns {LegRef | null} */
export function refOf(words, here) {
  const m = /^(?:(.+)\/)?(\d{1,6})$/.exec(words ?? '');
  return m && Number(m[2]) > 0 ? { session: m[1] ?? here, n: Number(m[2]) } : null;
}

/** @param {LegRef | null} ref @param {string} here */
export function refWords(ref, here) {
  if (!ref) return '';
  return ref.session === here ? String(ref.n) : `${ref.session}/${ref.n}`;
}

/** @param {LegRef | null} a @param {LegRef | null} b */
export function sameRef(a, b) {
  return a?.session === b?.session && a?.n === b?.n;
}
