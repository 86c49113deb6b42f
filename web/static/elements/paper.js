// What the ribbons of the panel and of the debrief are drawn on: rules, posts, names and corridors, and the judged
// values.

/** @import { Check, Lane, Plan, Trace } from '../types.d.ts' */
/** @import { Box, Strip } from '../pure/geometry.js' */

import { s } from '../dom.js';
import { flag, number, verdictWords, withUnit } from '../pure/format.js';
import { told } from '../pure/phrase.js';
import * as geo from '../pure/geometry.js';
import { cardText, t } from '../pure/text.js';
import { laneTicks } from '../pure/units.js';
import { markShape } from './mark.js';

/**
 * What a letter of a name, of the numbers beside it and of a checkpoint takes, and the least left of the chart and at
 * its right, in the drawing's unit.
 */
const letters = { name: 9.8, tick: 8.3, post: 9.4, apart: 17, least: 116, aside: 20 };

/**
 * What names and numbers need at the left of the chart, where the names stand beside their lanes, in the drawing's
 * unit.
 * @param {Plan} plan
 */
export function gutter(plan) {
  return (plan.lanes ?? []).reduce((most, lane) => {
    const numbers = laneTicks(lane.ticks ?? [], lane.unit).ticks.map(({ value }) => number(value).length);
    const wide = titleOf(lane).length * letters.name + Math.max(0, ...numbers) * letters.tick + letters.apart;
    return Math.max(most, Math.min(wide, 1.5 * letters.least));
  }, letters.least);
}

/** @param {Lane} lane */
function titleOf(lane) {
  return typeof lane.title === 'string' ? t(lane.title) : told(lane.title);
}

/**
 * The empty sheet.
 * @param {Plan} plan
 * @param {Box} box
 * @param {boolean} slim names stand above the lanes
 * @param {number} k pixels of the drawing's unit
 */
export function paper(plan, box, slim, k) {
  const sheet = s('g');
  for (const p of [{ turn: 0, label: 'entry' }, ...(plan.checkpoints ?? [])]) {
    const at = geo.x(box, plan.turn, p.turn);
    const edge = p.turn === 0 || p.turn === plan.turn;
    const label = t(p.label);
    const left = p.turn === plan.turn ? Math.min(0, letters.aside - (label.length * letters.post) / 2) : 0;
    sheet.append(s('line', { x1: at, x2: at, y1: 26 * k, y2: box.bottom + 6 * k, class: edge ? 'rule edge' : 'rule' }),
      s('text', {
        x: at + left * k, y: 16 * k, class: 'post', 'text-anchor': 'middle', 'data-turn': p.turn,
      }, label));
  }
  const strips = geo.strips(plan, box, (slim ? 30 : 24) * k);
  for (const strip of strips) {
    const { lane } = strip;
    const { unit, ticks } = laneTicks(lane.ticks ?? [], lane.unit);
    const every =
      ticks.length > 1 && Math.abs(geo.y(strip, ticks[0]?.at ?? 0) - geo.y(strip, ticks[1]?.at ?? 0)) < 17 * k
        ? 2
        : 1;
    for (const tick of ticks.filter((_, i) => i % every === 0)) {
      const at = geo.y(strip, tick.at);
      sheet.append(
        s('line', { x1: box.left, x2: box.right, y1: at, y2: at, class: 'rule hair' }),
        s('text', { x: box.left - 9 * k, y: at + 4.5 * k, class: 'tick', 'text-anchor': 'end' },
          unit === '°' ? withUnit(tick.value, '°') : number(tick.value),
        ),
      );
    }
    const name = s(
      'text',
      { x: slim ? box.left + 8 * k : 0, y: slim ? strip.top - 8 * k : strip.top + 14 * k, class: 'lane' },
      titleOf(lane),
    );
    if (unit !== '°') {
      name.append(
        s('tspan', slim ? { class: 'lane-unit', dx: 5 * k } : { class: 'lane-unit', x: 0, dy: 18 * k }, t(unit)),
      );
    }
    const { area, aim } = geo.corridorPaths(box, plan.turn, strip);
    if (area === '') sheet.append(name);
    else sheet.append(name, s('path', { class: 'corridor', d: area }), s('path', { class: 'aim', d: aim }));
  }
  return { paper: sheet, strips };
}

/**
 * A flown trace: heavier and hatched where it has left its corridor.
 * @param {Box} box
 * @param {number} full
 * @param {Strip} strip
 * @param {readonly Trace[]} trace
 */
export function flownPaths(box, full, strip, trace) {
  const { area, line } = geo.excursions(box, full, strip, trace);
  return [
    ...(area === '' ? [] : [s('path', { class: 'past', d: area })]),
    s('path', { class: 'trace', d: geo.tracePath(box, full, strip, trace) }),
    ...(line === '' ? [] : [s('path', { class: 'trace outside', d: line })]),
  ];
}

/**
 * The judged values beside the trace.
 * @param {readonly Check[]} checks
 * @param {readonly Trace[]} trace
 * @param {Plan} plan
 * @param {Box} box
 * @param {readonly Strip[]} strips
 * @param {number} k
 */
export function written(checks, trace, plan, box, strips, k) {
  const notes = s('g', { class: 'notes' });
  for (const check of checks) {
    const strip = strips.find((p) => p.lane.channel === check.channel);
    if (!strip || check.turn === undefined || check.value === null || check.verdict === 'not-measured') continue;
    const at = { x: geo.x(box, plan.turn, check.turn), y: geo.y(strip, check.value) };
    // Above, it must not reach into the marks on the posts.
    const above = geo.bulges(trace, strip.lane.channel, check.turn, check.value) && at.y > strip.top + 16 * k;
    const mark = markShape(check.verdict, at.x, at.y, 6 * k);
    mark.append(s('title', {}, `${cardText(check.label)}: ${verdictWords(check.verdict)}`));
    notes.append(
      mark,
      s(
        'text',
        {
          x: at.x,
          y: at.y + (above ? -12 : 25) * k,
          class: 'written',
          'text-anchor': check.turn > plan.turn * 0.9 ? 'end' : 'middle',
        },
        flag(strip.lane.channel, strip.lane.unit, check.value),
      ),
    );
  }
  return notes;
}
