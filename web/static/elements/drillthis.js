// A drill on the cause that a leg was missed by, set up at a station from the debrief; then the panel is opened.

/** @import { FlownLeg, SessionDetail } from '../sessions.d.ts' */

import { post } from '../api.js';
import { h, text } from '../dom.js';
import { t } from '../pure/text.js';
import { liveStations, seatOf } from '../seats.js';

/** The root of the pages, from a page in a folder. */
const root = new URL('../', import.meta.url);

/**
 * The button beside the first cause; nothing where a leg has none, or did not come to its end.
 * @param {FlownLeg} flight @param {SessionDetail} session
 * @returns {HTMLElement[]}
 */
export function drillThis({ leg, plan }, session) {
  const cause = leg.causes?.[0];
  if (cause === undefined || leg.change === '' || leg.outcome !== 'finished') return [];
  const button = h('button', { type: 'button', class: 'drill' }, t('Drill this'));
  const said = h('span', { class: 'small soft', role: 'status' });
  button.addEventListener('click', async () => {
    button.disabled = true;
    const station = seatOf(await liveStations(), session.student, session.station);
    const why = station === undefined ? t('No simulator is heard yet.') : (await post(
      `api/stations/${encodeURIComponent(station.name)}/drill`,
      { maneuver: plan.maneuver, standard: plan.standard, aircraft: station.aircraft, cause: cause.id },
    )).error;
    button.disabled = false;
    text(said, why);
    if (why !== '' || station === undefined) return;
    location.assign(new URL(`./?station=${encodeURIComponent(station.name)}`, root));
  });
  return [h('p', { class: 'drill-row' }, button, said)];
}
