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
 * The marks of a graded leg, at the posts. That of the leg as a whole has no post.
 * @param {Pick<Leg, 'posts'>} leg
 * @returns {Marks}
 */
export function markLeg(leg) {
  return new Map((leg.posts ?? []).flatMap(({ turn, verdict }) => (turn === null ? [] : [[turn, verdict]])));
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
