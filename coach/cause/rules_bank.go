package cause

// banks are faults of the bank before the roll-out.
var banks = []rule{
	{
		id:       "bank-grows",
		meaning:  "Bank grew where it is to be held.",
		in:       holdsBank,
		on:       []string{"+bank-at-90", "+bank-held", "+steepest-bank"},
		drags:    []string{"+bank-at-135", "+roll-out-start", "-height-gained", "-height-held"},
		when:     func(f *ledger) bool { return f.checks["bank-held"] != nil && grew(f) > 6 && !f.off("-bank-held") },
		evidence: growth,
		say:      "Keep the bank from growing",
		advice: "The bank went on growing after it was set: hold it with opposite aileron, it wants to " +
			"steepen by itself.",
	},
	{
		id:      "bank-falls-off",
		meaning: "Bank came off where it is to be held.",
		in:      holdsBank,
		on:      []string{"-bank-at-90", "-shallowest-bank", "-roll-out-start"},
		own:     []string{"-bank-held"},
		when: func(f *ledger) bool {
			return f.checks["bank-held"] != nil && (grew(f) < -4 || f.off("-shallowest-bank") && !f.off("-bank-held"))
		},
		evidence: growth,
		say:      "Keep the bank on",
		advice:   "The bank came off too soon: look at the wing against the horizon and hold it where it was.",
	},
	{
		id:      "overbanked",
		meaning: "Too much bank.",
		on:      []string{"+bank-at-90", "+steepest-bank", "+bank-held"},
		drags: []string{
			"-nose-at-90", "+bank-at-45", "+bank-at-135", "roll-evenness", "-pace", "-exit-height",
			"+exit-speed", "-height-held", "-speed-held", "-height-gained", "roll-out-start",
			"apex-speed",
		},
		say: "Less bank",
		advice: "The bank went too far, and past it the nose falls through: stop the roll earlier and look " +
			"for the horizon across the nose.",
		other: level(
			"Less bank",
			"The bank was too steep: take a little off, and check it against the horizon before the nose drops.",
		),
	},
	{
		id:      "underbanked",
		meaning: "Too little bank.",
		on:      []string{"-bank-at-90", "-steepest-bank", "-bank-held"},
		own:     []string{"-shallowest-bank"},
		drags: []string{
			"-bank-at-45", "-bank-at-135", "-highest-nose", "+pace", "apex-speed", "roll-evenness",
			"steepest-bank-at", "roll-out-start",
		},
		when: func(f *ledger) bool {
			return f.off("-steepest-bank") || f.off("-bank-held") || f.checks["bank-held"] == nil && turned(f)
		},
		say: "More bank",
		advice: "There was too little bank: keep rolling slowly all the way to the steepest point, and let " +
			"the nose come round.",
		other: level(
			"More bank",
			"The bank was too shallow: roll on to the bank wanted and hold it there against the horizon.",
		),
	},
	{
		id:      "roll-out-quick",
		meaning: "Bank held too long, then taken off in a hurry.",
		on:      []string{"-roll-evenness"},
		own:     []string{"+roll-out-start", "+bank-at-135"},
		drags:   []string{"+steepest-bank-at", "highest-nose"},
		when:    func(f *ledger) bool { return !f.missed("+steepest-bank-at") && !f.off("+steepest-bank") },
		say:     "Roll out slower",
		advice: "The bank was held too long and then came off in a hurry: start just past ninety and take it " +
			"off as slowly as it came on.",
	},
	{
		id:      "roll-in-quick",
		meaning: "Bank put on faster than it was taken off.",
		on:      []string{"+roll-evenness"},
		drags:   []string{"+bank-at-45", "-highest-nose-at"},
		when:    turned,
		say:     "Roll in slower",
		advice:  "The bank came on faster than it went off: roll in with one slow, even pressure.",
	},
	{
		id:      "bank-peak-early",
		meaning: "Steepest bank before the middle of the turn.",
		on:      []string{"-steepest-bank-at"},
		own:     []string{"-roll-out-start"},
		drags:   []string{"+bank-at-45", "-bank-at-90", "-bank-at-135", "+roll-evenness", "nose-at-90"},
		when:    func(f *ledger) bool { return !f.missed("-steepest-bank") },
		say:     "Keep rolling to ninety",
		advice: "The bank was steepest too early and came off before the nose was round: roll slower and " +
			"keep rolling to ninety degrees of turn.",
	},
	{
		id:      "bank-peak-late",
		meaning: "Steepest bank after the middle of the turn.",
		on:      []string{"+steepest-bank-at"},
		own:     []string{"+roll-out-start"},
		drags:   []string{"-bank-at-45", "-bank-at-90", "+bank-at-135", "-roll-evenness", "nose-at-90"},
		say:     "Steepest bank at ninety",
		advice: "The bank was steepest too late: have it all by ninety degrees of turn, then begin at once " +
			"to take it off.",
	},
	{
		id:      "bank-leads",
		meaning: "Bank ahead of the turn.",
		on:      []string{"+bank-at-45", "-bank-at-135"},
		drags:   []string{"-highest-nose-at", "-roll-out-start"},
		when:    func(f *ledger) bool { return !f.missed("+steepest-bank") && !f.off("-steepest-bank") },
		say:     "Roll slower, nose first",
		advice: "The bank was ahead of the turn: let the nose climb first, and give half the bank at " +
			"forty-five and again at one thirty-five.",
	},
	{
		id:      "bank-lags",
		meaning: "Bank behind the turn.",
		on:      []string{"-bank-at-45", "+bank-at-135"},
		drags:   []string{"+highest-nose-at", "+roll-out-start"},
		against: []string{"bank-leads"},
		when:    func(f *ledger) bool { return !f.missed("+steepest-bank") && !f.off("-steepest-bank") },
		say:     "Keep the bank coming",
		advice: "The bank was behind the turn: begin to roll with the pull, and be half way out again at one " +
			"thirty-five.",
	},
}

