package debrief

import (
	"math"
	"strings"

	"halfturn/coach"
	"halfturn/coach/wording"
	"halfturn/stream/phrase"
)

// A Difference is one thing in which a second grading differs from the first.
type Difference struct {
	Station string `json:"station"`
	Leg     int    `json:"leg"` // in the station's stream, from 1, as graded now; as graded before when it is gone
	// What differs: "leg", "maneuver", "standard", "outcome", "verdict", "score", "grade", or the id of a check.
	What   string        `json:"what"`
	Label  phrase.Phrase `json:"label"` // as read by people
	Was    phrase.Phrase `json:"was"`
	Is     phrase.Phrase `json:"is"`
	Turned bool          `json:"turned,omitempty"` // a verdict or grade changed, not only a number
}

// Words describes it as "leg 2, bank at 90°: near, was met".
func (d *Difference) Words() phrase.Phrase {
	return phrase.Differs.Of(phrase.Int("leg", d.Leg), phrase.Part("label", d.Label),
		phrase.Part("is", d.After()), phrase.Part("was", d.Before()))
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
		c.note("leg", phrase.TheLeg.Of(), phrase.NotFound.Of(), phrase.Found.Of(), true)
	}
	for i, old := range was {
		if c.leg = i + 1; !old.taken {
			c.note("leg", phrase.TheLeg.Of(), phrase.Found.Of(), phrase.NotFound.Of(), true)
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

func (c *comparison) note(what string, label, was, is phrase.Phrase, turned bool) {
	if !was.Equal(is) {
		c.list = append(c.list, Difference{c.station, c.leg, what, label, was, is, turned})
	}
}

func (c *comparison) pair(was, is *gradedLeg) {
	name := phrase.Plain
	c.note("maneuver", phrase.TheManeuver.Of(), name(was.series.Maneuver), name(is.series.Maneuver), true)
	c.note("standard", phrase.TheStandard.Of(), name(was.series.Standard), name(is.series.Standard), false)
	c.note("outcome", phrase.TheOutcome.Of(), InWords(was.Outcome), InWords(is.Outcome), true)
	c.note("verdict", phrase.TheVerdict.Of(), InWords(was.Verdict), InWords(is.Verdict), true)
	c.note("score", phrase.TheScore.Of(), scoreOf(was.Leg), scoreOf(is.Leg), false)
	c.note("grade", phrase.TheGrade.Of(), InWords(was.Grade), InWords(is.Grade), true)
	before := map[string]*coach.Check{}
	for i := range was.Checks {
		before[was.Checks[i].ID] = &was.Checks[i]
	}
	for i := range is.Checks {
		k := &is.Checks[i]
		old := before[k.ID]
		delete(before, k.ID)
		if old == nil {
			c.note(k.ID, phrase.Plain(k.Label), phrase.NotJudged.Of(), judged(k), true)
			continue
		}
		c.note(k.ID, phrase.Plain(k.Label), judged(old), judged(k), old.Verdict != k.Verdict)
	}
	for i := range was.Checks {
		if k := &was.Checks[i]; before[k.ID] != nil {
			c.note(k.ID, phrase.Plain(k.Label), judged(k), phrase.NotJudged.Of(), true)
		}
	}
}

// scoreOf is the score of a leg; nothing where nothing was measured.
func scoreOf(l *coach.Leg) phrase.Phrase {
	if l.Verdict == coach.NotMeasured {
		return phrase.Phrase{}
	}
	return phrase.Exactly.Of(phrase.Number("value", l.Score, 0, ""))
}

// judged is a check in a few words: value, what is wanted, verdict.
func judged(k *coach.Check) phrase.Phrase {
	verdict, wanted := InWords(k.Verdict), wording.Band(k)
	open := k.Met[0] == nil && k.Met[1] == nil
	switch {
	case k.Value == nil && open:
		return phrase.NoValue.Of(phrase.Part("verdict", verdict))
	case k.Value == nil:
		return phrase.NoValueIn.Of(phrase.Part("verdict", verdict), phrase.Part("wanted", wanted))
	}
	unit, digits := strings.TrimSpace(wording.Unit(k.Unit)), wording.DigitsOfValue(k)
	if open {
		return phrase.JudgedAs.Of(phrase.Part("verdict", verdict), phrase.Number("value", *k.Value, digits, unit))
	}
	return phrase.JudgedIn.Of(phrase.Part("verdict", verdict), phrase.Number("value", *k.Value, digits, unit),
		phrase.Part("wanted", wanted))
}

// InWords is an outcome, a verdict or a grade as read by people; nothing for "".
func InWords(of string) phrase.Phrase {
	for _, w := range [...]struct {
		of string
		is *phrase.Definition
	}{
		{coach.Finished, phrase.IsFinished},
		{coach.BrokenOff, phrase.IsBrokenOff},
		{coach.KnockOff, phrase.IsKnockOff},
		{coach.Met, phrase.IsMet},
		{coach.Near, phrase.IsNear},
		{coach.Missed, phrase.IsMissed},
		{coach.NotMeasured, phrase.IsNotMeasured},
		{coach.Unable, phrase.IsUnable},
		{coach.Fair, phrase.IsFair},
		{coach.Good, phrase.IsGood},
		{coach.Excellent, phrase.IsExcellent},
	} {
		if w.of == of {
			return w.is.Of()
		}
	}
	return phrase.Plain(of)
}

// Before is what the first grading says, "none" where it says nothing.
func (d *Difference) Before() phrase.Phrase { return orNone(d.Was) }

// After is what the second grading says, "none" where it says nothing.
func (d *Difference) After() phrase.Phrase { return orNone(d.Is) }

func orNone(p phrase.Phrase) phrase.Phrase {
	if p.IsZero() {
		return phrase.NoneThere.Of()
	}
	return p
}
