package cause

import (
	"halfturn/coach/plan"
	"halfturn/stream/phrase"
)

// banks are faults of the bank before the roll-out.
var banks = []rule{
	{
		id:      "bank-grows",
		meaning: "Bank grew where it is to be held.",
		in:      holdsBank,
		on:      []string{"+bank-at-90", "+bank-held", "+steepest-bank"},
		own:     []string{"-height-held"},
		drags: []string{
			"+bank-at-135", "roll-out-start", "roll-out-rate", "roll-evenness", "-height-gained", "-speed-held",
			"-pace", "-nose-at-90", "+exit-speed", "-highest-nose",
		},
		when:     func(f *ledger) bool { return grew(f) && !f.off("-bank-held") },
		evidence: growth,
		say:      phrase.ChangeKeepTheBankFromGrowing,
		advice:   phrase.CorrectBankGrows,
		other:    level(phrase.ChangeKeepTheBankFromGrowing, phrase.CorrectBankGrowsLevel),
	},
	{
		id:       "bank-falls-off",
		meaning:  "Bank came off where it is to be held.",
		in:       holdsBank,
		on:       []string{"-bank-at-90", "-shallowest-bank", "-bank-held", "-roll-out-start"},
		drags:    []string{"+height-held"},
		when:     func(f *ledger) bool { return fellOff(f) && !f.off("+bank-held") },
		evidence: decline,
		say:      phrase.ChangeKeepTheBankOn,
		advice:   phrase.CorrectBankFallsOff,
	},
	{
		id:      "overbanked",
		meaning: "Too much bank.",
		in:      isNotPylon,
		on:      []string{"+bank-at-90", "+steepest-bank", "+bank-held", "+mean-bank"},
		own:     []string{"-height-held"},
		drags: []string{
			"-nose-at-90", "+bank-at-45", "+bank-at-135", "roll-evenness", "-pace", "-exit-height",
			"+exit-speed", "-speed-held", "-height-gained", "roll-out-start", "roll-out-rate", "apex-speed",
			"-lowest-nose", "+up-and-down", "+load-factor", "-halves-height",
		},
		when:   func(f *ledger) bool { return !grew(f) || f.off("-bank-held") },
		say:    phrase.ChangeLessBank,
		advice: phrase.CorrectOverbanked,
		other: []variant{
			{of(isAbout), phrase.ChangeFlyAWiderCircle, phrase.CorrectCircleTooSmall},
			{of(isLevel), phrase.ChangeLessBank, phrase.CorrectOverbankedLevel},
			{of(isChandelle), phrase.ChangeLessBank, phrase.CorrectOverbankedClimb},
		},
	},
	{
		id:      "underbanked",
		meaning: "Too little bank.",
		on:      []string{"-bank-at-90", "-steepest-bank", "-bank-held", "-mean-bank"},
		own:     []string{"-shallowest-bank"},
		drags: []string{
			"-bank-at-45", "-bank-at-135", "-highest-nose", "+pace", "apex-speed", "roll-evenness",
			"steepest-bank-at", "roll-out-start",
		},
		when: func(f *ledger) bool {
			return f.off("-steepest-bank") || f.off("-bank-held") || f.off("-mean-bank") || tooShallow(f) ||
				!holdsBank(f.card()) && turned(f)
		},
		say:    phrase.ChangeMoreBank,
		advice: phrase.CorrectUnderbanked,
		other: []variant{
			{of(isLevel), phrase.ChangeMoreBank, phrase.CorrectUnderbankedLevel},
			{of(isClimbAtBank), phrase.ChangeMoreBank, phrase.CorrectUnderbankedClimb},
		},
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
		when:    func(f *ledger) bool { return !f.missed("-steepest-bank") && !tooShallow(f) },
		say:     phrase.ChangeKeepRollingToNinety,
		advice:  phrase.CorrectBankPeakEarly,
	},
	{
		id:      "bank-peak-late",
		meaning: "Steepest bank after the middle of the turn.",
		on:      []string{"+steepest-bank-at"},
		own:     []string{"+roll-out-start"},
		drags:   []string{"-bank-at-45", "-bank-at-90", "+bank-at-135", "-roll-evenness", "nose-at-90"},
		when:    func(f *ledger) bool { return !tooShallow(f) },
		say:     phrase.ChangeSteepestBankAtNinety,
		advice:  phrase.CorrectBankPeakLate,
	},
	{
		id:      "bank-leads",
		meaning: "Bank ahead of the turn.",
		in:      isNotLevel,
		on:      []string{"+bank-at-45", "-bank-at-135"},
		drags:   []string{"-highest-nose-at", "-roll-out-start"},
		when:    inProportion,
		say:     phrase.ChangeRollSlowerNoseFirst,
		advice:  phrase.CorrectBankLeads,
	},
	{
		id:      "bank-lags",
		meaning: "Bank behind the turn.",
		in:      isNotLevel,
		on:      []string{"-bank-at-45", "+bank-at-135"},
		drags:   []string{"+highest-nose-at", "+roll-out-start"},
		against: []string{"bank-leads"},
		when:    inProportion,
		say:     phrase.ChangeKeepTheBankComing,
		advice:  phrase.CorrectBankLags,
	},
}

