package sampling

import (
	"math"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/maneuver"
	"halfturn/stream"
)

func moment(time, turn, bank float64) *check.Moment {
	m := &check.Moment{Turn: turn}
	m.Sample.Put(stream.Time, time)
	m.Sample.Put(stream.Bank, bank)
	return m
}

// follow runs a turn of 4°/s through s, sampled at an interval (s) but for a gap between two turn angles.
func follow(s *Sampling, interval, gapFrom, gapTo float64, bank func(turn float64) float64) {
	prev := moment(0, 0, bank(0))
	for i := 1; float64(i)*interval*4 <= 180; i++ {
		now := float64(i) * interval
		if turn := 4 * now; turn <= gapFrom || turn >= gapTo {
			cur := moment(now, turn, bank(turn))
			s.Add(prev, cur)
			prev = cur
		}
	}
}

var (
	at90 = check.Spec{ID: "at", Kind: "value", Channel: "bank", Turn: new(90.0)}
	over = check.Spec{ID: "over", Kind: "extreme", Channel: "bank", From: new(80.0), To: new(120.0),
		Extreme: "highest"}
	average = check.Spec{ID: "average", Kind: "mean", Channel: "bank", From: new(80.0), To: new(120.0)}
	card    = maneuver.Card{Checks: []check.Spec{at90, over, average}}
)

// A hole hides what has to look into it, and nothing else. An average tolerates it.
func TestHidden(t *testing.T) {
	for _, c := range []struct {
		name     string
		interval float64
		from, to float64
		hidden   string
	}{
		{"no hole", 0.05, 0, 0, ""},
		{"before all of it", 0.05, 40, 60, ""},
		{"at the place", 0.05, 86, 97, "at over"},
		{"in the span alone", 0.05, 100, 111, "over"},
		{"too short for one", 0.05, 88, 91, ""},
		{"one sample per second all along", 1, 0, 0, ""},
	} {
		var s Sampling
		s.Begin(&card, &check.Facts{})
		follow(&s, c.interval, c.from, c.to, func(float64) float64 { return 45 })
		var hidden []string
		for i := range card.Checks {
			if m, ok := s.Hidden(&card.Checks[i], nil); ok {
				hidden = append(hidden, card.Checks[i].ID)
				if m.OK || m.Reason.IsZero() || !math.IsNaN(m.At) {
					t.Errorf("%s: the measure is %+v", c.name, m)
				}
			}
		}
		if got := strings.Join(hidden, " "); got != c.hidden {
			t.Errorf("%s hides %q, not %q", c.name, got, c.hidden)
		}
	}
	var s Sampling
	s.Begin(&card, &check.Facts{})
	s.Cut(70)
	if m, ok := s.Hidden(&at90, nil); !ok || m.Reason.String() != "the turn was followed to 70° only" {
		t.Errorf("after a turn that was cut: %v, %+v", ok, m)
	}
}

// Holes past the size of the list widen the last one.
func TestManyHoles(t *testing.T) {
	var h holes
	for i := range 100 {
		h.add(moment(float64(2*i), float64(i), 0), moment(float64(2*i)+1.5, float64(i)+0.5, 0), 0.05)
	}
	if n := len(h.list); n != mostHoles || h.list[n-1].to != 99.5 {
		t.Errorf("%d holes, the last to %g°", n, h.list[n-1].to)
	}
	if _, ok := h.over(60.2, 60.3); !ok {
		t.Error("a hole that had no room is forgotten")
	}
}

// The uncertainty holds what the check could read: bank swings by 10° in a sine of 60° of turn, 15 s, and sampled at
// intervals the value at 90° read from a straight line is off by no more than that.
func TestDoubtHoldsTheTruth(t *testing.T) {
	swing := func(turn float64) float64 { return 40 + 10*math.Sin(turn*math.Pi/30) }
	for _, interval := range []float64{0.1, 0.2, 0.5, 1} {
		var s Sampling
		s.Begin(&card, &check.Facts{})
		follow(&s, interval, 0, 0, swing)
		step := 4 * interval
		below := math.Floor(90/step) * step
		f := (90 - below) / step
		read := swing(below)*(1-f) + swing(below+step)*f
		edge := read + check.Rounding("°") - 0.001 // what rounds to it counts as well
		k := coach.Check{Kind: "value", Value: &read, Verdict: coach.Met, Met: [2]*float64{&edge, nil}}
		s.Doubt(0, &k)
		if k.Uncertainty == nil || math.Abs(read-swing(90)) > *k.Uncertainty {
			t.Errorf("every %g s: off by %.2f°, uncertain by %v", interval, read-swing(90), k.Uncertainty)
			continue
		}
		if k.Doubt == "" {
			t.Errorf("every %g s: uncertain by %g° at the edge of a band, and nothing said", interval, *k.Uncertainty)
		}
	}
	var s Sampling
	s.Begin(&card, &check.Facts{})
	follow(&s, 0.03, 0, 0, swing)
	k := coach.Check{Kind: "value", Value: new(40.0)}
	if s.Doubt(0, &k); k.Uncertainty != nil {
		t.Errorf("a fine stream is uncertain by %g°", *k.Uncertainty)
	}
}
