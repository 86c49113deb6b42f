// What grading a session again gave, beside its first grade.

/** @import { SessionDetail } from '../sessions.d.ts' */

import { h } from '../dom.js';
import { number } from '../pure/format.js';
import { dayWords, timeWords } from '../pure/sessions.js';
import { told } from '../pure/phrase.js';
import { cardText, t } from '../pure/text.js';

/** @param {SessionDetail['regrades']} all */
export function regradeList(all) {
  return [h('h2', { id: 'regrades-title' }, t('Graded again')), ...all.map(regrade)];
}

/** @param {SessionDetail['regrades'][number]} r */
function regrade(r) {
  const when = `${dayWords(r.at)}, ${timeWords(r.at)}`;
  const score = r.score === null ? '' : number(r.score);
  const facts = [when, cardText(r.standard), t(r.grade || 'no grade'), score].filter((w) => w !== '');
  const differences = r.differences.length === 0
    ? h('p', {}, t('Nothing differs from the first grade.'))
    : h('ul', { class: 'rows' }, ...r.differences.map((w) => h('li', {}, told(w))));
  const why = r.headline === '' ? '' : h('p', {}, told(r.headline));
  return h('details', {}, h('summary', {}, facts.join(' · ')), why, differences);
}

/** Opens the last of them. @param {Element} section */
export function showLast(section) {
  section.querySelector('details:last-of-type')?.setAttribute('open', '');
  section.scrollIntoView({ block: 'nearest' });
}
