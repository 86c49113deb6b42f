package cause

import (
	"math"

	"halfturn/stream/phrase"
)

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
			"+nose-not-sinking", "+nose-only-rises", "+highest-nose-at", "+load-factor",
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
		id:      "roll-in-late",
		meaning: "Pulled up with the wings level, before the roll.",
		in:      isReturning,
		on:      []string{"-apex-speed"},
		drags:   []string{"-stall-margin", "-highest-nose-at", "+highest-nose", "-pace", "even-rhythm"},
		when:    func(f *ledger) bool { return pulledFirst(f) && !pulledHard(f) },
		say:     phrase.ChangeRollInWithThePull,
		advice:  phrase.CorrectRollInLate,
	},
	{
		id:       "nose-peak-late",
		meaning:  "Nose highest too late in the turn.",
		on:       []string{"+highest-nose-at"},
		own:      []string{"+nose-at-90"},
		drags:    []string{"+highest-nose", "-apex-speed", "+exit-height", "-exit-speed"},
		when:     func(f *ledger) bool { return !pulledHard(f) },
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
		// A nose that was too high must come down.
		when:   func(f *ledger) bool { return !f.off("+highest-nose") && !f.off("+nose-not-rising") },
		say:    phrase.ChangeHoldTheNoseUp,
		advice: phrase.CorrectNoseDropped,
	},
	{
		id:      "nose-still-rising",
		meaning: "Nose raised where it is to be held.",
		on:      []string{"+nose-not-rising"},
		drags:   []string{"+highest-nose", "-exit-speed", "-no-stall", "+nose-not-sinking", "speed-falling"},
		against: []string{"nose-dropped"},
		say:     phrase.ChangeHoldTheNoseNoHigher,
		advice:  phrase.CorrectNoseStillRising,
	},
}

// farTooHigh is how many times the corridor's half width a nose is above it that was pulled up too hard from the start
// (common practice, no source).
const farTooHigh = 3

// pulledHard reports whether the nose was far too high well before it was highest: then it was pulled too hard, not
// only too long.
func pulledHard(f *ledger) bool {
	t, ok := f.at(30)
	if !ok || f.plan == nil || !f.missed("+highest-nose") {
		return false
	}
	aim, width, known := f.plan.Aim("pitch", t.Turn)
	return known && t.Pitch-f.leg.Entry.Values["pitch"] > aim+farTooHigh*width
}

// A pull with the wings level, before the roll (common practice, no source).
const (
	hardlyRound = 3.0     // ° of turn: more needs bank
	pulledTo    = 2.0 / 3 // of the highest nose
)

// pulledFirst reports whether most of the pull was over before the turn began. Some publish the wing-over
// so (CNATRA P-1212 p. 33), and fly it slower over the top than a roll that begins with the pull.
func pulledFirst(f *ledger) bool {
	if f.leg == nil {
		return false
	}
	entry, highest, level := f.leg.Entry.Values["pitch"], 0.0, 0.0
	for i := range f.leg.Trace {
		t := &f.leg.Trace[i]
		highest = math.Max(highest, t.Pitch-entry)
		if t.Turn <= hardlyRound {
			level = math.Max(level, t.Pitch-entry)
		}
	}
	return level > pulledTo*highest
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
