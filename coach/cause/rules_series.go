package cause

import (
	"fmt"

	"halfturn/coach"
	"halfturn/coach/maneuver"
)

// seriesRules are the causes that only the legs together show.
var seriesRules = []rule{
	{
		id:       "same-direction",
		meaning:  "Two legs in the same direction.",
		on:       []string{maneuver.SidesID},
		drags:    []string{"pair-heading"},
		evidence: repeated,
		say:      "The second the other way",
		advice: "Two legs went the same way: fly the second to the other side, so that both sides are " +
			"practiced and you end where you began.",
	},
	{
		id:      "uneven",
		meaning: "The legs differ: nose or bank not the same to both sides.",
		on:      []string{"even-nose", "even-bank"},
		say:     "Same picture both ways",
		advice: "The legs were not alike: look for the same nose and the same bank to both sides, and " +
			"compare them at ninety.",
	},
	{
		id:      "off-the-line",
		meaning: "The legs together did not end on the heading they began on.",
		on:      []string{"pair-heading"},
		when:    func(f *ledger) bool { return !rolledOutOff(f.series) },
		say:     "Finish on the line",
		advice: "You did not end on the line you began on: choose a road or a shore as the line, and roll " +
			"each leg out on it.",
	},
	{
		id:       "legs-missing",
		meaning:  "Fewer legs finished than the maneuver has.",
		on:       []string{maneuver.LegsID},
		evidence: func(f *ledger) string { return f.series.Missing.String() },
		say:      "Fly all the legs",
		advice:   "The maneuver was not flown to its end: fly every leg of it, one after the other.",
	},
}

// repeated names the first two finished legs that follow each other to the same side.
func repeated(f *ledger) string {
	var before *coach.Leg
	for i := range f.series.Legs {
		l := &f.series.Legs[i]
		if l.Outcome != coach.Finished {
			continue
		}
		if before != nil && before.Direction == l.Direction {
			return fmt.Sprintf("Legs %d and %d were both to the %s", before.Number, l.Number, l.Direction)
		}
		before = l
	}
	return ""
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
