package cause

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
		say:      "Pull more gently",
		advice: "The nose went too high, so the speed ran out over the top: pull more gently and stop the " +
			"nose lower.",
		other: climb(
			"Pull more gently",
			"The nose went too high, so the speed ran out before the wings were level: pull more gently, "+
				"and keep speed to hold the nose up to the end.",
		),
	},
	{
		id:       "nose-too-low",
		meaning:  "Nose too low in the climb.",
		on:       []string{"-highest-nose"},
		drags:    []string{"+apex-speed", "+exit-speed", "-height-gained", "-nose-at-90"},
		evidence: climbing,
		say:      "Pull the nose higher",
		advice: "The nose stayed too low, so the speed was never used: pull a little more in the first " +
			"forty-five degrees.",
	},
	{
		id:       "nose-peak-early",
		meaning:  "Nose highest too early: pulled too fast.",
		on:       []string{"-highest-nose-at"},
		drags:    []string{"-apex-speed", "-stall-margin", "-nose-at-90"},
		evidence: climbing,
		say:      "Roll in with the pull",
		advice:   "The nose was highest too early: pull more slowly and let it rise until forty-five degrees of turn.",
	},
	{
		id:       "nose-peak-late",
		meaning:  "Nose highest too late: still being pulled up when it should come down.",
		on:       []string{"+highest-nose-at"},
		own:      []string{"+nose-at-90"},
		drags:    []string{"+highest-nose", "-apex-speed", "+exit-height", "-exit-speed"},
		evidence: climbing,
		say:      "Nose highest by forty-five",
		advice: "You kept pulling too long: have the nose highest at forty-five degrees of turn, then let " +
			"the bank bring it down.",
	},
	{
		id:      "nose-late",
		meaning: "Nose came down through the horizon too late.",
		on:      []string{"+nose-at-90"},
		drags:   []string{"-apex-speed", "+exit-height", "-exit-speed"},
		say:     "Let the nose drop sooner",
		advice: "The nose was still up at ninety: ease the pull after forty-five degrees and let it fall " +
			"through the horizon at ninety.",
	},
	{
		id:      "nose-early",
		meaning: "Nose came down through the horizon too early.",
		on:      []string{"-nose-at-90"},
		drags:   []string{"+exit-speed", "-exit-height"},
		say:     "Hold the nose up longer",
		advice:  "The nose was already down at ninety: keep a little back pressure until it passes the horizon there.",
	},
	{
		id:      "nose-dropped",
		meaning: "Nose sank where it is to be held up.",
		on:      []string{"+nose-not-sinking", "+nose-only-rises"},
		drags:   []string{"+exit-speed", "-height-gained", "-highest-nose"},
		when:    func(f *ledger) bool { return !f.off("+highest-nose") }, // one that was too high must come down
		say:     "Hold the nose up",
		advice: "The nose sank in the roll-out: it takes more back pressure as the speed falls, so hold the " +
			"picture until the wings are level.",
	},
	{
		id:      "nose-still-rising",
		meaning: "Nose raised where it is to be held.",
		on:      []string{"+nose-not-rising"},
		drags:   []string{"+highest-nose", "-exit-speed", "-no-stall"},
		against: []string{"nose-dropped"},
		say:     "Hold the nose, no higher",
		advice:  "The nose went on rising in the roll-out: stop it at ninety degrees of turn and hold it there.",
	},
}
