// Package check holds the kinds of check a card can ask for, one file a kind. A judge sees
// the leg moment by moment, keeps a bounded amount of it, and says at the end what it
// measured. It is pure.
package check

import (
	"fmt"
	"math"

	"halfturn/coach/maneuver"
	"halfturn/stream"
)

// A Moment is the flight at one sample of a leg. Everything with a side (bank, ball, roll and
// yaw rate, sideslip, lateral load, aileron, rudder) is positive toward the turn, so that
// left and right legs are judged by the same numbers.
type Moment struct {
	Turn   float64 // ° since the entry heading, positive in the direction of the turn
	Sample stream.Sample
}

// Set makes m the moment of a sample in a turn to the right (side 1) or left (−1).
func (m *Moment) Set(s *stream.Sample, turn, side float64) {
	m.Turn = turn
	m.Sample = *s
	if side < 0 {
		m.Sample.Mirror()
	}
}

// Lerp makes m the moment a share f of the way from a to b.
func (m *Moment) Lerp(a, b *Moment, f float64) {
	m.Turn = a.Turn + f*(b.Turn-a.Turn)
	m.Sample.Lerp(&a.Sample, &b.Sample, f)
}

// Time returns the stream time of the moment in seconds.
func (m *Moment) Time() float64 { return m.Sample.Value(stream.Time) }

// Facts is what is known about a leg besides its moments.
type Facts struct {
	Aircraft maneuver.Aircraft // as it stands for this maneuver
	Known    bool              // an aircraft card was chosen
	Side     float64           // 1 is a turn to the right, −1 to the left
	Nose     float64           // °, highest nose above level pitch that the reference path needs; NaN when unknown
	Duration float64           // s, of the reference path; NaN when unknown
	Entry    Moment            // means over the set-up; Turn 0
	Setup    map[string]float64
}

// A Measure is what a judge found.
type Measure struct {
	OK     bool
	Value  float64
	At     float64 // the turn angle it belongs to, NaN when it has none
	Reason string  // why nothing was measured
	Note   string  // what more there is to say of it, "" for nothing
}

func none(reason string, args ...any) Measure {
	return Measure{At: math.NaN(), Reason: fmt.Sprintf(reason, args...)}
}

func value(v, at float64) Measure { return Measure{OK: true, Value: v, At: at} }

// A Judge measures one thing over a leg. Step is called for every moment from the entry on,
// without allocating; Measure may be called at any time and judges what was seen so far.
// exit is nil while the leg is being flown and for a leg that never came to its end.
type Judge interface {
	Step(m *Moment)
	Measure(exit *Moment) Measure
}

// New makes the judge for a check of a leg; nil for a check of a kind that judges a series.
func New(spec *maneuver.Check, f *Facts) Judge {
	switch spec.Kind {
	case "set-up":
		return &setUp{spec: spec, facts: f}
	case "value":
		return newValueAt(spec, f)
	case "extreme":
		return &extreme{span: newSpan(spec, f), sign: sign(spec)}
	case "extreme-angle":
		return &extremeAngle{binned: newBinned(spec, f), sign: sign(spec), within: spec.Within}
	case "crossing-angle":
		return &crossingAngle{binned: newBinned(spec, f), cross: spec.Cross, falling: spec.Falling}
	case "roll-out-angle":
		return newRollOutAngle(spec, f)
	case "roll-ratio":
		return newRollRatio(f)
	case "change":
		return &change{get: getter(spec.Channel, f), name: spec.Channel, facts: f}
	case "departure":
		return &departure{span: newSpan(wholeLeg(spec), f), entry: &f.Entry}
	case "mean":
		return &mean{span: newSpan(spec, f)}
	case "rms":
		return &rms{span: newSpan(spec, f)}
	case "share":
		return &share{span: newSpan(spec, f), within: spec.Within}
	case "reversal":
		return &reversal{binned: newBinned(spec, f)}
	case "rise":
		return &rise{binned: newBinned(spec, f)}
	case "pace":
		return newPace(f)
	case "smoothness":
		return newSmoothness(spec, f)
	case "rhythm":
		return newRhythm(spec, f)
	case "ball-centered":
		return newBallCentered(spec, f)
	}
	return nil
}

func sign(spec *maneuver.Check) float64 {
	if spec.Extreme == "lowest" {
		return -1
	}
	return 1
}

func withChannel(spec *maneuver.Check, name string) *maneuver.Check {
	c := *spec
	c.Channel = name
	return &c
}

// wholeLeg opens the span of a check that may leave it out.
func wholeLeg(spec *maneuver.Check) *maneuver.Check {
	c := *spec
	if c.From == nil {
		from, to := 0.0, 1e4
		c.From, c.To = &from, &to
	}
	return &c
}
