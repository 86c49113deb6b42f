// Package talk decides what is said to a pilot: the cues of the card before their turn angles, corrections, how a leg
// went, and the limits, which are watched all the time. It follows one leg at a time, which package leg measures. It is
// pure.
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
// turbulence included, the words end within 0.4 s of the checkpoint for 94 % of the cues at 3.5 words a second, 92 %
// at 2.5, and 86 % at 1.8.
//
// The words for the exit end 12° before it, while there is still something to fly toward the heading they name. That
// moment is predicted for a pilot who rolls steadily to level wings at the full turn (turn left ∝ time left²); the
// prediction is within 0.6 s in three quarters of the legs. The moment at which the wings come level cannot be
// predicted: some pilots fly the last degrees briskly, others with a long shallow taper.
//
// # What gives way to what
//
// The judge assumes one listener with an average voice. A waiting cue blocks nothing. A correction of the checkpoint
// just passed interrupts a cue; a correction on the way waits for a cue that begins within a second, and is said
// after it if it still applies. Safety waits for nothing. Nothing is repeated within 4 s, and what is late is
// dropped. An alert stands until its cause is gone, and at least as long as a slow voice needs for its words; the
// alert for the hard deck, which ends the leg, stands for ten seconds at most. The result is said after it. A clock
// that is set back starts another flight: what was said before no longer counts.
package talk
