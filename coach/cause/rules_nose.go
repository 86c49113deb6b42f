package cause

import "halfturn/stream/phrase"

// noses are faults of the nose.
var noses = []rule{
	{
		id:      "nose-too-high",
		meaning: "Nose too high in the climb.",
		on:      []string{"+highest-nose"},
		drags: []string{
			"-apex-speed", "-stall-margin", "-no-stall", "-pace", "-exit-speed", "+nose-at-90",
			"+exit-height", "+nose-not-sinking", "+nose-only-rises",
		},
		evidence: climbing,
		say:      phrase.ChangePullMoreGently,
		advice:   phrase.CorrectNoseTooHigh,
		other:    climb(phrase.ChangePullMoreGently, phrase.CorrectNoseTooHighClimb),
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
		meaning:  "Nose highest too early: pulled too fast.",
		on:       []string{"-highest-nose-at"},
		drags:    []string{"-apex-speed", "-stall-margin", "-nose-at-90"},
		evidence: climbing,
		say:      phrase.ChangeRollInWithThePull,
		advice:   phrase.CorrectNosePeakEarly,
	},
	{
		id:       "nose-peak-late",
		meaning:  "Nose highest too late: still being pulled up when it should come down.",
		on:       []string{"+highest-nose-at"},
		own:      []string{"+nose-at-90"},
		drags:    []string{"+highest-nose", "-apex-speed", "+exit-height", "-exit-speed"},
		evidence: climbing,
		say:      phrase.ChangeNoseHighestByFortyFive,
		advice:   phrase.CorrectNosePeakLate,
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
		id:      "nose-early",
		meaning: "Nose came down through the horizon too early.",
		on:      []string{"-nose-at-90"},
		drags:   []string{"+exit-speed", "-exit-height"},
		say:     phrase.ChangeHoldTheNoseUpLonger,
		advice:  phrase.CorrectNoseEarly,
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
