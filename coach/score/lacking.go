package score

import (
	"slices"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

// Scored returns the checks that make up the series' own part of the score. That all legs were flown earns nothing.
func Scored(s *coach.Series) []coach.Check {
	return slices.DeleteFunc(slices.Clone(s.Checks), func(k coach.Check) bool {
		return counts(&k, check.Legs) && k.Verdict == coach.Met
	})
}

// Lacking says which of the legs that the checks of the series ask for were not finished: how many of how many, to
// which side, and which turn did not count. It says nothing when none is missing.
func Lacking(s *coach.Series) phrase.Phrase {
	wanted, note, opposite := 0, phrase.Phrase{}, false
	for i := range s.Checks {
		switch k := &s.Checks[i]; {
		case k.Weight == 0: // a standard may ask for neither
		case counts(k, check.Legs) && k.Met[0] != nil:
			wanted, note = int(*k.Met[0]), k.Note
		case counts(k, check.Sides):
			opposite = true
		}
	}
	var parts []phrase.Phrase
	if n := len(s.Finished()); n < wanted {
		parts = append(parts, phrase.LegsFinished.Of(phrase.Int("done", n), phrase.Int("legs", wanted)))
	}
	if opposite {
		parts = append(parts, sidesLacking(s, wanted)...)
	}
	if !note.IsZero() {
		parts = append(parts, note)
	}
	return phrase.Joined(parts...)
}

// sidesLacking says how many legs are missing to each side, where the sides alternate.
func sidesLacking(s *coach.Series, wanted int) (parts []phrase.Phrase) {
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
		switch right := side == "right"; {
		case missing == 1 && right:
			parts = append(parts, phrase.OneToRight.Of())
		case missing == 1:
			parts = append(parts, phrase.OneToLeft.Of())
		case missing > 1 && right:
			parts = append(parts, phrase.MoreToRight.Of(phrase.Int("legs", missing)))
		case missing > 1:
			parts = append(parts, phrase.MoreToLeft.Of(phrase.Int("legs", missing)))
		}
	}
	return parts
}
