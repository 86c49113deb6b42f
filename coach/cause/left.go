package cause

import (
	"slices"
	"strings"

	"halfturn/coach"
)

// Left returns the causes that still hold once checks of a leg or a series were overruled: those of which one check of
// their own is still near or missed, and those that explain everything.
func Left(list []coach.Cause, checks []coach.Check) []coach.Cause {
	off := map[string]bool{}
	for i := range checks {
		if v := checks[i].Verdict; v == coach.Near || v == coach.Missed {
			off[checks[i].ID] = true
		}
	}
	left := []coach.Cause{}
	for i := range list {
		r := ruleNamed(list[i].ID)
		if r == nil || len(r.on) == 0 || slices.ContainsFunc(r.on, func(id string) bool {
			return off[strings.TrimLeft(id, "+-")]
		}) {
			left = append(left, list[i])
		}
	}
	return left
}
