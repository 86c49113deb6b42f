package logbook

import (
	"cmp"
	"slices"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
)

// Take adds the next session: head is its run of good legs from the first on, tail the run up to its last,
// best the longest run in it. Of runs of equal length the latest counts.
func (s *Streak) Take(id string, finished, head, tail, best int) {
	if in := s.Now + head; head > 0 && in >= s.Best {
		s.Best, s.Session = in, id
	}
	if best > 0 && best >= s.Best {
		s.Best, s.Session = best, id
	}
	if head == finished {
		s.Now += head
		return
	}
	s.Now = tail
}

// A MeasuredSession holds the checks of one maneuver in a session.
type MeasuredSession struct {
	ID     string
	Began  string // RFC 3339
	Checks []CheckSum
}

// TrendChecks joins the checks of sessions, which come oldest first. Label, aim and bands are those of the
// latest that has the check.
func TrendChecks(sessions []MeasuredSession) []TrendCheck {
	by := map[string]*CheckSum{}
	var all []*CheckSum
	for i := range sessions {
		list := sessions[i].Checks
		for j := range list {
			k := &list[j]
			points := k.Points
			if len(points) > 0 {
				points[0].Session, points[0].Began = sessions[i].ID, sessions[i].Began
				points[0].Judged = Judged{k.Aim, k.Met, k.Near}
			}
			if was := by[k.ID]; was != nil {
				k.Points = append(was.Points, points...)
				*was = *k
				continue
			}
			by[k.ID], all = k, append(all, k)
		}
	}
	slices.SortFunc(all, func(a, b *CheckSum) int {
		return cmp.Or(cmp.Compare(a.Turn, b.Turn), cmp.Compare(a.N, b.N), cmp.Compare(a.ID, b.ID))
	})
	checks := make([]TrendCheck, len(all))
	for i, k := range all {
		checks[i] = k.TrendCheck
	}
	return checks
}

// A CheckSum is a check over the legs of one session: at most one point, without session and date.
type CheckSum struct {
	TrendCheck
	Turn float64 `json:"turn"` // where it stands in the order
	N    int     `json:"n"`
}

// wholeTurn sorts checks over a whole leg behind all turn angles.
const wholeTurn = 1000

// gathering is the checks of the finished legs of one maneuver, as they come.
type gathering map[string]*gathered

type gathered struct {
	CheckSum
	values []float64
	met    int
}

// take adds the checks of a leg. Label, aim and bands are those of the last.
func (g gathering) take(checks []coach.Check) {
	for n := range checks {
		k := &checks[n]
		c := g[k.ID]
		if c == nil {
			c = &gathered{}
			g[k.ID] = c
		}
		c.TrendCheck, c.N = TrendCheck{ID: k.ID, Label: k.Label, Unit: k.Unit, Aim: k.Aim, Met: k.Met, Near: k.Near,
			Points: []TrendPoint{}}, n
		switch {
		case k.Turn != nil:
			c.Turn = *k.Turn
		case kinds.Named(k.Kind).Looks == check.BeforeTurn:
			c.Turn = -1
		default:
			c.Turn = wholeTurn
		}
		if k.Value != nil && k.Verdict != coach.NotMeasured {
			c.values = append(c.values, *k.Value)
			if k.Verdict == coach.Met {
				c.met++
			}
		}
	}
}

// sum makes the point of each check.
func (g gathering) sum() []CheckSum {
	list := make([]CheckSum, 0, len(g))
	for _, c := range g {
		if v := c.values; len(v) > 0 {
			slices.Sort(v)
			c.Points = append(c.Points, TrendPoint{Legs: len(v), Met: c.met, Low: v[0], Q1: quantile(v, 0.25),
				Median: quantile(v, 0.5), Q3: quantile(v, 0.75), High: v[len(v)-1]})
		}
		list = append(list, c.CheckSum)
	}
	slices.SortFunc(list, func(a, b CheckSum) int { return cmp.Compare(a.N, b.N) })
	return list
}

// quantile of sorted values, linear between order statistics: definition 7 of Hyndman and Fan,
// "Sample Quantiles in Statistical Packages", The American Statistician 50 (1996).
func quantile(sorted []float64, q float64) float64 {
	at := q * float64(len(sorted)-1)
	i := int(at)
	if i+1 == len(sorted) {
		return sorted[i]
	}
	return sorted[i] + (at-float64(i))*(sorted[i+1]-sorted[i])
}
