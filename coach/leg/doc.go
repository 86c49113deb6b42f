// Package leg follows one course reversal while it is flown: it measures it by the checks of the card, notes the
// checkpoints, draws its trace, finds its end, and makes the record of it. Package judge decides when a leg begins
// and what is said during it.
//
// # How a leg ends
//
// Exit. The leg ends where the wings come level (bank within 5°), within 30° of the full turn. A swing back of up to
// 10° within a second is still part of the roll-out.
//
// Broken off. Wings level for 3 s before that, 15° turned back, longer than the card's limit, or a jump in the
// stream.
//
// Knock-off. A limit is passed; see package judge.
package leg