// turned reports whether the place of the steepest bank was right, or was not judged.
func turned(f *ledger) bool { return !f.off("steepest-bank-at") }

// rollOuts are faults of the roll-out.
var rollOuts = []rule{
	{
		id:      "level-before-180",
		meaning: "Wings level before the half turn was done, in a chandelle.",
		in:      isChandelle,
		on:      []string{"-exit-heading"},
		drags:   []string{"-bank-at-135", "-roll-out-start", "+exit-speed", "roll-evenness", "-steepest-bank-at"},
		when:    func(f *ledger) bool { return chandelle(f) && finished(f) },
		say:     "Bank off more slowly",
		advice: "The wings were level before the heading: take the bank off so slowly that the last of it " +
			"goes as the heading comes.",
	},
	{
		id:      "rolled-out-early",
		meaning: "Rolled out before the heading.",
		in:      isNotChandelle,
		on:      []string{"-exit-heading"},
		drags: []string{
			"-bank-at-135", "-roll-out-start", "+exit-height", "-exit-speed", "roll-evenness", "-pace",
		},
		when: func(f *ledger) bool { return notChandelle(f) && finished(f) },
		say:  "Hold the turn longer",
		advice: "You rolled out before the heading: look for the reference point over the wing, and hold " +
			"some bank until it is there.",
	},
	{
		id:      "rolled-out-late",
		meaning: "Rolled out after the heading: overshoot.",
		on:      []string{"+exit-heading"},
		drags: []string{
			"+bank-at-135", "+roll-out-start", "+pace", "-exit-height", "+exit-speed", "roll-evenness",
		},
		say: "Start the roll-out sooner",
		advice: "You turned past the heading: start the roll-out sooner, so that half the bank is off with " +
			"forty-five degrees to go.",
		// The lead is half the bank: FAA-H-8083-3C p. 10-3.
		other: level(
			"Start the roll-out sooner",
			"You turned past the heading: start the roll-out when the degrees to go are half the bank.",
		),
	},
	{
		id:      "roll-out-begun-early",
		meaning: "Roll-out begun too early.",
		on:      []string{"-roll-out-start"},
		drags:   []string{"-bank-at-135", "-bank-at-90"},
		when:    turned,
		say:     "Hold the bank to ninety",
		advice:  "The roll-out began too early: hold the bank until the nose has passed ninety degrees of turn.",
	},
	{
		id:      "roll-out-begun-late",
		meaning: "Roll-out begun too late.",
		on:      []string{"+roll-out-start"},
		drags:   []string{"+bank-at-135"},
		when:    turned,
		say:     "Start rolling out at ninety",
		advice:  "The roll-out began too late: begin to take the bank off as the nose passes ninety degrees of turn.",
	},
}
