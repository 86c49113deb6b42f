// What hands on the stick can ask for: by a key, by a button of a joystick. Pure.

/**
 * @typedef {'mark' | 'point' | 'stop' | 'repeat' | 'mute' | 'ear' | 'next' | 'step' | 'student' | 'end' | 'full' |
 *   'keys'} Act
 */

/** The acts with their keys and what they do. @type {readonly { act: Act, key: string, words: string }[]} */
export const acts = [
  { act: 'mark', key: 'M', words: 'Mark the moment' },
  { act: 'point', key: 'P', words: 'The point off the wing' },
  { act: 'stop', key: 'K', words: 'Knock it off' },
  { act: 'repeat', key: 'R', words: 'Say again' },
  { act: 'mute', key: 'S', words: 'Sound on or off' },
  { act: 'ear', key: 'E', words: 'By ear' },
  { act: 'next', key: 'N', words: 'Next maneuver' },
  { act: 'step', key: 'G', words: 'What is next in the course' },
  { act: 'student', key: 'W', words: 'Who flies: the next name' },
  { act: 'end', key: 'X', words: 'End the session' },
  { act: 'full', key: 'F', words: 'Full screen' },
  { act: 'keys', key: '?', words: 'Show the keys' },
];

/** Those a button can be given: the last two need a hand at the screen. */
export const buttoned = acts.filter(({ act }) => act !== 'full' && act !== 'keys');

/** Those that a button box can send, as the server does them: to fly by ear is a page's own. */
export const boxed = buttoned.filter(({ act }) => act !== 'ear');

/** @param {string} key as a keyboard event names it @returns {Act | ''} */
export function actOf(key) {
  return acts.find((a) => a.key === key.toUpperCase())?.act ?? '';
}

/**
 * The buttons that were pressed since the last look.
 * @param {readonly boolean[]} before @param {readonly boolean[]} now
 * @returns {number[]}
 */
export function pressed(before, now) {
  return now.flatMap((down, i) => (down && !before[i] ? [i] : []));
}

/**
 * What a button is for. A name has the joystick in it, as numbers of buttons are its own.
 * @param {Readonly<Record<string, string>>} buttons by act: "JOYSTICK #BUTTON"
 * @param {string} name
 * @returns {Act | ''}
 */
export function actOfButton(buttons, name) {
  return buttoned.find(({ act }) => buttons[act] === name)?.act ?? '';
}

/** @param {string} pad its id @param {number} button */
export function buttonName(pad, button) {
  return `${pad} #${button}`;
}

/**
 * The one after the present one in a list; the first where that is not in it.
 * @template T @param {readonly T[]} list @param {T} now @returns {T | undefined}
 */
export function after(list, now) {
  return list[(list.indexOf(now) + 1) % Math.max(1, list.length)];
}
