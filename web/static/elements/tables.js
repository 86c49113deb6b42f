// The tables of a leg: why and what to change, its checks, its callouts.

/** @import { FlownLeg } from '../sessions.d.ts' */

import { h, show } from '../dom.js';
import { t } from '../pure/text.js';
import { calloutTable, causes, checkTable } from './judged.js';

/**
 * Fills the sections of the tables.
 * @param {{ causes: Element, checks: Element, said: Element }} sections
 * @param {FlownLeg} flight
 * @param {(time: number) => void} go called with the time of a callout that is pressed
 */
export function drawTables(sections, flight, go) {
  const { leg } = flight;
  show(sections.causes, (leg.causes ?? []).length > 0);
  sections.causes.replaceChildren(h('h2', { id: 'causes-title' }, t('Why, and what to change')), causes(leg));
  const checks = checkTable(leg, flight.plan, t('In the order of the turn'));
  sections.checks.replaceChildren(h('h2', { id: 'checks-title' }, t('Checks')), scroll(t('Checks'), checks));
  const callouts = calloutTable(flight, go);
  sections.said.replaceChildren(h('h2', { id: 'said-title' }, t('Callouts')), scroll(t('Callouts'), callouts));
}

/** @param {string} name @param {Node} table */
function scroll(name, table) {
  return h('div', { class: 'scroll', tabindex: 0, role: 'group', 'aria-label': name }, table);
}
