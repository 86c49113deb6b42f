package judge

import (
	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/coach/score"
	"halfturn/stream/phrase"
)

// joinSeries opens a series unless the leg belongs to the open one.
func (j *Judge) joinSeries(l *flight) {
	card := j.opt.Plan.Card
	if j.series != nil && l.Start-j.ended > card.Series.Gap {
		j.closeSeries(false)
	}
	if j.series == nil {
		j.series = &coach.Series{
			Maneuver: card.Name,
			Standard: card.Standard,
			Aircraft: j.opt.Plan.Aircraft.Name,
			Legs:     []coach.Leg{},
		}
	}
	j.circle.ok = false
}

func (j *Judge) legNumber() int {
	if j.series == nil {
		return 1
	}
	return len(j.series.Legs) + 1
}

// addToSeries adds the leg, and closes the series when it is complete.
func (j *Judge) addToSeries(done *coach.Leg) {
	j.series.Legs = append(j.series.Legs, *done)
	if len(j.series.Finished()) >= j.opt.Plan.Card.MostLegs() {
		j.closeSeries(false)
	}
}

// closeSeries grades and reports the series. cut is true when something other than the pilot ended it: the stream, a
// choice, the end of the session.
func (j *Judge) closeSeries(cut bool) {
	s := j.series
	j.series = nil
	if s == nil || len(s.Legs) == 0 {
		return
	}
	note := phrase.Phrase{}
	if j.circle.reported >= s.Legs[0].Start-j.opt.Plan.Card.Series.Gap {
		note = coach.TooShallow(j.circle.side)
	}
	j.grade(s, cut, note)
	j.emit(s)
}

func (j *Judge) grade(s *coach.Series, cut bool, note phrase.Phrase) {
	score.Series(j.opt.Plan.Card, s, cut, note)
	if score.SeriesElsewhere(s) {
		return
	}
	if j.opt.Explain != nil {
		j.opt.Explain.ExplainSeries(j.opt.Plan, s)
	}
}

// Series returns the open series; nil when there is none.
func (j *Judge) Series() *coach.Series { return j.series }

// SetSeries replaces the open series; nil removes it.
func (j *Judge) SetSeries(s *coach.Series) { j.series = s }

// Regrade grades a closed series again after legs were removed from it. How it ended stays.
func (j *Judge) Regrade(s *coach.Series) {
	cut, note := false, phrase.Phrase{}
	for i := range s.Checks {
		if k := &s.Checks[i]; kinds.Named(k.Kind).Counts == check.Legs {
			cut, note = k.Verdict == coach.NotMeasured, k.Note
		}
	}
	j.grade(s, cut, note)
}
