package coach

import (
	"fmt"
	"math"

	"halfturn/coach/check"
	"halfturn/stream"
)

// coarse is the interval between samples from which on a measure is given its uncertainty, s.
// Below it, what can happen between two samples is smaller than any band on a card.
const coarse = 0.08

// fineness is how finely a leg was sampled.
type fineness struct {
	n, time  float64
	turn     float64                     // °, the widest step
	last     stream.Sample               // the one before the last two
	bend     [stream.NumChannels]float64 // the largest second difference of each channel
	measured stream.Set
}

// add takes the next moment.
func (f *fineness) add(prev, cur *check.Moment) {
	dt := cur.Time() - prev.Time()
	if dt <= 0 {
		return
	}
	f.n++
	f.time += dt
	if f.time < coarse*f.n/2 {
		return // fine: what follows is never asked for
	}
	f.turn = math.Max(f.turn, cur.Turn-prev.Turn)
	for c := stream.Pitch; c <= stream.YawRate; c++ {
		if f.n > 2 && cur.Sample.Has.Has(c) && !c.Info().Circular {
			f.bend[c] = math.Max(f.bend[c], math.Abs(cur.Sample.Value(c)-2*prev.Sample.Value(c)+f.last.Value(c)))
			f.measured = f.measured.With(c)
		}
	}
	f.last = prev.Sample
}

// interval is the mean time between samples, s.
func (f *fineness) interval() float64 { return f.time / math.Max(f.n, 1) }

// doubt gives the checks of a coarsely sampled leg their uncertainty, and says where it reaches
// over the edge of a band. Between two samples a curve leaves their straight line by at most an
// eighth of its second difference; a turn angle is uncertain by half a step.
func (f *fineness) doubt(checks []Check) {
	if f.n == 0 || f.interval() < coarse {
		return
	}
	for i := range checks {
		k := &checks[i]
		if k.Value == nil {
			continue
		}
		u := 0.0
		switch k.Kind {
		case "value", "extreme", "change", "departure", "reversal", "rise":
			c, ok := stream.ChannelNamed(k.Channel)
			if !ok || !f.measured.Has(c) {
				continue
			}
			u = f.bend[c] / 8
		case "extreme-angle", "crossing-angle", "roll-out-angle":
			u = f.turn / 2
		default:
			continue
		}
		k.Uncertainty = ptr(round(u, 2))
		if other := k.other(u); other != "" {
			k.Doubt = fmt.Sprintf("at %.0f samples a second it could be %s", 1/f.interval(), other)
		}
	}
}

// other returns the verdict that the value would have at one end of its uncertainty, "" when
// it is the same at both.
func (k *Check) other(u float64) string {
	within := func(x float64, band [2]*float64) bool {
		return (band[0] == nil || x >= *band[0]) && (band[1] == nil || x <= *band[1])
	}
	for _, x := range []float64{*k.Value - u, *k.Value + u} {
		v := Missed
		if within(x, k.Met) {
			v = Met
		} else if within(x, k.Near) {
			v = Near
		}
		if v != k.Verdict && k.Verdict != NotMeasured {
			return v
		}
	}
	return ""
}
