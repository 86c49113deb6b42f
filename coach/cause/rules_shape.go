package cause

import "halfturn/stream/phrase"

// shapes are faults of the descending half, and of the two halves together.
var shapes = []rule{
	{
		id:      "dive-too-steep",
		meaning: "Nose too low in the descent.",
		in:      isReturning,
		on:      []string{"-lowest-nose", "+load-factor", "-halves-height"},
		own:     []string{"+up-and-down"},
		drags:   []string{"+exit-speed", "-exit-height", "-pace", "even-rhythm"},
		when:    func(f *ledger) bool { return dived(f) && !steep(f) && !f.off("+highest-nose") },
		say:     phrase.ChangeShallowerDescent,
		advice:  phrase.CorrectDiveTooSteep,
	},
	{
		id:      "uneven-halves",
		meaning: "The climbing and the descending half are not alike.",
		in:      isReturning,
		on:      []string{"up-and-down", "+halves-height"},
		own:     []string{"lowest-nose"},
		drags:   []string{"exit-height"},
		when:    func(f *ledger) bool { return !f.off("highest-nose") },
		say:     phrase.ChangeSameBelowAsAbove,
		advice:  phrase.CorrectUnevenHalves,
	},
}

// steepDive is how far below the reference path's lowest nose a descent is too steep, ° (common practice, no source).
const steepDive = 8

// dived reports whether the nose went well below what the numbers give for the descent; also when they are not known,
// since then only the card's own check of it is left.
func dived(f *ledger) bool {
	if f.plan == nil || f.plan.Path == nil || f.leg == nil {
		return true
	}
	lowest, level := 0.0, f.leg.Entry.Values["pitch"]
	for i := range f.leg.Trace {
		lowest = min(lowest, f.leg.Trace[i].Pitch-level)
	}
	return lowest < f.plan.Dive()-steepDive || f.off("-lowest-nose") || f.off("-halves-height")
}

// hands are faults of coordination and of touch.
var hands = []rule{
	{
		id:      "slip-or-skid",
		meaning: "Ball out of the middle: too little rudder, or feet on the floor.",
		on:      []string{"coordination", "ball-centered"},
		say:     phrase.ChangeStepOnTheBall,
		advice:  phrase.CorrectSlipOrSkid,
		other: []variant{
			{pullsToTheRight, phrase.ChangeStepOnTheBall, phrase.CorrectSlipOrSkidRight},
			{pullsToTheLeft, phrase.ChangeStepOnTheBall, phrase.CorrectSlipOrSkidLeft},
		},
	},
	{
		id:      "rough-controls",
		meaning: "Roll or pull in jerks.",
		on:      []string{"-smooth-roll", "-smooth-pitch"},
		say:     phrase.ChangeOneSmoothSteadyPressure,
		advice:  phrase.CorrectRoughControls,
	},
}
