// A list of one’s own short texts, to be said by a touch. Pure.

/** The most a text holds: what is heard in flight is short. */
export const most = { words: 8, letters: 60, kept: 12 };

/** A text as it is said: one line, spaces once. @param {string} words */
export function tidy(words) {
  return words.replace(/\s+/g, ' ').trim().slice(0, most.letters);
}

/** How many words a text is too long by, 0 when it is not. @param {string} words */
export function tooLong(words) {
  const count = tidy(words) === '' ? 0 : tidy(words).split(' ').length;
  return Math.max(0, count - most.words);
}

/** The list with one more, first; one that is there moves up. @param {readonly string[]} list @param {string} words */
export function withPhrase(list, words) {
  const one = tidy(words);
  return one === '' ? [...list] : [one, ...list.filter((w) => w !== one)].slice(0, most.kept);
}

/** A kept list of any kind as a list of texts. @param {unknown} value @returns {string[]} */
export function phrasesOf(value) {
  if (!Array.isArray(value)) return [];
  return value.filter((w) => typeof w === 'string').map(tidy).filter((w) => w !== '').slice(0, most.kept);
}
