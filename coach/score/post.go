package score

import (
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
)

// PostOf returns the turn angle of the checkpoint that a graded check belongs to; nil is the leg as a whole. turns are
// those of the card, [maneuver.Card.Turns]: that of the entry, and of the checkpoints. What is returned points into
// them.
func PostOf(spec *check.Spec, k *coach.Check, turns []float64) *float64 {
	kind, entry, posts := kinds.Of(spec), turns[:1], turns[1:]
	switch {
	case len(posts) == 0 || kind.OfSeries():
		return nil
	case kind.Looks == check.BeforeTurn:
		return &entry[0]
	case spec.Turn != nil:
		return nearest(posts, *spec.Turn)
	case kind.Looks == check.AtPlace, kind.Looks == check.AfterExit:
		return &posts[len(posts)-1]
	case kind.Doubt == check.Angle && k.Aim != nil:
		return nearest(posts, *k.Aim)
	case k.At != nil:
		return nearest(posts, *k.At)
	}
	return nil
}

// nearest returns the turn angle nearest to another.
func nearest(turns []float64, to float64) *float64 {
	best := &turns[0]
	for i := range turns {
		if math.Abs(turns[i]-to) < math.Abs(*best-to) {
			best = &turns[i]
		}
	}
	return best
}

// severity orders the verdicts; what was not measured shows only where nothing else does.
var severity = map[string]int{coach.NotMeasured: 1, coach.Met: 2, coach.Near: 3, coach.Missed: 4}

// Posts returns the verdict at each checkpoint that a check with a weight belongs to, in the order of the turn, and of
// the leg as a whole at the end: the worst of its checks.
func Posts(checks []coach.Check) []coach.Post {
	list := make([]coach.Post, 0, 6)
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
