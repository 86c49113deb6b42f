package debrief

import (
	"math"

	"halfturn/coach"
	"halfturn/stream/phrase"
)

// A Summary is what all the series of a session show together.
type Summary struct {
	Legs     int           `json:"legs"`
	Finished int           `json:"finished"`
	Best     Best          `json:"best"`
	Symmetry []Sides       `json:"symmetry"` // checks whose mean differs from side to side
	Trend    []Progress    `json:"trend"`    // checks whose score moved most from the first leg to the last
	Cause    string        `json:"cause"`    // the most frequent, "" when there is none
	Times    int           `json:"times"`    // legs it was found in
	Change   phrase.Phrase `json:"change"`   // the one thing; nothing when there is none
}

// Best names the leg with the highest score; leg 0 when none was judged.
type Best struct {
	Series    int     `json:"series"` // from 1
	Leg       int     `json:"leg"`
	Direction string  `json:"direction"`
	Score     float64 `json:"score"`
}

// Sides compares the mean score of the legs to the right with that of those to the left.
type Sides struct {
	Maneuver string  `json:"maneuver"`
	Right    float64 `json:"right"`
	Left     float64 `json:"left"`
}

// Progress is how a check moved from the first finished leg of a maneuver to the last.
type Progress struct {
	Maneuver string  `json:"maneuver"`
	ID       string  `json:"id"`
	Label    string  `json:"label"`
	Unit     string  `json:"unit"`
	First    float64 `json:"first"`
	Last     float64 `json:"last"`
	Way      string  `json:"way"` // "better" or "worse"
}

// moved is how far a check's score must move to be progress, points.
const moved = 10.0

// Summarize sums up series; it returns nil when they hold no leg.
func Summarize(list []coach.Series) *Summary {
	s := &Summary{Best: Best{Score: -1}, Symmetry: []Sides{}, Trend: []Progress{}}
	first, last, order := map[string]*coach.Leg{}, map[string]*coach.Leg{}, []string{}
	times, say, causes := map[string]int{}, map[string]phrase.Phrase{}, []string{}
	for i := range list {
		for j := range list[i].Legs {
			l, m := &list[i].Legs[j], list[i].Maneuver
			s.Legs++
			if len(l.Causes) > 0 && !l.Causes[0].Minor {
				id := l.Causes[0].ID
				if times[id]++; times[id] == 1 {
					causes = append(causes, id)
				}
				say[id] = l.Change
			}
			if l.Outcome != coach.Finished {
				continue
			}
			s.Finished++
			if l.Verdict != coach.NotMeasured && l.Score > s.Best.Score {
				s.Best = Best{i + 1, l.Number, l.Direction, l.Score}
			}
			if first[m] == nil {
				first[m], order = l, append(order, m)
			}
			last[m] = l
		}
	}
	if s.Legs == 0 {
		return nil
	}
	if s.Best.Leg == 0 {
		s.Best.Score = 0
	}
	for _, id := range causes {
		if times[id] > s.Times {
			s.Cause, s.Times, s.Change = id, times[id], say[id]
		}
	}
	for i := 0; s.Change.IsZero() && i < len(list); i++ { // what only the legs together show
		s.Change = list[i].Change
	}
	for _, m := range order {
		s.Trend = append(s.Trend, progress(m, first[m], last[m])...)
		if x, ok := sides(m, list); ok {
			s.Symmetry = append(s.Symmetry, x)
		}
	}
	return s
}

// progress lists the checks whose score moved.
func progress(m string, a, b *coach.Leg) (list []Progress) {
	for i := range a.Checks {
		for j := range b.Checks {
			k, l := &a.Checks[i], &b.Checks[j]
			if k.ID != l.ID || k.Value == nil || l.Value == nil || k.Weight == 0 || math.Abs(k.Score-l.Score) < moved {
				continue
			}
			way := "better"
			if l.Score < k.Score {
				way = "worse"
			}
			list = append(list, Progress{m, k.ID, k.Label, k.Unit, *k.Value, *l.Value, way})
		}
	}
	return list
}

// sides compares the sides of a maneuver; ok is false when only one was finished and judged.
func sides(m string, list []coach.Series) (x Sides, ok bool) {
	var sum, n [2]float64
	for i := range list {
		for j := range list[i].Legs {
			l := &list[i].Legs[j]
			if list[i].Maneuver == m && l.Outcome == coach.Finished && l.Verdict != coach.NotMeasured {
				side := 0
				if l.Direction == "left" {
					side = 1
				}
				sum[side], n[side] = sum[side]+l.Score, n[side]+1
			}
		}
	}
	if n[0] == 0 || n[1] == 0 {
		return x, false
	}
	return Sides{m, math.Round(sum[0]/n[0]*10) / 10, math.Round(sum[1]/n[1]*10) / 10}, true
}
