package cause

import "halfturn/stream/phrase"

// noses are faults of the nose.
var noses = []rule{
	{
		id:      "turn-not-climb",
		meaning: "A steep turn, and hardly a climb.",
		in:      isNotLevel,
		on:      []string{"-highest-nose", "-height-gained", "+apex-speed"},
		own:     []string{"+exit-speed"},
		drags: []string{
			"-nose-at-90", "+bank-at-45", "+bank-at-90", "+bank-held", "+steepest-bank", "-pace", "up-and-down",
			"+lowest-nose", "speed-falling", "even-rhythm",
		},
		when:     hardlyClimbed,
		evidence: climbing,
		say:      phrase.ChangeClimbNotJustTurn,
		advice:   phrase.CorrectTurnNotClimb,
	},
	{
		id:      "nose-too-high",
		meaning: "Nose too high in the climb.",
		on:      []string{"+highest-nose"},
		drags: []string{
			"-apex-speed", "-stall-margin", "-pace", "-exit-speed", "+nose-at-90", "+exit-height",
			"+nose-not-sinking", "+nose-only-rises",
		},
		evidence: climbing,
		say:      phrase.ChangePullMoreGently,
		advice:   phrase.CorrectNoseTooHigh,
		other:    []variant{{of(isChandelle), phrase.ChangePullMoreGently, phrase.CorrectNoseTooHighClimb}},
	},
	{
		id:       "nose-too-low",
		meaning:  "Nose too low in the climb.",
		on:       []string{"-highest-nose"},
		drags:    []string{"+apex-speed", "+exit-speed", "-height-gained", "-nose-at-90"},
		evidence: climbing,
		say:      phrase.ChangePullTheNoseHigher,
		advice:   phrase.CorrectNoseTooLow,
	},
	{
		id:       "nose-peak-early",
		meaning:  "Nose highest too early: the roll-in lagged behind the pull.",
		on:       []string{"-highest-nose-at"},
		drags:    []string{"-apex-speed", "-stall-margin", "-nose-at-90"},
		evidence: climbing,
		say:      phrase.ChangeRollInWithThePull,
		advice:   phrase.CorrectNosePeakEarly,
	},
	{
		id:       "nose-peak-late",
		meaning:  "Nose highest too late in the turn.",
		on:       []string{"+highest-nose-at"},
		own:      []string{"+nose-at-90"},
		drags:    []string{"+highest-nose", "-apex-speed", "+exit-height", "-exit-speed"},
		evidence: climbing,
		say:      phrase.ChangeNoseHighestByFortyFive,
		advice:   phrase.CorrectNosePeakLate,
		// Rising pitch and bank speed the turn up, so that 45° would come before the highest nose: FAA-H-8083-3C
		// p. 10-7.
		other: []variant{{of(isGentle), phrase.ChangeSlowerRollAtTheStart, phrase.CorrectNosePeakLateGentle}},
	},
	{
		id:      "nose-late",
		meaning: "Nose came down through the horizon too late.",
		on:      []string{"+nose-at-90"},
		drags:   []string{"-apex-speed", "+exit-height", "-exit-speed"},
		say:     phrase.ChangeLetTheNoseDropSooner,
		advice:  phrase.CorrectNoseLate,
	},
	{
		id:      "nose-falls-through",
		meaning: "Nose fell fast through the horizon over the top.",
		in:      isReturning,
		on: []string{
			"nose-at-90", "nose-never-still", "even-rhythm", "-smooth-pitch", "-lowest-nose", "+highest-nose-at",
		},
		drags:    []string{"+exit-speed", "-exit-height", "+up-and-down", "+load-factor"},
		when:     fellThrough,
		evidence: fall,
		say:      phrase.ChangeLetTheNoseDownSlowly,
		advice:   phrase.CorrectNoseFallsThrough,
	},
	{
		id:      "nose-early",
		meaning: "Nose came down through the horizon too early.",
		on:      []string{"-nose-at-90"},
		drags:   []string{"+exit-speed", "-exit-height"},
		say:     phrase.ChangeHoldTheNoseUpLonger,
		advice:  phrase.CorrectNoseEarly,
	},
	{
		id:      "held-still",
		meaning: "Nose, bank or speed held still where all of them are to change.",
		in:      isReturning,
		on:      []string{"nose-never-still", "bank-never-still", "speed-never-still"},
		when:    func(f *ledger) bool { return !fellThrough(f) },
		say:     phrase.ChangeKeepEverythingMoving,
		advice:  phrase.CorrectHeldStill,
	},
	{
		id:      "nose-dropped",
		meaning: "Nose sank where it is to be held up.",
		on:      []string{"+nose-not-sinking", "+nose-only-rises"},
		drags:   []string{"+exit-speed", "-height-gained", "-highest-nose"},
		when:    func(f *ledger) bool { return !f.off("+highest-nose") }, // one that was too high must come down
		say:     phrase.ChangeHoldTheNoseUp,
		advice:  phrase.CorrectNoseDropped,
	},
	{
		id:      "nose-still-rising",
		meaning: "Nose raised where it is to be held.",
		on:      []string{"+nose-not-rising"},
		drags:   []string{"+highest-nose", "-exit-speed", "-no-stall"},
		against: []string{"nose-dropped"},
		say:     phrase.ChangeHoldTheNoseNoHigher,
		advice:  phrase.CorrectNoseStillRising,
	},
}

// fellThrough reports whether the nose fell fast over the top, in a bank that was not too steep to hold it.
func fellThrough(f *ledger) bool {
	share, _ := f.plunge()
	return share > fallsFor && !steep(f)
}

// fall says how fast the nose came down over the top.
func fall(f *ledger) phrase.Phrase {
	_, from := f.plunge()
	a, ok := f.at(from)
	b, ok2 := f.at(from + topSpan)
	if !ok || !ok2 {
		return phrase.Phrase{}
	}
	return phrase.NoseFell.Of(phrase.Number("fell", a.Pitch-b.Pitch, 0, "°"), phrase.Number("from", a.Turn, 0, "°"),
		phrase.Number("to", b.Turn, 0, "°"))
}
