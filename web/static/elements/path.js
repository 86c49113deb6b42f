// The reference path from above and from the side.

/** @import { BriefPoint, BriefSheet } from '../types.d.ts' */
/** @import { Beside, Fit, Place, Room } from '../pure/path.js' */

import { h, s } from '../dom.js';
import { number, signed, withUnit } from '../pure/format.js';
import { at, clearest, fromAbove, fromTheSide, level, line, room, ruler } from '../pure/path.js';
import { t } from '../pure/text.js';
import { inUnits } from '../pure/units.js';

const above = { w: 360, h: 320, left: 56, right: 106, edge: 40 };
const side = { w: 360, h: 190, left: 70, right: 116, edge: 34 };

/** The two views; nothing without a path. @param {BriefSheet} sheet */
export function pathViews(sheet) {
  const path = sheet.path;
  if (path === null || path.length === 0) return [];
  return [
    fromAboveView(path, sheet),
    ...(level(path)
      ? [h('p', { class: 'small soft' }, t('From the side it is a line: height is held.'))]
      : [fromTheSideView(path, sheet)]),
  ];
}

/** @param {BriefPoint[]} path @param {BriefSheet} sheet */
function fromAboveView(path, sheet) {
  const fit = fromAbove(path, above);
  const svg = s('svg', {
    class: 'picture path-view',
    viewBox: `0 0 ${above.w} ${above.h}`,
    role: 'img',
    'aria-label': t('The reference path from above, entered upward, turning right'),
  });
  const entry = fit.to(0, 0);
  // the line on the ground, and the way to the point off the wing
  svg.append(s('line', { class: 'ground-line', x1: entry.x, x2: entry.x, y1: 0, y2: above.h }),
    s('line', { class: 'ground-line', x1: entry.x, x2: above.w - 26, y1: entry.y, y2: entry.y }),
    s('path', { class: 'point-now', d: `M${above.w - 24} ${(entry.y + 7).toFixed(1)}l8 -15l8 15Z` }),
    s('path', { class: 'trace', d: line(path.map((p) => fit.to(p.along, p.across))) }));
  const flown = path.map((p) => fit.to(p.along, p.across));
  const drawn = [
    ...flown,
    ...dots({ x: entry.x, y: 0 }, { x: entry.x, y: above.h }),
    ...dots(entry, { x: above.w - 26, y: entry.y }),
  ];
  /** @type {Room[]} */ const taken = [];
  svg.append(...posts(path, sheet, (p) => fit.to(p.along, p.across), true, outside(flown), drawn, taken));
  const point = { x: above.w - 2, y: entry.y };
  const by = clearest(
    [
      { x: 0, y: -14, anchor: 'end' },
      { x: 0, y: 24, anchor: 'end' },
    ],
    t('reference point'),
    point,
    drawn,
    taken,
  );
  svg.append(
    s('text', { class: 'path-label soft-label', x: point.x, y: point.y + by.y, 'text-anchor': 'end' },
      t('reference point'),
    ),
    scaleBar(fit, above.h),
  );
  return h('figure', { class: 'path-figure' }, h('figcaption', {}, t('From above, no wind, to the right')), svg);
}

/** @param {BriefPoint[]} path @param {BriefSheet} sheet */
function fromTheSideView(path, sheet) {
  const fit = fromTheSide(path, side);
  const svg = s('svg', {
    class: 'picture path-view',
    viewBox: `0 0 ${side.w} ${side.h}`,
    role: 'img',
    'aria-label': t('The reference path from the side, entered to the right'),
  });
  const entry = fit.to(0, 0);
  svg.append(
    s('line', { class: 'ground-line', x1: 0, x2: side.w, y1: entry.y, y2: entry.y }),
    s('path', { class: 'trace', d: line(path.map((p) => fit.to(p.along, p.height))) }),
  );
  const drawn = [
    ...path.map((p) => fit.to(p.along, p.height)),
    ...dots({ x: 0, y: entry.y }, { x: side.w, y: entry.y }),
  ];
  svg.append(...posts(path, sheet, (p) => fit.to(p.along, p.height), false, apart(path, sheet.plan.turn), drawn, []));
  svg.append(scaleBar(fit, side.h));
  const words =
    fit.tall === 1
      ? t('From the side, one scale')
      : t('From the side, height drawn {n} times', { n: number(fit.tall) });
  return h('figure', { class: 'path-figure' }, h('figcaption', {}, words), svg);
}

