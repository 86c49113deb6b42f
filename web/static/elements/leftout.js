// The sessions that are on the disk but not in the list.

import { h } from '../dom.js';
import { number } from '../pure/format.js';
import { told } from '../pure/phrase.js';
import { t } from '../pure/text.js';

/** @param {{ total: number, sessions: readonly { id: string, why: string }[] }} left */
export function leftOutList({ total, sessions }) {
  const head = total === 1
    ? t('One session is left out of the logbook')
    : t('{n} sessions are left out of the logbook', { n: number(total) });
  const rows = sessions.map((s) => h('li', {}, h('strong', {}, s.id), h('span', {}, told(s.why))));
  const rest = total - sessions.length;
  if (rest > 0) rows.push(h('li', {}, t('and {n} more', { n: number(rest) })));
  const advice = t('Their folders stay as they are. Mend what is said of each, then stop the server and run:');
  return [
    h('summary', {}, head),
    h('ul', { class: 'rows' }, ...rows),
    h('p', { class: 'soft small' }, advice, ' ', h('code', {}, 'halfturn sessions rebuild')),
  ];
}