// inProportion reports whether the bank as a whole was neither too steep nor too shallow.
func inProportion(f *ledger) bool {
	return !f.missed("+steepest-bank") && !f.off("-steepest-bank") && !tooShallow(f)
}

// turned reports whether the place of the steepest bank was right, or was not judged.
func turned(f *ledger) bool { return !f.off("steepest-bank-at") }

// rollOuts are faults of the roll-out.
var rollOuts = []rule{
	{
		id:      "level-before-180",
		meaning: "Wings level before the half turn was done.",
		in:      isChandelle,
		on:      []string{"-exit-heading"},
		drags: []string{
			"-bank-at-135", "-roll-out-start", "roll-out-rate", "+exit-speed", "roll-evenness", "-steepest-bank-at",
		},
		when:     roundly,
		all:      rolledShort,
		evidence: shortOf,
		say:      phrase.ChangeBankOffMoreSlowly,
		advice:   phrase.CorrectLevelBefore180,
	},
	{
		id:      "rolled-out-early",
		meaning: "Rolled out before the heading.",
		in:      isNotChandelle,
		on:      []string{"-exit-heading"},
		drags: []string{
			"-bank-at-135", "-roll-out-start", "+exit-height", "-exit-speed", "roll-evenness", "-pace",
		},
		when:     roundly,
		all:      rolledShort,
		evidence: shortOf,
		say:      phrase.ChangeHoldTheTurnLonger,
		advice:   phrase.CorrectRolledOutEarly,
		other: []variant{
			{of(leadsByThird), phrase.ChangeHoldTheTurnLonger, phrase.CorrectRolledOutEarlyThird},
			{of(holdsSpeed), phrase.ChangeHoldTheTurnLonger, phrase.CorrectRolledOutEarlyLevel},
		},
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
		// The lead is half the bank in a level turn: FAA-H-8083-3C p. 10-3.
		other: []variant{
			{of(leadsByThird), phrase.ChangeStartTheRollOutSooner, phrase.CorrectRolledOutLateThird},
			{of(holdsSpeed), phrase.ChangeStartTheRollOutSooner, phrase.CorrectRolledOutLateLevel},
		},
		numbers: lateBy,
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

// roundly reports whether the turn was flown round, to an exit or nearly.
func roundly(f *ledger) bool { return finished(f) || rolledShort(f) }

// lateBy advises the bank that is to be left with a little of the turn to go.
func lateBy(p *plan.Plan) phrase.Phrase {
	bank, ok := rollOutBank(p)
	if !ok {
		return phrase.Phrase{}
	}
	return phrase.CorrectRolledOutLateTo.Of(phrase.Number("bank", bank, 0, "°"), phrase.Number("left", toGo, 0, "°"))
}