/** Points along a line, as dense as those of a path. @param {Place} from @param {Place} to @returns {Place[]} */
function dots(from, to) {
  return Array.from({ length: 181 }, (_, i) => ({
    x: from.x + ((to.x - from.x) * i) / 180,
    y: from.y + ((to.y - from.y) * i) / 180,
  }));
}

/** From above a label stands away from the middle of the path. @param {Place[]} all @returns {(p: Place) => Beside} */
function outside(all) {
  const mid = {
    x: all.reduce((sum, p) => sum + p.x, 0) / all.length,
    y: all.reduce((sum, p) => sum + p.y, 0) / all.length,
  };
  return (p) => {
    const off = { x: p.x - mid.x, y: p.y - mid.y };
    const size = Math.hypot(off.x, off.y) || 1;
    const x = off.x / size;
    return { x: x * 15, y: (off.y / size) * 17 + 5, anchor: x > 0.4 ? 'start' : x < -0.4 ? 'end' : 'middle' };
  };
}

/**
 * From the side: outside of the way out and of the way back, the ends apart.
 * @param {BriefPoint[]} path
 * @param {number} full
 * @returns {(p: Place, turn: number) => Beside}
 */
function apart(path, full) {
  const back = at(path, full * 0.75).height > at(path, full * 0.25).height ? -6 : 13; // the way back may lie above
  return (_, turn) => {
    if (turn === 0) return { x: 0, y: 19, anchor: 'middle' };
    if (turn === full) return { x: 0, y: -10, anchor: 'middle' };
    return turn < full / 2
      ? { x: -9, y: back < 0 ? 16 : -4, anchor: 'end' }
      : { x: 9, y: turn === full / 2 ? 5 : back, anchor: 'start' };
  };
}

/** Where else a label may stand. @type {readonly Beside[]} */
const around = [
  { x: 14, y: 5, anchor: 'start' },
  { x: -14, y: 5, anchor: 'end' },
  { x: 9, y: 17, anchor: 'start' },
  { x: -9, y: 17, anchor: 'end' },
  { x: 9, y: -8, anchor: 'start' },
  { x: -9, y: -8, anchor: 'end' },
];

/**
 * The checkpoints on the path; seen from above with the airplane as it heads there, from the side with the height.
 * @param {BriefPoint[]} path @param {BriefSheet} sheet @param {(p: BriefPoint) => Place} to @param {boolean} heading
 * @param {(p: Place, turn: number) => Beside} beside where a label stands when nothing is in its way
 * @param {Place[]} drawn
 * @param {Room[]} taken what the labels take up is added
 */
function posts(path, sheet, to, heading, beside, drawn, taken) {
  const list = [
    { turn: 0, label: t('entry') },
    ...(sheet.plan.checkpoints ?? []).map((c) => ({ turn: c.turn, label: t(c.label) })),
  ];
  return list.map(({ turn, label }) => {
    const p = at(path, turn);
    const place = to(p);
    const mark = heading
      ? s('path', {
          class: 'small-plane',
          d: 'M0 -9V8M-8 -1H8M-3.5 6.5H3.5',
          transform: `translate(${place.x.toFixed(1)} ${place.y.toFixed(1)}) rotate(${turn})`,
        })
      : s('circle', { class: 'peak-ring', cx: place.x, cy: place.y, r: 4.5 });
    const words = heading || turn === 0 ? label : `${label} · ${height(p.height)}`;
    const by = clearest([beside(place, turn), ...around], words, place, drawn, taken);
    taken.push(room(words, place, by));
    return s('g', {},
      mark,
      s(
        'text',
        {
          class: 'path-label',
          x: (place.x + by.x).toFixed(1),
          y: (place.y + by.y).toFixed(1),
          'text-anchor': by.anchor,
        },
        words,
      ),
    );
  });
}

/** @param {number} feet */
function height(feet) {
  const to = inUnits(feet, 'ft');
  return `${signed(to.value)}\u00a0${to.unit}`;
}

/** @param {Fit} fit @param {number} bottom */
function scaleBar(fit, bottom) {
  const one = inUnits(1, 'ft').value; // of the shown unit to a foot
  const bar = ruler(fit.scale, 110, 1 / one);
  return s('g', {}, s('path', { class: 'scale-bar', d: `M6 ${bottom - 10}v5h${bar.length.toFixed(1)}v-5` }),
    s('text', { x: 6 + bar.length + 6, y: bottom - 4 }, withUnit(bar.value / one, 'ft')));
}
