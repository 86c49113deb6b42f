package course

import (
	"cmp"
	"math"
	"slices"
	"time"

	"halfturn/coach"
)

// A Week compares what a student flew in the last seven days with the four weeks before: which checks were met more
// steadily, and which less.
type Week struct {
	Legs     int     `json:"legs"`   // in the last seven days
	Before   int     `json:"before"` // in the four weeks before
	Steadier []Moved `json:"steadier"`
	Shakier  []Moved `json:"shakier"`
	Still    []Moved `json:"still"` // missed most this week, and no better than before
}

// A Moved is one check of a maneuver by a standard, over two spans of time.
type Moved struct {
	Maneuver string  `json:"maneuver"`
	Standard string  `json:"standard"`
	Check    string  `json:"check"`
	Label    string  `json:"label"`
	Met      int     `json:"met"` // this week
	Of       int     `json:"of"`
	MetThen  int     `json:"metThen"` // in the weeks before
	OfThen   int     `json:"ofThen"`
	Z        float64 `json:"z"` // of the rank-sum test of the scores; more is better now
}

// The spans that are compared, and what counts as a difference. Common practice, no source.
const (
	thisWeek   = 7    // days
	weekBefore = 28   // days before that
	leastLegs  = 5    // in each span, for a check to be compared
	clearly    = 2.33 // of z: one check in a hundred moves as far by chance, to one side
	mostStill  = 3    // checks to name that are still missed
	missedHalf = 0.5  // share of the legs in which such a check is not met
)

// Weekly compares the last seven days before a time with the four weeks before them. The scores of a check in the two
// spans are compared by the rank-sum test of H. B. Mann and D. R. Whitney, Annals of Mathematical Statistics 18 (1947)
// p. 50, with the usual correction for ties.
func Weekly(legs []Flown, now time.Time) *Week {
	w := &Week{Steadier: []Moved{}, Shakier: []Moved{}, Still: []Moved{}}
	type key struct{ maneuver, standard, check string }
	by, order := map[key]*spans{}, []key{}
	for i := range legs {
		f := &legs[i]
		age := days(f.Began, now)
		if age >= thisWeek+weekBefore || f.Leg.Verdict == coach.NotMeasured || f.Leg.Outcome != coach.Finished {
			continue
		}
		span := 0
		if age < thisWeek {
			span = 1
			w.Legs++
		} else {
			w.Before++
		}
		for k := range f.Leg.Checks {
			c := &f.Leg.Checks[k]
			if c.Weight == 0 || c.Verdict == coach.NotMeasured {
				continue
			}
			at := key{f.Maneuver, f.Standard, c.ID}
			if by[at] == nil {
				by[at] = &spans{}
				order = append(order, at)
			}
			by[at].take(span, c)
		}
	}
	for _, at := range order {
		s := by[at]
		m := Moved{Maneuver: at.maneuver, Standard: at.standard, Check: at.check, Label: s.label, Met: s.met[1],
			Of: len(s.scores[1]), MetThen: s.met[0], OfThen: len(s.scores[0])}
		if m.Of < leastLegs || m.OfThen < leastLegs {
			continue
		}
		m.Z = coach.Round(rankSum(s.scores[0], s.scores[1]), 2)
		switch {
		case m.Z >= clearly:
			w.Steadier = append(w.Steadier, m)
		case m.Z <= -clearly:
			w.Shakier = append(w.Shakier, m)
		case float64(m.Met) <= missedHalf*float64(m.Of):
			w.Still = append(w.Still, m)
		}
	}
	w.sort()
	return w
}

// sort puts what moved most, or is missed most, first.
func (w *Week) sort() {
	byZ := func(a, b Moved) int { return cmp.Compare(math.Abs(b.Z), math.Abs(a.Z)) }
	slices.SortStableFunc(w.Steadier, byZ)
	slices.SortStableFunc(w.Shakier, byZ)
	slices.SortStableFunc(w.Still, func(a, b Moved) int { return cmp.Compare(a.Met*b.Of, b.Met*a.Of) })
	w.Still = w.Still[:min(len(w.Still), mostStill)]
}

// spans are the scores of one check, before and this week.
type spans struct {
	label  string
	scores [2][]float64
	met    [2]int
}

func (s *spans) take(span int, c *coach.Check) {
	s.label = c.Label
	s.scores[span] = append(s.scores[span], c.Score)
	if c.Verdict == coach.Met {
		s.met[span]++
	}
}

// rankSum is the z of the rank-sum test: how far the second sample lies above the first, in standard deviations; 0 when
// all values are the same.
func rankSum(a, b []float64) float64 {
	all := slices.Concat(a, b)
	slices.Sort(all)
	na, nb, n := float64(len(a)), float64(len(b)), float64(len(all))
	rank := func(x float64) float64 { // the mean of those of equals
		low, _ := slices.BinarySearch(all, x)
		high := low
		for high < len(all) && all[high] == x {
			high++
		}
		return float64(low+high+1) / 2
	}
	sum, ties := 0.0, 0.0
	for _, x := range b {
		sum += rank(x)
	}
	for i := 0; i < len(all); {
		k := i
		for k < len(all) && all[k] == all[i] {
			k++
		}
		t := float64(k - i)
		ties += t*t*t - t
		i = k
	}
	variance := na * nb / 12 * (n + 1 - ties/(n*(n-1)))
	if variance <= 0 {
		return 0
	}
	off := sum - nb*(nb+1)/2 - na*nb/2
	return (off - math.Copysign(min(0.5, math.Abs(off)), off)) / math.Sqrt(variance)
}
