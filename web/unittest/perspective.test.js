// The outside view: what a camera sees, by elementary geometry of a pinhole camera and of right-handed turns.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { airplane, axes, fromBehind, fromTheSide, project, segment } from '../static/pure/perspective.js';

/** @type {import('../static/pure/perspective.js').Camera} */
const camera = { at: { ahead: 0, right: 0, up: 1000 }, heading: 0, w: 400, h: 300, focal: 400 };

/** @param {number} ahead @param {number} right @param {number} up */
const place = (ahead, right, up) => ({ ahead, right, up });

/** @param {number} a @param {number} b @param {number} [off] */
const near = (a, b, off = 1e-6) => assert.ok(Math.abs(a - b) < off, `${a} is not ${b}`);

/** @typedef {import('../static/pure/perspective.js').Camera} Camera */
/** @typedef {import('../static/pure/perspective.js').Place3} Place3 */
/** @param {Camera} by @param {Place3} p */
const seen = (by, p) => /** @type {NonNullable<ReturnType<typeof project>>} */ (project(by, p));

test('a point ahead at eye level is in the middle', () => {
  const p = seen(camera, place(5000, 0, 1000));
  near(p.x, 200);
  near(p.y, 150);
  near(p.depth, 5000);
});

test('the horizon is at eye level: what is as high as the eye stands on it at any distance', () => {
  for (const ahead of [100, 3000, 1e7]) near(seen(camera, place(ahead, ahead / 3, 1000)).y, 150);
  near(seen(camera, place(1e9, 0, 0)).y, 150, 0.01); // the ground far away too
});

test('right is right, up is up, and half as far is twice as large', () => {
  const p = seen(camera, place(2000, 100, 1200));
  near(p.x, 200 + 400 * 100 / 2000);
  near(p.y, 150 - 400 * 200 / 2000);
  const q = seen(camera, place(1000, 100, 1200));
  near(q.x - 200, 2 * (p.x - 200));
  near(150 - q.y, 2 * (150 - p.y));
});

test('a camera that looks right has what was ahead on its left', () => {
  const right = { ...camera, heading: 90 };
  near(seen(right, place(0, 2000, 1000)).x, 200);
  assert.ok(seen(right, place(500, 2000, 1000)).x < 200);
  assert.equal(project(right, place(0, -2000, 1000)), null); // behind it
});

test('a line that passes the eye is cut off, not turned around', () => {
  const part = segment(camera, place(-1000, 50, 900), place(1000, 50, 900));
  assert.ok(part);
  near(part.to.x, 200 + 400 * 50 / 1000);
  assert.ok(part.from.x > 200 && part.from.y > 150);
  assert.equal(segment(camera, place(-1000, 0, 0), place(-10, 0, 0)), null);
});

/** Nose up, the right wing down, headings to both sides. */
const attitudes = [
  { heading: 0, pitch: 0, bank: 0 },
  { heading: 0, pitch: 40, bank: 0 },
  { heading: 0, pitch: -40, bank: 0 },
  { heading: 0, pitch: 0, bank: 90 },
  { heading: 0, pitch: 0, bank: -90 },
  { heading: 90, pitch: 20, bank: 60 },
  { heading: -90, pitch: -40, bank: -75 },
  { heading: 180, pitch: 30, bank: 107 },
];

test('nose, wing and top are one foot long and at right angles in every attitude', () => {
  const dot = (/** @type {any} */ a, /** @type {any} */ b) => a.ahead * b.ahead + a.right * b.right + a.up * b.up;
  for (const attitude of attitudes) {
    const { nose, wing, top } = axes(attitude);
    for (const v of [nose, wing, top]) near(dot(v, v), 1);
    for (const [a, b] of [[nose, wing], [wing, top], [top, nose]]) near(dot(a, b), 0);
    // Right-handed as north, east, down are: nose × wing points down.
    near(nose.ahead * wing.right - nose.right * wing.ahead, top.up);
  }
});

test('the nose is as high as its pitch, the low wing is the one banked to', () => {
  near(axes({ heading: 0, pitch: 40, bank: 0 }).nose.up, Math.sin(40 * Math.PI / 180));
  near(axes({ heading: 0, pitch: -40, bank: 0 }).nose.up, -Math.sin(40 * Math.PI / 180));
  near(axes({ heading: 0, pitch: 0, bank: 90 }).wing.up, -1); // the right wing points down
  near(axes({ heading: 0, pitch: 0, bank: -90 }).wing.up, 1);
  near(axes({ heading: 90, pitch: 0, bank: 0 }).nose.right, 1);
  near(axes({ heading: -90, pitch: 0, bank: 0 }).nose.right, -1);
  near(axes({ heading: 90, pitch: 0, bank: 0 }).wing.ahead, -1); // flying right, the right wing is toward the camera
});

test('from behind, an airplane in a right turn has its right wing low and its fin leaning right', () => {
  const [, wings, fin] = airplane(place(3000, 0, 1000), { heading: 0, pitch: 0, bank: 45 }, 300);
  const [left, right] = wings.map((p) => seen(camera, p));
  const [root, tip] = fin.map((p) => seen(camera, p));
  assert.ok(left && right && root && tip);
  assert.ok(left.x < right.x && right.y > left.y);
  assert.ok(tip.x > root.x && tip.y < root.y);
});

test('all of a flight is in the picture from behind and from the side, heights to one scale', () => {
  const flight = Array.from({ length: 181 }, (_, turn) => {
    const a = turn * Math.PI / 180;
    return place(3000 * Math.sin(a), 3000 * (1 - Math.cos(a)), 1200 * Math.sin(a));
  });
  for (const side of /** @type {const} */ ([1, -1])) {
    const places = flight.map((p) => ({ ...p, right: p.right * side }));
    for (const by of [fromBehind(places, 400, 240), fromTheSide(places, 400, 240, side)]) {
      for (const p of places) {
        const at = seen(by, p);
        assert.ok(at && at.x >= 0 && at.x <= 400 && at.y >= 0 && at.y <= 240, JSON.stringify(at));
      }
      const [a, b] = [seen(by, place(1000, 0, 0)), seen(by, place(1000, 0, 100))];
      near((a.y - b.y) / 100, by.focal / a.depth); // a foot up is as long as a foot across
      near(by.at.up, 600); // the eye at half the height
    }
    const behind = fromBehind(places, 400, 240);
    assert.equal(Math.sign(seen(behind, places[180] ?? place(0, 0, 0)).x - seen(behind, place(0, 0, 0)).x), side);
  }
});
