package score

import (
	"fmt"
	"slices"
	"strings"

	"halfturn/coach"
	"halfturn/coach/check"
)

// Scored returns the checks that make up the series' own part of the score. That all legs were flown earns nothing.
func Scored(s *coach.Series) []coach.Check {
	return slices.DeleteFunc(slices.Clone(s.Checks), func(k coach.Check) bool {
		return counts(&k, check.Legs) && k.Verdict == coach.Met
	})
}

// Lacking says which of the legs that the checks of the series ask for were not finished: how many of how many, to
// which side, and which turn did not count. It is "" when none is missing.
func Lacking(s *coach.Series) string {
	wanted, note, opposite := 0, "", false
	for i := range s.Checks {
		switch k := &s.Checks[i]; {
		case k.Weight == 0: // a standard may ask for neither
		case counts(k, check.Legs) && k.Met[0] != nil:
			wanted, note = int(*k.Met[0]), k.Note
		case counts(k, check.Sides):
			opposite = true
		}
	}
	var parts []string
	if n := len(s.Finished()); n < wanted {
		parts = append(parts, fmt.Sprintf("%d of %d legs finished", n, wanted))
	}
	if opposite {
		parts = append(parts, sidesLacking(s, wanted)...)
	}
	if note != "" {
		parts = append(parts, note)
	}
	return strings.Join(parts, ", ")
}

// sidesLacking says how many legs are missing to each side, where the sides alternate.
func sidesLacking(s *coach.Series, wanted int) (parts []string) {
	done := s.Finished()
	if len(done) == 0 {
		return nil // the first side is not known
	}
	for _, side := range []string{"right", "left"} {
		missing := wanted / 2
		if side == done[0].Direction {
			missing = wanted - wanted/2
		}
		for _, l := range done {
			if l.Direction == side {
				missing--
			}
		}
		switch {
		case missing == 1:
			parts = append(parts, fmt.Sprintf("one to the %s is missing", side))
		case missing > 1:
			parts = append(parts, fmt.Sprintf("%d to the %s are missing", missing, side))
		}
	}
	return parts
}
