// The rule for names, as far as the pages need it: how a name is normalized. The server decides what is refused.
// coach/names/testdata/names.json holds both to one rule. Pure.

/** Letters of a name. */
export const longest = 80;

/** What an input takes in UTF-16 units, so that no letter of two is counted as two. */
export const longestInput = 2 * longest;

/** White space as in Unicode: `\s` is not all of it, and a little more. */
const space = /[\t-\r \u0085\u00a0\u1680\u2000-\u200a\u2028\u2029\u202f\u205f\u3000]+/gu;

/** A name as it is kept: composed, one space for any white space inside and none around. @param {string} name */
export function kept(name) {
  return name.replace(space, ' ').replace(/^ | $/g, '').normalize('NFC');
}
