package cause

import "halfturn/stream/phrase"

// entries are the faults of the set-up.
var entries = []rule{
	{
		id:      "not-cleared",
		meaning: "No turns to clear the area were seen before it.",
		on:      []string{"-area-cleared"},
		own:     []string{"-clearing-bank", "-clearing-side"},
		say:     phrase.ChangeClearTheAreaFirst,
		advice:  phrase.CorrectNotCleared,
	},
	{
		id:      "not-stabilized",
		meaning: "Two or more of speed, level flight and level wings were wrong before the entry.",
		on:      []string{"entry-speed", "entry-height-held", "entry-level"},
		drags:   []string{"apex-speed", "-stall-margin"},
		when:    unstable,
		say:     phrase.ChangeSettleDownBeforeEntry,
		advice:  phrase.CorrectNotStabilized,
	},
	{
		id:      "entry-slow",
		meaning: "Entry speed too low.",
		on:      []string{"-entry-speed"},
		drags:   []string{"-apex-speed", "-stall-margin", "-no-stall", "-pace", "-exit-speed", "-height-gained"},
		when:    func(f *ledger) bool { return !unstable(f) },
		say:     phrase.ChangeWaitForEntrySpeed,
		advice:  phrase.CorrectEntrySlow,
		other:   level(phrase.ChangeWaitForEntrySpeed, phrase.CorrectEntrySlowLevel),
	},
	{
		id:      "entry-fast",
		meaning: "Entry speed too high.",
		on:      []string{"+entry-speed"},
		drags:   []string{"+apex-speed", "+pace", "+exit-speed"},
		when:    func(f *ledger) bool { return !unstable(f) },
		say:     phrase.ChangeSlowDownBeforeEntry,
		advice:  phrase.CorrectEntryFast,
		other:   level(phrase.ChangeSlowDownBeforeEntry, phrase.CorrectEntryFastLevel),
	},
	{
		id:      "entry-descending",
		meaning: "Descending before the entry.",
		on:      []string{"-entry-height-held"},
		when:    func(f *ledger) bool { return !unstable(f) },
		say:     phrase.ChangeStartFromLevelFlight,
		advice:  phrase.CorrectEntryDescending,
		other:   level(phrase.ChangeStartFromLevelFlight, phrase.CorrectEntryDescendingLevel),
	},
	{
		id:      "entry-climbing",
		meaning: "Climbing before the entry.",
		on:      []string{"+entry-height-held"},
		when:    func(f *ledger) bool { return !unstable(f) },
		say:     phrase.ChangeStartFromLevelFlight,
		advice:  phrase.CorrectEntryClimbing,
		other:   level(phrase.ChangeStartFromLevelFlight, phrase.CorrectEntryClimbingLevel),
	},
	{
		id:      "entry-banked",
		meaning: "Wings not level before the entry.",
		on:      []string{"entry-level"},
		when:    func(f *ledger) bool { return !unstable(f) },
		say:     phrase.ChangeStartWithWingsLevel,
		advice:  phrase.CorrectEntryBanked,
		other:   level(phrase.ChangeStartWithWingsLevel, phrase.CorrectEntryBankedLevel),
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
		say:      phrase.ChangeSlowerDoNotRush,
		advice:   phrase.CorrectRushed,
	},
	{
		id:       "dragged",
		meaning:  "The whole turn was flown too slowly.",
		on:       []string{"+pace"},
		own:      []string{"-bank-at-45", "-bank-at-135"},
		drags:    []string{"-apex-speed", "-exit-speed"},
		when:     func(f *ledger) bool { return !f.off("-steepest-bank") && !f.off("-bank-at-90") },
		evidence: quicker,
		say:      phrase.ChangeALittleQuicker,
		advice:   phrase.CorrectDragged,
	},
}
