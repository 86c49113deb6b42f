// The tables of a leg: why and what to change, its checks, its callouts.

/** @import { FlownLeg, SessionDetail } from '../sessions.d.ts' */

import { h, show } from '../dom.js';
import { number } from '../pure/format.js';
import { t } from '../pure/text.js';
import { checkList } from './checklist.js';
import { drillThis } from './drillthis.js';
import { calloutTable, causes, checkTable } from './judged.js';

/**
 * Fills the sections of the tables.
 * @param {{ causes: Element, worst: Element, checks: Element, said: Element }} sections
 * @param {FlownLeg} flight
 * @param {(time: number) => void} go called with the time of a callout that is pressed
 * @param {SessionDetail | null} session null where nothing can be set up: in a file
 */
export function drawTables(sections, flight, go, session) {
  const { leg } = flight;
  show(sections.causes, (leg.causes ?? []).length > 0);
  sections.causes.replaceChildren(h('h2', { id: 'causes-title' }, t('Why, and what to change')), causes(leg),
    ...(session === null ? [] : drillThis(flight, session)));
  const total = t('{n} in all', { n: number((leg.checks ?? []).length) });
  sections.worst.replaceChildren(
    h('div', { class: 'worst-head' },
      h('h2', { id: 'worst-title' }, t('Checks, worst first')), h('span', { class: 'soft' }, total)),
    checkList(leg.checks ?? []));
  const checks = checkTable(leg, flight.plan, t('In the order of the turn'));
  sections.checks.replaceChildren(h('summary', {}, t('All checks, in the order of the turn')),
    scroll(t('All checks, in the order of the turn'), checks));
  const callouts = calloutTable(flight, go);
  sections.said.replaceChildren(h('h2', { id: 'said-title' }, t('Callouts')), scroll(t('Callouts'), callouts));
}

/** @param {string} name @param {Node} table */
function scroll(name, table) {
  return h('div', { class: 'scroll', tabindex: 0, role: 'group', 'aria-label': name }, table);
}
