package kinds_test

import (
	"math"
	"strings"
	"testing"

	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/stream"
)

// A signal gives a channel by the turn angle.
type signal func(turn float64) float64

// A flight is a leg at 6° of turn a second, so that every measure can be worked out by hand.
type flight struct {
	signals map[stream.Channel]signal
	rate    float64 // samples a second; 0 is 50
	end     float64 // turn of the last sample; 0 is 180
	left    bool
	noExit  bool
	facts   check.Facts

	recovery float64 // s after the exit, with the signals going on
}

const (
	pace  = 6.0 // °/s
	begin = 100 // s of stream time at the entry
)

func (f *flight) to() float64 {
	if f.end == 0 {
		return 180
	}
	return f.end
}

// moments are the samples of the leg, the last exactly at its end, and of the recovery after it for a check that looks
// there. A flight to the left carries the signals of the channels with a side the other way round, as its stream does.
func (f *flight) moments(spec *check.Spec) []check.Moment {
	rate := f.rate
	if rate == 0 {
		rate = 50
	}
	n := int(math.Round(f.to() / pace * rate))
	m := make([]check.Moment, n+1)
	for i := range m {
		turn := f.to() * float64(i) / float64(n)
		m[i] = f.moment(turn)
	}
	if kinds.Of(spec).Looks == check.AfterExit {
		for out := 1 / rate; out <= f.recovery+1e-9; out += 1 / rate {
			m = append(m, f.moment(f.to()+out*pace))
			m[len(m)-1].Out = out
		}
	}
	return m
}

func (f *flight) moment(turn float64) (m check.Moment) {
	var s stream.Sample
	s.Put(stream.Time, begin+turn/pace)
	for c, v := range f.signals {
		s.Put(c, v(turn))
	}
	side := 1.0
	if f.left {
		side = -1
		for _, c := range []stream.Channel{stream.Bank, stream.Ball, stream.RollRate, stream.YawRate,
			stream.Sideslip, stream.LateralLoad, stream.Aileron, stream.Rudder} {
			s.Negate(c)
		}
	}
	m.Set(&s, turn, side)
	return m
}

// known completes the facts of the leg.
func (f *flight) known() *check.Facts {
	facts := f.facts
	facts.Entry = f.moment(0)
	return &facts
}

// measure judges the flight.
func (f *flight) measure(spec *check.Spec) check.Measure {
	j := kinds.NewJudge(spec, f.known())
	m := f.moments(spec)
	for i := range m {
		j.Step(&m[i])
	}
	if f.noExit {
		return j.Measure(nil)
	}
	return j.Measure(&m[len(m)-1])
}

func one(c stream.Channel, v signal) map[stream.Channel]signal {
	return map[stream.Channel]signal{c: v}
}

func constant(v float64) signal { return func(float64) float64 { return v } }

// line rises by slope a degree from v at 0°.
func line(v, slope float64) signal { return func(turn float64) float64 { return v + slope*turn } }

// corners goes straight from corner to corner, given as turn, value, turn, value ...
func corners(at ...float64) signal {
	return func(turn float64) float64 {
		for i := 2; i < len(at); i += 2 {
			if turn <= at[i] {
				return at[i-1] + (at[i+1]-at[i-1])*(turn-at[i-2])/(at[i]-at[i-2])
			}
		}
		return at[len(at)-1]
	}
}

func ptr(x float64) *float64 { return &x }

// over is a check of a channel over a span.
func over(kind, channel string, from, to float64) *check.Spec {
	return &check.Spec{Kind: kind, Channel: channel, From: ptr(from), To: ptr(to)}
}

// at is a check of the value at a turn angle.
func at(channel string, turn float64) *check.Spec {
	return &check.Spec{Kind: "value", Channel: channel, Turn: ptr(turn)}
}

// with changes a check.
func with(k *check.Spec, change func(k *check.Spec)) *check.Spec {
	change(k)
	return k
}

func highest(k *check.Spec) { k.Extreme = "highest" }
func lowest(k *check.Spec)  { k.Extreme = "lowest" }

// A row is a flight, a check of it, and what the check must give.
type row struct {
	name   string
	check  *check.Spec
	flight flight
	want   float64
	within float64 // 0 is exact but for rounding
	at     float64 // turn it belongs to, NaN for none
	atNear float64 // how near; 0 is half a degree
	reason string  // part of why nothing is measured
}

func (r *row) run(t *testing.T) {
	t.Run(r.name, func(t *testing.T) {
		got := r.flight.measure(r.check)
		if r.reason != "" {
			if got.OK || !strings.Contains(got.Reason.String(), r.reason) || !math.IsNaN(got.At) {
				t.Fatalf("got %+v, want nothing measured: %s", got, r.reason)
			}
			return
		}
		if !got.OK || !(math.Abs(got.Value-r.want) <= max(r.within, 1e-9)) {
			t.Fatalf("got %+v, want %g within %g", got, r.want, r.within)
		}
		near := r.atNear
		if near == 0 {
			near = 0.5
		}
		if math.IsNaN(got.At) != math.IsNaN(r.at) || math.Abs(got.At-r.at) > near {
			t.Errorf("at %g°, want %g° within %g°", got.At, r.at, near)
		}
	})
}

var none = math.NaN()
