package cause

import (
	"slices"

	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/stream/phrase"
)

// legRules are the causes of a leg, roots before what follows from them. What drags what along is
// flight mechanics: speed and height trade (v²/2 + g·h), the turn rate is g·tan(bank)/v, and a
// bank past what lift can carry lets the nose fall. Which fault is named for it follows the
// common errors of the handbooks (FAA-H-8083-3C ch. 10; CNATRA P-1212 p. 33) and common practice.
var legRules = slices.Concat(endings, entries, rhythm, banks, noses, rollOuts, energies, hands)

// endings are the reasons why a leg did not come to its end.
var endings = []rule{
	{
		id:       "abandoned",
		meaning:  "The turn was given up before it was done.",
		when:     func(f *ledger) bool { return f.leg.Outcome == coach.BrokenOff },
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

// level gives the words for a steep turn, in which height and airspeed are held.
func level(say, advice *phrase.Definition) map[string][2]*phrase.Definition {
	words := [2]*phrase.Definition{say, advice}
	return map[string][2]*phrase.Definition{"steep-turn": words, "steep-turn-45": words, "clearing-turns": words}
}

// climb gives the words for a chandelle, which ends with the nose up.
func climb(say, advice *phrase.Definition) map[string][2]*phrase.Definition {
	words := [2]*phrase.Definition{say, advice}
	return map[string][2]*phrase.Definition{"chandelle-civil": words, "chandelle-traditional": words}
}

// isChandelle reports whether a card is of a chandelle, by its checks of the nose, which must never sink.
func isChandelle(c *maneuver.Card) bool { return c.Has("nose-not-sinking") || c.Has("nose-only-rises") }

func isNotChandelle(c *maneuver.Card) bool { return !isChandelle(c) }

// isGentle reports whether a card is that of the lazy eight, whose banks are shallow.
func isGentle(c *maneuver.Card) bool { return c.Name == "lazy-eight" }

func isNotGentle(c *maneuver.Card) bool { return !isGentle(c) }

// holdsBank reports whether a bank is set and held in a card's maneuver.
func holdsBank(c *maneuver.Card) bool { return c.Has("bank-held") }

// chandelle reports whether a leg is of a chandelle in which the nose was measured.
func chandelle(f *ledger) bool {
	return f.checks["nose-not-sinking"] != nil || f.checks["nose-only-rises"] != nil
}

func notChandelle(f *ledger) bool { return !chandelle(f) }

// gentle reports whether a leg is of a lazy eight.
func gentle(f *ledger) bool { return f.plan != nil && f.plan.Card != nil && isGentle(f.plan.Card) }

func finished(f *ledger) bool { return f.leg.Outcome == coach.Finished }
