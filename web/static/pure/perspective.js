// The outside view: where a place in the air stands in a picture taken from behind or from the side. Pure.
//
// Places are feet: ahead along the heading of the entry, right of it, and up. The camera looks level, so the horizon
// is a straight line at the height of the eye.

/** @typedef {{ ahead: number, right: number, up: number }} Place3 */
/** @typedef {{ heading: number, pitch: number, bank: number }} Attitude degrees; heading from the entry's, right
 *   positive; bank right positive */
/** @typedef {{ at: Place3, heading: number, w: number, h: number, focal: number }} Camera heading in degrees from the
 *   entry's; focal in pixels */

const radian = Math.PI / 180;

/** The nearest that is drawn, ft: what is closer or behind the eye has no place in the picture. */
export const nearest = 20;

/**
 * Where a place stands in the picture; null behind the eye. Depth is ft ahead of the eye.
 * @param {Camera} camera @param {Place3} p
 * @returns {{ x: number, y: number, depth: number } | null}
 */
export function project(camera, p) {
  const { depth, aside, above } = seen(camera, p);
  if (depth < nearest) return null;
  const k = camera.focal / depth;
  return { x: camera.w / 2 + aside * k, y: camera.h / 2 - above * k, depth };
}

/** A place from the eye. @param {Camera} camera @param {Place3} p */
function seen(camera, p) {
  const a = camera.heading * radian;
  const ahead = p.ahead - camera.at.ahead;
  const right = p.right - camera.at.right;
  return {
    depth: ahead * Math.cos(a) + right * Math.sin(a),
    aside: right * Math.cos(a) - ahead * Math.sin(a),
    above: p.up - camera.at.up,
  };
}

/**
 * A line in the picture, cut off where it comes too near; null where all of it is behind the eye.
 * @param {Camera} camera @param {Place3} p @param {Place3} q
 */
export function segment(camera, p, q) {
  const a = seen(camera, p).depth;
  const b = seen(camera, q).depth;
  if (a < nearest && b < nearest) return null;
  const cut = (/** @type {Place3} */ from, /** @type {Place3} */ to, /** @type {number} */ f) => ({
    ahead: from.ahead + (to.ahead - from.ahead) * f,
    right: from.right + (to.right - from.right) * f,
    up: from.up + (to.up - from.up) * f,
  });
  const f = (nearest - a) / (b - a) + 1e-9;
  const from = project(camera, a < nearest ? cut(p, q, f) : p);
  const to = project(camera, b < nearest ? cut(p, q, f - 2e-9) : q);
  return from && to ? { from, to } : null;
}

/**
 * The directions of an airplane: its nose, its right wing and its top, each a foot long.
 * @param {Attitude} attitude
 * @returns {{ nose: Place3, wing: Place3, top: Place3 }}
 */
export function axes({ heading, pitch, bank }) {
  const [h, p, b] = [heading * radian, pitch * radian, bank * radian];
  const nose = { ahead: Math.cos(h) * Math.cos(p), right: Math.sin(h) * Math.cos(p), up: Math.sin(p) };
  const level = { ahead: -Math.sin(h), right: Math.cos(h), up: 0 }; // the right wing with the wings level
  const upright = { ahead: -Math.cos(h) * Math.sin(p), right: -Math.sin(h) * Math.sin(p), up: Math.cos(p) };
  const [c, d] = [Math.cos(b), Math.sin(b)];
  return { nose, wing: mix(level, c, upright, -d), top: mix(upright, c, level, d) };
}

/** @param {Place3} a @param {number} k @param {Place3} b @param {number} m @returns {Place3} */
function mix(a, k, b, m) {
  return { ahead: a.ahead * k + b.ahead * m, right: a.right * k + b.right * m, up: a.up * k + b.up * m };
}

/** @param {Place3} at @param {Place3} way @param {number} k @returns {Place3} */
export function moved(at, way, k) {
  return mix(at, 1, way, k);
}

/**
 * The three lines of an airplane, body, wings and fin; so long, ft, from nose to tail.
 * @param {Place3} at @param {Attitude} attitude @param {number} length
 * @returns {[Place3, Place3][]}
 */
export function airplane(at, attitude, length) {
  const { nose, wing, top } = axes(attitude);
  const tail = moved(at, nose, -length * 0.5);
  return [
    [moved(at, nose, length * 0.5), tail],
    [moved(at, wing, -length * 0.55), moved(at, wing, length * 0.55)],
    [tail, moved(tail, top, length * 0.28)],
  ];
}

/**
 * A camera from behind: looking along the heading of the entry, all of the places in the picture.
 * @param {readonly Place3[]} places @param {number} w @param {number} h
 */
export function fromBehind(places, w, h) {
  return framed(places, w, h, 0);
}

/**
 * A camera from the side: abeam the middle of the turn, on the side that it turns away from, looking across the entry.
 * @param {readonly Place3[]} places @param {number} w @param {number} h @param {1 | -1} side 1 for a turn to the right
 */
export function fromTheSide(places, w, h, side) {
  return framed(places, w, h, 90 * side);
}

/**
 * A camera that looks a way from so far off that all has room, its eye at half the height of what is seen.
 * @param {readonly Place3[]} places @param {number} w @param {number} h @param {number} heading @returns {Camera}
 */
function framed(places, w, h, heading) {
  const focal = Math.max(w, h) * 1.1;
  const way = axes({ heading, pitch: 0, bank: 0 });
  const along = (/** @type {Place3} */ p) => p.ahead * way.nose.ahead + p.right * way.nose.right;
  const aside = (/** @type {Place3} */ p) => p.ahead * way.wing.ahead + p.right * way.wing.right;
  const range = (/** @type {number[]} */ all) => [Math.min(...all), Math.max(...all)];
  const [near = 0] = range(places.map(along));
  const [left = 0, right = 0] = range(places.map(aside));
  const [low = 0, high = 0] = range(places.map((p) => p.up));
  const middle = { aside: (left + right) / 2, up: (low + high) / 2 };
  let back = 600;
  for (const p of places) { // so far back that each is within the edges
    const deep = along(p) - near;
    back = Math.max(back, Math.abs(aside(p) - middle.aside) * focal / (w * 0.44) - deep,
      Math.abs(p.up - middle.up) * focal / (h * 0.4) - deep);
  }
  const at = moved(moved({ ahead: 0, right: 0, up: middle.up }, way.nose, near - back), way.wing, middle.aside);
  return { at, heading, w, h, focal };
}
