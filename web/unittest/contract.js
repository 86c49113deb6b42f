// Reads the messages of the golden file: JSON between a declaration and a semicolon.

import { readFileSync } from 'node:fs';

const text = readFileSync(new URL('../testdata/messages.golden.ts', import.meta.url), 'utf8');
const found = text.match(/^export const messages: Message\[\] = (\[[\s\S]*?^\]);$/m);
if (!found) throw new Error('testdata/messages.golden.ts holds no messages');

export const messages = JSON.parse(found[1]);
