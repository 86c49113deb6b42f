package judge

import (
	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/plan"
	"halfturn/coach/track"
)

// told presents a leg to package talk.
type told struct {
	j *Judge
	l *flight
}

func (t told) Moment() *check.Moment { return t.l.Cur }

func (t told) Entry() *check.Moment { return &t.l.Facts.Entry }

func (t told) Side() float64 { return t.l.Side }

func (t told) Rates() *track.Rates {
	w, _ := t.j.track.Past.Rates(t.j.track.Now - rateOver)
	return w
}

func (t told) Until(turn float64) (s float64, ok bool) { return t.j.until(t.l, turn) }

func (t told) Pivotal(turn float64) (ft float64, ok bool) { return t.j.pivotalAt(t.l, turn) }

func (t told) Expected() plan.Choice { return t.l.Expected() }

func (t told) Exiting() bool { return t.l.Exiting() }

func (t told) SoFar(check int) coach.Check { return t.l.SoFar(check) }
