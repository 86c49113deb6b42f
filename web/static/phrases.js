// One's own list of what to say to a pilot, kept in this browser.

const key = 'halfturn.phrases';

/** What may be said at once, as the server has it: package names. */
export const longest = 60; // characters
export const mostWords = 8;

/** How many are kept. */
export const most = 40;

/** What is there before one has a list of one's own. */
const usual = ['Eyes outside', 'Relax your grip', 'More right rudder', 'Less back pressure', 'Nicely flown',
  'Try that once more'];

/** Words as they are said: one line. @param {unknown} words */
export function tidy(words) {
  return typeof words === 'string' ? words.split(/\s+/).filter((w) => w !== '').join(' ') : '';
}

/** Whether words may be said. @param {string} words */
export function fits(words) {
  const tidied = tidy(words);
  return tidied !== '' && [...tidied].length <= longest && tidied.split(' ').length <= mostWords;
}

/** The valid ones of a list of any kind, each once. @param {unknown} list @returns {string[]} */
export function clean(list) {
  const all = Array.isArray(list) ? list.map(tidy).filter(fits) : [];
  return [...new Set(all)].slice(0, most);
}

/**
 * One's own list; before there is one, a usual one in the language of the page.
 * @param {(s: string) => string} t @param {string | null} [kept] what the browser holds
 */
export function own(t, kept = held()) {
  try {
    if (kept !== null) return clean(JSON.parse(kept));
  } catch {
    // it is no list
  }
  return usual.map((words) => t(words));
}

/** @returns {string | null} */
function held() {
  try {
    return localStorage.getItem(key);
  } catch {
    return null; // storage is off
  }
}

/** Keeps a list. Returns whether the browser did. @param {readonly string[]} list */
export function keep(list) {
  try {
    localStorage.setItem(key, JSON.stringify(clean(list)));
    return true;
  } catch {
    return false;
  }
}
