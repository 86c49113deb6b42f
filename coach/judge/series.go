package judge

import (
	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/coach/score"
	"halfturn/stream/phrase"
)

// joinSeries opens a series when the leg belongs to none.
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

// addToSeries takes the leg in and closes the series when it is complete.
func (j *Judge) addToSeries(done *coach.Leg) {
	j.series.Legs = append(j.series.Legs, *done)
	if len(j.series.Finished()) >= j.opt.Plan.Card.Series.Legs {
		j.closeSeries(false)
	}
}

// closeSeries grades the series and reports it. cut is true where something other than the pilot ended it: the stream,
// a choice, the end of the session.
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
	if j.opt.Explain != nil {
		j.opt.Explain.ExplainSeries(j.opt.Plan, s)
	}
}

// Series returns the series under way; nil when there is none.
func (j *Judge) Series() *coach.Series { return j.series }

// SetSeries makes a series the one under way; nil for none.
func (j *Judge) SetSeries(s *coach.Series) { j.series = s }

// Regrade grades a closed series again after legs were taken out of it. It counts as ended the way it was.
func (j *Judge) Regrade(s *coach.Series) {
	cut, note := false, phrase.Phrase{}
	for i := range s.Checks {
		if k := &s.Checks[i]; kinds.Named(k.Kind).Counts == check.Legs {
			cut, note = k.Verdict == coach.NotMeasured, k.Note
		}
	}
	j.grade(s, cut, note)
}
