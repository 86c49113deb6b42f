// Package talk decides what is said to a pilot: cues before their turn angles, errors that grow, how a leg went and
// what to do in the next, the set-up, and the way back from a limit. It is told of a leg through [Leg], and is pure.
//
// # Nothing wrong at the moment it is heard
//
// Each phrase declares what it asks ([callout.Ask]). It is said only where that is right now, when its words have
// ended, two seconds later, and at the next checkpoint; the way back from what is past twice its corridor is held to
// the two seconds alone. A checkpoint that was passed gets a tone; what to do there is said as "Next time" after the
// leg, and once more before the next. No pull is asked for at a steep bank, and less of one before the margin over the
// stall, at the load factor that is flown, is gone. Package audit holds all of that to recorded and made-up flights.
//
// A cue is not sent before the checkpoint ahead of it is passed. While the bank or the nose is off by twice its
// corridor, or a limit is passed, no cue is said, those sent are taken back, and the way back is said until it is
// cured.
//
// How much is said follows the standard, or a choice: all; fading, where the cue of a point met in two legs in a row
// falls silent until it is missed; or nothing but safety and how the leg went.
//
// # What is said, and when
//
// Cues are sent early: the lead covers 1.7 words a second, a reaction time of 0.25 s and half a second of margin, for
// every listener. Each cue carries the turn angle it belongs to and the time at which that angle is expected. A
// listener starts a cue when the time left is what its own voice needs. It drops a cue that would end more than 0.4 s
// late, and drops all waiting cues when the leg is over. Several cues may wait at once.
//
// The time left is the middle of two predictions: one from the turn rate and its change with bank, load factor and
// speed, and one from the reference path over the same angles at the current pace. On the recorded flights, flaws and
// turbulence included, the words end within 0.4 s of the checkpoint for all cues at 3.5 words a second, 98 % at 2.5,
// and 85 % at 1.8: that voice begins three seconds ahead, and cannot be hurried.
//
// The words for the exit end 12° before it, while there is still something to fly toward the heading they name. That
// moment is predicted for a pilot who rolls steadily to level wings at the full turn (turn left ∝ time left²); the
// prediction is within 0.6 s in three quarters of the legs. The moment at which the wings come level cannot be
// predicted: some pilots fly the last degrees briskly, others with a long shallow taper.
//
// # What gives way to what
//
// One listener with an average voice is assumed. A waiting cue blocks nothing. A growing error waits for a cue that
// begins within a second; one far out interrupts it. A person interrupts all of that, and waits for safety alone.
// Safety waits for nothing but a limit that matters more. Nothing is
// repeated within 4 s, but the way back, after a pause of 2.4 s. An alert stands until its cause is gone, and at least
// as long as a slow voice needs for its words; that for the hard deck, which ends the leg, for ten seconds. A clock
// that is set back starts another flight: what was said before no longer counts.
package talk
