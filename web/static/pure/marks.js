// Verdicts on the posts of the ribbon. Pure.

/** @import { Callout, Check, Checkpoint, Leg, Plan, Verdict } from '../types.d.ts' */
/** @import { Marks } from '../view.d.ts' */

/** From best to worst; not measured only shows where nothing else does. @type {readonly Verdict[]} */
const order = ['not-measured', 'met', 'near', 'missed'];

/** @param {Verdict} a @param {Verdict | undefined} b */
export function worse(a, b) {
  if (b === undefined) return a;
  return order.indexOf(a) >= order.indexOf(b) ? a : b;
}

/** How far past a post its verdict may be said, in degrees of turn. */
const reach = 25;

/**
 * The marks with what a callout in flight says of the post just passed.
 * @param {Marks} marks
 * @param {Plan | null} plan
 * @param {Callout} callout
 * @returns {Marks}
 */
export function markCallout(marks, plan, callout) {
  if (callout.kind !== 'after' || (callout.tone !== 'met' && callout.tone !== 'missed')) return marks;
  const post = passed(plan?.checkpoints ?? [], callout.turn);
  if (!post) return marks;
  return new Map(marks).set(post.turn, worse(callout.tone, marks.get(post.turn)));
}

/** @param {readonly Checkpoint[]} posts @param {number} turn */
function passed(posts, turn) {
  return posts.findLast((p) => p.turn <= turn + 2 && turn - p.turn < reach);
}

/**
 * The marks of a graded leg: at each post the worst of the checks judged there.
 * @param {Leg} leg
 * @param {Plan | null} plan
 * @returns {Marks}
 */
export function markLeg(leg, plan) {
  /** @type {Map<number, Verdict>} */
  const marks = new Map();
  for (const check of leg.checks ?? []) {
    const turn = judgedAt(check, plan);
    const post = (plan?.checkpoints ?? []).find((p) => Math.abs(p.turn - turn) <= 2);
    if (post) marks.set(post.turn, worse(check.verdict, marks.get(post.turn)));
  }
  return marks;
}

/**
 * The turn angle a check was judged at, NaN when it is of no one place. A value or a change
 * without an angle of its own is that of the exit, wherever the wings came level.
 * @param {Check} check
 * @param {Plan | null} plan
 */
function judgedAt(check, plan) {
  if (check.turn !== undefined) return check.turn;
  const exit = (check.kind === 'value' || check.kind === 'change') && check.at !== undefined;
  return exit && plan ? plan.turn : NaN;
}

/**
 * The checks, worst first; among equals the heavier, then as they came.
 * @param {readonly Check[]} checks
 */
export function worstFirst(checks) {
  /** @type {readonly Verdict[]} */
  const rank = ['missed', 'near', 'met', 'not-measured'];
  return [...checks].sort((a, b) =>
    rank.indexOf(a.verdict) - rank.indexOf(b.verdict) || a.score - b.score || b.weight - a.weight);
}
