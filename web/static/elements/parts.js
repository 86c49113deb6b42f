// What the page of a debrief is made of.

import { h } from '../dom.js';
import { t } from '../pure/text.js';
import { ByCards } from './bycards.js';
import { Judging } from './judging.js';
import { LaneButtons } from './lanebuttons.js';
import { LayOver } from './over.js';
import { TimePlots } from './plots.js';
import { Remarks } from './remarks.js';
import { Scrub } from './scrub.js';
import { FlownSheetElement } from './sheet.js';
import { CursorValues } from './values.js';
import { FlightViews } from './views.js';
import { WhoFlew } from './whoflew.js';

for (const [name, made] of /** @type {[string, CustomElementConstructor][]} */ ([
  ['ht-sheet', FlownSheetElement],
  ['ht-views', FlightViews],
  ['ht-lanes', LaneButtons],
  ['ht-by', ByCards],
  ['ht-plots', TimePlots],
  ['ht-values', CursorValues],
  ['ht-over', LayOver],
  ['ht-remarks', Remarks],
  ['ht-flew', WhoFlew],
  ['ht-judging', Judging],
])) {
  customElements.define(name, made);
}

/** @template T @param {string} tag @param {Record<string, string>} [attributes] @returns {T} */
function element(tag, attributes = {}) {
  return /** @type {T} */ (/** @type {unknown} */ (h(/** @type {any} */ (tag), attributes)));
}

/** The parts, in the language of now. */
export const makeParts = () => ({
  sheet: /** @type {FlownSheetElement} */ (element('ht-sheet')),
  lanes: /** @type {LaneButtons} */ (element('ht-lanes')),
  views: /** @type {FlightViews} */ (element('ht-views', { class: 'card' })),
  by: /** @type {ByCards} */ (element('ht-by')),
  plots: /** @type {TimePlots} */ (element('ht-plots')),
  values: /** @type {CursorValues} */ (element('ht-values')),
  over: /** @type {LayOver} */ (element('ht-over')),
  remarks: /** @type {Remarks} */ (
    element('ht-remarks', { id: 'remarks', role: 'region', 'aria-labelledby': 'remarks-title' })
  ),
  student: /** @type {WhoFlew} */ (element('ht-flew')),
  judging: /** @type {Judging} */ (element('ht-judging')),
  head: h('div', { class: 'leg-head' }),
  about: h('div', { class: 'leg-about' }),
  scrub: new Scrub(),
  see: h('button', { type: 'button', id: 'see-again', class: 'main-button' }),
  replay: h('button', { type: 'button', id: 'replay' }, t('Replay on the panel')),
  print: h('button', { type: 'button', id: 'print' }, t('Print')),
  files: h('details', { class: 'menu', id: 'files' }),
  keep: h('button', { type: 'button', id: 'keep', 'aria-pressed': 'false' }, t('Protect')),
  error: h('p', { class: 'control-error', role: 'alert' }),
  causes: h('section', { class: 'card', id: 'causes', 'aria-labelledby': 'causes-title' }),
  worst: h('section', { id: 'worst', 'aria-labelledby': 'worst-title' }),
  checks: h('details', { id: 'checks' }),
  said: h('section', { id: 'said', 'aria-labelledby': 'said-title' }),
  time: h('details', { id: 'time' }),
});
