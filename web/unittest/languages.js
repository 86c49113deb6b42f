// The words of all languages, fetched, for tests that choose one.

import { languages, learn } from '../static/text/languages.js';

/** @typedef {import('../static/text/languages.js').Language} Language */

export const codes = /** @type {Language[]} */ (Object.keys(languages));

await Promise.all(codes.map(learn));
