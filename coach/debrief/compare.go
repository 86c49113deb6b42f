package debrief

import (
	"fmt"
	"math"
	"strings"

	"halfturn/coach"
	"halfturn/coach/wording"
)

// A Difference is one thing in which a second grading differs from the first.
type Difference struct {
	Station string `json:"station"`
	Leg     int    `json:"leg"` // in the station's stream, from 1, as graded now; as graded before when it is gone
	// What differs: "leg", "maneuver", "standard", "outcome", "verdict", "score", "grade", or the id of a check.
	What   string `json:"what"`
	Label  string `json:"label"` // as read by people
	Was    string `json:"was"`
	Is     string `json:"is"`
	Turned bool   `json:"turned,omitempty"` // a verdict or grade changed, not only a number
}

// Words describes it as "leg 2, bank at 90°: near, was met".
func (d *Difference) Words() string {
	return fmt.Sprintf("leg %d, %s: %s, was %s", d.Leg, d.Label, d.After(), d.Before())
}

// A gradedLeg is a leg with the series it counts for.
type gradedLeg struct {
	*coach.Leg
	series *coach.Series
	taken  bool
}

func legsOf(s *StationReport) []*gradedLeg {
	var all []*gradedLeg
	for i := range s.Series {
		for j := range s.Series[i].Legs {
			all = append(all, &gradedLeg{Leg: &s.Series[i].Legs[j], series: &s.Series[i]})
		}
	}
	return all
}

// Compare lists in what a second grading of the same stations differs from the first. Legs are paired by the time at
// which they were flown, stations by their order.
func Compare(was, is []StationReport) []Difference {
	list := []Difference{}
	for i := range max(len(was), len(is)) {
		var old, now StationReport
		if i < len(was) {
			old = was[i]
		}
		if i < len(is) {
			now = is[i]
		}
		c := comparison{station: now.Station}
		if i >= len(is) {
			c.station = old.Station
		}
		c.legs(legsOf(&old), legsOf(&now))
		list = append(list, c.list...)
	}
	return list
}

type comparison struct {
	station string
	leg     int
	list    []Difference
}

func (c *comparison) legs(was, is []*gradedLeg) {
	for i, now := range is {
		c.leg = i + 1
		if old := overlapping(was, now); old != nil {
			old.taken = true
			c.pair(old, now)
			continue
		}
		c.note("leg", "leg", "not found", "found", true)
	}
	for i, old := range was {
		if c.leg = i + 1; !old.taken {
			c.note("leg", "leg", "found", "not found", true)
		}
	}
}

// overlapping finds the leg that shares most of its time with another.
func overlapping(list []*gradedLeg, l *gradedLeg) (best *gradedLeg) {
	most := 0.0
	for _, o := range list {
		if shared := math.Min(o.End, l.End) - math.Max(o.Start, l.Start); !o.taken && shared > most {
			most, best = shared, o
		}
	}
	return best
}

func (c *comparison) note(what, label, was, is string, turned bool) {
	if was != is {
		c.list = append(c.list, Difference{c.station, c.leg, what, label, was, is, turned})
	}
}

func (c *comparison) pair(was, is *gradedLeg) {
	c.note("maneuver", "maneuver", was.series.Maneuver, is.series.Maneuver, true)
	c.note("standard", "standard", was.series.Standard, is.series.Standard, false)
	c.note("outcome", "outcome", was.Outcome, is.Outcome, true)
	c.note("verdict", "verdict", was.Verdict, is.Verdict, true)
	c.note("score", "score", scoreOf(was.Leg), scoreOf(is.Leg), false)
	c.note("grade", "grade", was.Grade, is.Grade, true)
	before := map[string]*coach.Check{}
	for i := range was.Checks {
		before[was.Checks[i].ID] = &was.Checks[i]
	}
	for i := range is.Checks {
		k := &is.Checks[i]
		old := before[k.ID]
		delete(before, k.ID)
		if old == nil {
			c.note(k.ID, k.Label, "not judged", judged(k), true)
			continue
		}
		c.note(k.ID, k.Label, judged(old), judged(k), old.Verdict != k.Verdict)
	}
	for i := range was.Checks {
		if k := &was.Checks[i]; before[k.ID] != nil {
			c.note(k.ID, k.Label, judged(k), "not judged", true)
		}
	}
}

// scoreOf is the score of a leg, "" where nothing was measured.
func scoreOf(l *coach.Leg) string {
	if l.Verdict == coach.NotMeasured {
		return ""
	}
	return fmt.Sprintf("%.0f", l.Score)
}

// judged is a check in a few words: value, what is wanted, verdict.
func judged(k *coach.Check) string {
	value := "no value"
	if k.Value != nil {
		value = fmt.Sprintf("%.*f%s", wording.Digits(*k.Value), *k.Value, wording.Unit(k.Unit))
	}
	verdict := strings.ReplaceAll(k.Verdict, "-", " ")
	if k.Met[0] == nil && k.Met[1] == nil {
		return fmt.Sprintf("%s, %s", verdict, value)
	}
	return fmt.Sprintf("%s, %s (%s)", verdict, value, wording.Wanted(k))
}

// Before is what the first grading says, "none" where it says nothing.
func (d *Difference) Before() string { return orNone(d.Was) }

// After is what the second grading says, "none" where it says nothing.
func (d *Difference) After() string { return orNone(d.Is) }

func orNone(s string) string {
	if s == "" {
		return "none"
	}
	return s
}
