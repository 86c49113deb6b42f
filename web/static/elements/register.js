// Registers the elements, and gives querySelector their types.

import { Brief } from './brief.js';
import { CalloutBand } from './band.js';
import { Controls } from './controls.js';
import { Debrief } from './debrief.js';
import { FlightTitle, LinkStatus } from './title.js';
import { Gates } from './gates.js';
import { Keys } from './keys.js';
import { Margins } from './margins.js';
import { NextCheckpoint } from './next.js';
import { ReplayBar } from './replay.js';
import { Ribbon } from './ribbon.js';
import { Sight } from './sight.js';
import { LiveSession } from './session.js';
import { ShowingBar } from './showing.js';
import { Welcome } from './welcome.js';

const elements = {
  'ht-band': CalloutBand,
  'ht-brief': Brief,
  'ht-controls': Controls,
  'ht-debrief': Debrief,
  'ht-gates': Gates,
  'ht-keys': Keys,
  'ht-link': LinkStatus,
  'ht-margins': Margins,
  'ht-next': NextCheckpoint,
  'ht-replay': ReplayBar,
  'ht-ribbon': Ribbon,
  'ht-sight': Sight,
  'ht-session': LiveSession,
  'ht-showing': ShowingBar,
  'ht-title': FlightTitle,
  'ht-welcome': Welcome,
};

export function register() {
  for (const [name, element] of Object.entries(elements)) customElements.define(name, element);
}

/**
 * Finds one of ours on the page.
 * @template {keyof typeof elements} K
 * @param {K} name
 * @returns {InstanceType<(typeof elements)[K]>}
 */
export function find(name) {
  const node = document.querySelector(name);
  if (!(node instanceof elements[name])) throw new Error(`the page has no ${name}`);
  return /** @type {InstanceType<(typeof elements)[K]>} */ (node);
}
