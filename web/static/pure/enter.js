// Where a device goes after it was let in.

/**
 * The page that was asked for first: a path of this server, '/' for anything else, so that a link cannot lead away.
 * @param {string} search of the address of the page that asks for the code
 */
export function destination(search) {
  const to = new URLSearchParams(search).get('to') ?? '/';
  return /^\/(?![/\\])/.test(to) && !to.includes('\\') ? to : '/';
}
