package cause

import (
	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/stream/phrase"
)

// seriesRules are the causes that only the legs together show.
var seriesRules = []rule{
	{
		id:       "same-direction",
		meaning:  "Two legs in the same direction.",
		on:       []string{maneuver.SidesID},
		drags:    []string{"pair-heading"},
		evidence: repeated,
		say:      phrase.ChangeTheSecondTheOtherWay,
		advice:   phrase.CorrectSameDirection,
	},
	{
		id:      "uneven",
		meaning: "The legs differ: nose or bank not the same to both sides.",
		on:      []string{"even-nose", "even-bank", "even-dive"},
		own:     []string{"same-rhythm"},
		say:     phrase.ChangeSamePictureBothWays,
		advice:  phrase.CorrectUneven,
	},
	{
		id:       "drift-between",
		meaning:  "No allowance for drift between the pylons: not as far from each.",
		in:       holdsPylon,
		on:       []string{"even-distance"},
		drags:    []string{"even-bank"},
		when:     drifting,
		evidence: driftWas,
		say:      phrase.ChangeAllowForDrift,
		advice:   phrase.CorrectDriftBetween,
	},
	{
		id:      "pylons-uneven",
		meaning: "Not as far from the one pylon as from the other.",
		in:      holdsPylon,
		on:      []string{"even-distance"},
		drags:   []string{"even-bank"},
		when:    func(f *ledger) bool { return across(f) < leastWind && !tooClose(f) },
		say:     phrase.ChangeOneDistanceFromBoth,
		advice:  phrase.CorrectPylonsUneven,
	},
	{
		id:      "off-the-line",
		meaning: "The legs together did not end on the heading they began on.",
		on:      []string{"pair-heading"},
		when:    func(f *ledger) bool { return !rolledOutOff(f.series) },
		say:     phrase.ChangeFinishOnTheLine,
		advice:  phrase.CorrectOffTheLine,
	},
	{
		id:       "legs-missing",
		meaning:  "Fewer legs finished than the maneuver has.",
		on:       []string{maneuver.LegsID},
		evidence: func(f *ledger) phrase.Phrase { return f.series.Missing },
		say:      phrase.ChangeFlyAllTheLegs,
		advice:   phrase.CorrectLegsMissing,
	},
}

// repeated names the first two finished legs that follow each other to the same side.
func repeated(f *ledger) phrase.Phrase {
	var before *coach.Leg
	for i := range f.series.Legs {
		l := &f.series.Legs[i]
		if l.Outcome != coach.Finished {
			continue
		}
		if before != nil && before.Direction == l.Direction {
			if l.Direction == "left" {
				return phrase.BothToLeft.Of(phrase.Int("first", before.Number), phrase.Int("second", l.Number))
			}
			return phrase.BothToRight.Of(phrase.Int("first", before.Number), phrase.Int("second", l.Number))
		}
		before = l
	}
	return phrase.Phrase{}
}

// rolledOutOff reports whether a leg's own roll-out explains that the line was missed.
func rolledOutOff(s *coach.Series) bool {
	for i := range s.Legs {
		for _, k := range s.Legs[i].Checks {
			if k.ID == "exit-heading" && k.Verdict == coach.Missed {
				return true
			}
		}
	}
	return false
}
