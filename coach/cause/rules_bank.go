package cause

import "halfturn/stream/phrase"

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
		say:      phrase.ChangeKeepTheBankFromGrowing,
		advice:   phrase.CorrectBankGrows,
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
		say:      phrase.ChangeKeepTheBankOn,
		advice:   phrase.CorrectBankFallsOff,
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
		say:    phrase.ChangeLessBank,
		advice: phrase.CorrectOverbanked,
		other:  level(phrase.ChangeLessBank, phrase.CorrectOverbankedLevel),
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
		say:    phrase.ChangeMoreBank,
		advice: phrase.CorrectUnderbanked,
		other:  level(phrase.ChangeMoreBank, phrase.CorrectUnderbankedLevel),
	},
	{
		id:      "roll-out-quick",
		meaning: "Bank held too long, then taken off in a hurry.",
		on:      []string{"-roll-evenness"},
		own:     []string{"+roll-out-start", "+bank-at-135"},
		drags:   []string{"+steepest-bank-at", "highest-nose"},
		when:    func(f *ledger) bool { return !f.missed("+steepest-bank-at") && !f.off("+steepest-bank") },
		say:     phrase.ChangeRollOutSlower,
		advice:  phrase.CorrectRollOutQuick,
	},
	{
		id:      "roll-in-quick",
		meaning: "Bank put on faster than it was taken off.",
		on:      []string{"+roll-evenness"},
		drags:   []string{"+bank-at-45", "-highest-nose-at"},
		when:    turned,
		say:     phrase.ChangeRollInSlower,
		advice:  phrase.CorrectRollInQuick,
	},
	{
		id:      "bank-peak-early",
		meaning: "Steepest bank before the middle of the turn.",
		on:      []string{"-steepest-bank-at"},
		own:     []string{"-roll-out-start"},
		drags:   []string{"+bank-at-45", "-bank-at-90", "-bank-at-135", "+roll-evenness", "nose-at-90"},
		when:    func(f *ledger) bool { return !f.missed("-steepest-bank") },
		say:     phrase.ChangeKeepRollingToNinety,
		advice:  phrase.CorrectBankPeakEarly,
	},
	{
		id:      "bank-peak-late",
		meaning: "Steepest bank after the middle of the turn.",
		on:      []string{"+steepest-bank-at"},
		own:     []string{"+roll-out-start"},
		drags:   []string{"-bank-at-45", "-bank-at-90", "+bank-at-135", "-roll-evenness", "nose-at-90"},
		say:     phrase.ChangeSteepestBankAtNinety,
		advice:  phrase.CorrectBankPeakLate,
	},
	{
		id:      "bank-leads",
		meaning: "Bank ahead of the turn.",
		on:      []string{"+bank-at-45", "-bank-at-135"},
		drags:   []string{"-highest-nose-at", "-roll-out-start"},
		when:    func(f *ledger) bool { return !f.missed("+steepest-bank") && !f.off("-steepest-bank") },
		say:     phrase.ChangeRollSlowerNoseFirst,
		advice:  phrase.CorrectBankLeads,
	},
	{
		id:      "bank-lags",
		meaning: "Bank behind the turn.",
		on:      []string{"-bank-at-45", "+bank-at-135"},
		drags:   []string{"+highest-nose-at", "+roll-out-start"},
		against: []string{"bank-leads"},
		when:    func(f *ledger) bool { return !f.missed("+steepest-bank") && !f.off("-steepest-bank") },
		say:     phrase.ChangeKeepTheBankComing,
		advice:  phrase.CorrectBankLags,
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
		say:     phrase.ChangeBankOffMoreSlowly,
		advice:  phrase.CorrectLevelBefore180,
	},
	{
		id:      "rolled-out-early",
		meaning: "Rolled out before the heading.",
		in:      isNotChandelle,
		on:      []string{"-exit-heading"},
		drags: []string{
			"-bank-at-135", "-roll-out-start", "+exit-height", "-exit-speed", "roll-evenness", "-pace",
		},
		when:   func(f *ledger) bool { return notChandelle(f) && finished(f) },
		say:    phrase.ChangeHoldTheTurnLonger,
		advice: phrase.CorrectRolledOutEarly,
	},
	{
		id:      "rolled-out-late",
		meaning: "Rolled out after the heading: overshoot.",
		on:      []string{"+exit-heading"},
		drags: []string{
			"+bank-at-135", "+roll-out-start", "+pace", "-exit-height", "+exit-speed", "roll-evenness",
		},
		say:    phrase.ChangeStartTheRollOutSooner,
		advice: phrase.CorrectRolledOutLate,
		// The lead is half the bank: FAA-H-8083-3C p. 10-3.
		other: level(phrase.ChangeStartTheRollOutSooner, phrase.CorrectRolledOutLateLevel),
	},
	{
		id:      "roll-out-begun-early",
		meaning: "Roll-out begun too early.",
		on:      []string{"-roll-out-start"},
		drags:   []string{"-bank-at-135", "-bank-at-90"},
		when:    turned,
		say:     phrase.ChangeHoldTheBankToNinety,
		advice:  phrase.CorrectRollOutBegunEarly,
	},
	{
		id:      "roll-out-begun-late",
		meaning: "Roll-out begun too late.",
		on:      []string{"+roll-out-start"},
		drags:   []string{"+bank-at-135"},
		when:    turned,
		say:     phrase.ChangeStartRollingOutAtNinety,
		advice:  phrase.CorrectRollOutBegunLate,
	},
}
