package cause

import (
	"slices"

	"halfturn/coach"
	"halfturn/stream/phrase"
)

// legRules are the causes of a leg, roots before what follows from them. What drags what along is
// flight mechanics: speed and height trade (v²/2 + g·h), the turn rate is g·tan(bank)/v, and a
// bank past what lift can carry lets the nose fall. Which fault is named for it follows the
// common errors of the handbooks (FAA-H-8083-3C ch. 10; CNATRA P-1212 p. 33) and common practice.
var legRules = slices.Concat(endings, entries, rhythm, banks, noses, rollOuts, energies, shapes, grounds, hands)

// endings are the reasons why a leg did not come to its end.
var endings = []rule{
	{
		id:       "abandoned",
		meaning:  "The turn was given up before it was done.",
		when:     func(f *ledger) bool { return f.leg.Outcome == coach.BrokenOff && !rolledShort(f) },
		evidence: stopped,
		say:      phrase.ChangeFinishTheTurn,
		advice:   phrase.CorrectAbandoned,
		other:    level(phrase.ChangeFinishTheTurn, phrase.CorrectAbandonedLevel),
	},
	{
		id:       "below-hard-deck",
		meaning:  "The aircraft came below the lowest height allowed.",
		on:       []string{"exit-heading"},
		when:     func(f *ledger) bool { return stoppedBy(f, coach.LimitDeck) },
		evidence: stopped,
		say:      phrase.ChangeStartHigher,
		advice:   phrase.CorrectBelowHardDeck,
	},
	{
		id:       "limit-passed",
		meaning:  "A limit of the aircraft was passed: speed, load or bank.",
		on:       []string{"exit-heading"},
		when:     func(f *ledger) bool { return stoppedBy(f, coach.LimitNever, coach.LimitLoad, coach.LimitBank) },
		evidence: stopped,
		say:      phrase.ChangeStayInsideTheLimits,
		advice:   phrase.CorrectLimitPassed,
	},
	{
		id:      "stalled",
		meaning: "The wing stalled, or came to the edge of it.",
		on:      []string{"no-stall", "stall-margin"},
		own:     []string{"-exit-heading"},
		drags:   []string{"-apex-speed", "-exit-speed"},
		when: func(f *ledger) bool {
			return stoppedBy(f, coach.LimitStall) || f.missed("no-stall") || f.missed("stall-margin")
		},
		evidence: stopped,
		say:      phrase.ChangeEaseTheBackPressure,
		advice:   phrase.CorrectStalled,
	},
}

// stoppedBy reports whether a leg was knocked off by one of some limits.
func stoppedBy(f *ledger, limits ...string) bool { return slices.Contains(limits, f.leg.Limit) }

// level gives the words for a turn in which height and airspeed are held.
func level(say, advice *phrase.Definition) []variant { return []variant{{of(isLevel), say, advice}} }

func finished(f *ledger) bool { return f.leg.Outcome == coach.Finished }
