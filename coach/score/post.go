package score

import (
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
)

// PostOf returns the turn angle of the checkpoint that a graded check belongs to, 0 for the entry; nil is the leg as a
// whole. turns are those of the card's checkpoints; the last is the exit.
func PostOf(spec *check.Spec, k *coach.Check, turns []float64) *float64 {
	kind := kinds.Of(spec)
	switch {
	case len(turns) == 0 || kind.OfSeries():
		return nil
	case kind.Looks == check.BeforeTurn:
		return new(0.0)
	case spec.Turn != nil:
		return nearest(turns, *spec.Turn)
	case kind.Looks == check.AtPlace, kind.Looks == check.AfterExit:
		return new(turns[len(turns)-1])
	case kind.Doubt == check.Angle && k.Aim != nil:
		return nearest(turns, *k.Aim)
	case k.At != nil:
		return nearest(turns, *k.At)
	}
	return nil
}

// nearest returns the turn angle nearest to another.
func nearest(turns []float64, to float64) *float64 {
	return new(slices.MinFunc(turns, func(a, b float64) int {
		if math.Abs(a-to) < math.Abs(b-to) {
			return -1
		}
		return 1
	}))
}

// severity orders the verdicts; what was not measured shows only where nothing else does.
var severity = map[string]int{coach.NotMeasured: 1, coach.Met: 2, coach.Near: 3, coach.Missed: 4}

// Posts returns the verdict at each checkpoint that a check with a weight belongs to, in the order of the turn, and of
// the leg as a whole at the end: the worst of its checks.
func Posts(checks []coach.Check) []coach.Post {
	list := []coach.Post{}
	for i := range checks {
		k := &checks[i]
		if k.Weight == 0 {
			continue
		}
		at := slices.IndexFunc(list, func(p coach.Post) bool { return same(p.Turn, k.Post) })
		if at < 0 {
			list = append(list, coach.Post{Turn: k.Post, Verdict: k.Verdict})
		} else if severity[k.Verdict] > severity[list[at].Verdict] {
			list[at].Verdict = k.Verdict
		}
	}
	slices.SortStableFunc(list, func(a, b coach.Post) int {
		switch {
		case a.Turn == nil:
			return 1
		case b.Turn == nil || *a.Turn < *b.Turn:
			return -1
		}
		return 1
	})
	return list
}

// same reports whether two places are one.
func same(a, b *float64) bool { return a == nil && b == nil || a != nil && b != nil && *a == *b }
