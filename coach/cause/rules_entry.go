package cause

// entries are the faults of the set-up.
var entries = []rule{
	{
		id:      "not-stabilized",
		meaning: "Two or more of speed, level flight and level wings were wrong before the entry.",
		on:      []string{"entry-speed", "entry-height-held", "entry-level"},
		drags:   []string{"apex-speed", "-stall-margin"},
		when:    unstable,
		say:     "Settle down before entry",
		advice: "More than one thing was moving at the entry: hold height, speed and level wings for five " +
			"seconds, then begin.",
	},
	{
		id:      "entry-slow",
		meaning: "Entry speed too low.",
		on:      []string{"-entry-speed"},
		drags:   []string{"-apex-speed", "-stall-margin", "-no-stall", "-pace", "-exit-speed", "-height-gained"},
		when:    func(f *ledger) bool { return !unstable(f) },
		say:     "Wait for entry speed",
		advice: "You began too slow, so there was too little speed for the climb: wait for the entry speed " +
			"before you pull.",
		other: level(
			"Wait for entry speed",
			"You began too slow: wait for the entry speed before you roll in.",
		),
	},
	{
		id:      "entry-fast",
		meaning: "Entry speed too high.",
		on:      []string{"+entry-speed"},
		drags:   []string{"+apex-speed", "+pace", "+exit-speed"},
		when:    func(f *ledger) bool { return !unstable(f) },
		say:     "Slow down before entry",
		advice:  "You began too fast, so the whole turn ran fast: settle on the entry speed before you pull.",
		other: level(
			"Slow down before entry",
			"You began too fast: settle on the entry speed before you roll in.",
		),
	},
	{
		id:      "entry-descending",
		meaning: "Descending before the entry.",
		on:      []string{"-entry-height-held"},
		when:    func(f *ledger) bool { return !unstable(f) },
		say:     "Start from level flight",
		advice:  "You were descending when you began: hold the height for five seconds, then pull.",
		other: level(
			"Start from level flight",
			"You were descending when you began: hold the height for five seconds, then roll in.",
		),
	},
	{
		id:      "entry-climbing",
		meaning: "Climbing before the entry.",
		on:      []string{"+entry-height-held"},
		when:    func(f *ledger) bool { return !unstable(f) },
		say:     "Start from level flight",
		advice:  "You were climbing when you began: hold the height for five seconds, then pull.",
		other: level(
			"Start from level flight",
			"You were climbing when you began: hold the height for five seconds, then roll in.",
		),
	},
	{
		id:      "entry-banked",
		meaning: "Wings not level before the entry.",
		on:      []string{"entry-level"},
		when:    func(f *ledger) bool { return !unstable(f) },
		say:     "Start with wings level",
		advice:  "The wings were not level when you began: level them on the line, then pull.",
		other: level(
			"Start with wings level",
			"The wings were not level when you began: level them on the line, then roll in.",
		),
	},
}

// unstable reports whether two of the set-up's three were missed.
func unstable(f *ledger) bool {
	n := 0
	for _, id := range []string{"entry-speed", "entry-height-held", "entry-level"} {
		if f.missed(id) {
			n++
		}
	}
	return n >= 2
}

// rhythm are turns that were too quick or too slow as a whole.
var rhythm = []rule{
	{
		id:      "rushed",
		meaning: "The whole turn was flown too quickly.",
		on:      []string{"-pace"},
		own:     []string{"+bank-at-45", "+bank-at-135"},
		drags: []string{
			"+apex-speed", "-highest-nose", "roll-evenness", "nose-at-90", "steepest-bank-at",
			"roll-out-start", "+exit-speed",
		},
		when: func(f *ledger) bool {
			steep := f.off("+bank-at-45") || f.off("+bank-at-135") || f.off("+apex-speed")
			other := f.off("+highest-nose") || f.off("+bank-at-90") || f.off("+steepest-bank") ||
				f.missed("-apex-speed")
			return steep && !other
		},
		evidence: quicker,
		say:      "Slower, do not rush",
		advice: "The turn was rushed: roll in and out at half that rate, and let the nose climb before the " +
			"bank grows.",
	},
	{
		id:       "dragged",
		meaning:  "The whole turn was flown too slowly.",
		on:       []string{"+pace"},
		own:      []string{"-bank-at-45", "-bank-at-135"},
		drags:    []string{"-apex-speed", "-exit-speed"},
		when:     func(f *ledger) bool { return !f.off("-steepest-bank") && !f.off("-bank-at-90") },
		evidence: quicker,
		say:      "A little quicker",
		advice:   "The turn dragged on: keep the bank growing steadily, so that the nose comes round in time.",
	},
}
