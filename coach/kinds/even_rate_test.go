package kinds_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"halfturn/stream"
)

func TestEvenRate(t *testing.T) {
	bank := func(at ...float64) flight { return flight{signals: one(stream.Bank, corners(at...))} }
	for _, r := range []row{
		{
			name:   "one rate",
			check:  over("even-rate", "bank", 90, 180),
			flight: bank(0, 0, 30, 30, 90, 30, 180, 0),
			within: 0.5, // the corner at 90° is evened over the degrees beside
			at:     92,
			atNear: 88,
		},
		{
			// The line from 30° at 90° of turn to level at 180° stands at 10° where the bank still is 30°.
			name:   "held, then in a hurry",
			check:  over("even-rate", "bank", 90, 180),
			flight: bank(0, 30, 150, 30, 180, 0),
			want:   20,
			within: 0.7,
			at:     150,
			atNear: 3,
		},
		{
			// At 120° of turn the line stands at 20°, the bank at 5°.
			name:   "off at once, then waiting",
			check:  over("even-rate", "bank", 90, 180),
			flight: bank(0, 30, 90, 30, 120, 5, 180, 0),
			want:   -15,
			within: 0.5,
			at:     120,
			atNear: 3,
		},
		{
			name:   "no exit",
			check:  over("even-rate", "bank", 90, 180),
			flight: flight{signals: one(stream.Bank, constant(30)), noExit: true},
			reason: "no exit",
		},
		{name: "no channel", check: over("even-rate", "bank", 90, 180), reason: "no bank"},
	} {
		r.run(t)
	}
}

// A straight line departs from no straight line, and turned upside down the departure changes its sign only.
func TestEvenRateLaws(t *testing.T) {
	rnd := rand.New(rand.NewPCG(11, 12))
	for range 50 {
		v, slope, bump := rnd.Float64()*60, rnd.Float64()-0.5, rnd.Float64()*20-10
		straight := flight{signals: one(stream.Bank, line(v, slope)), rate: 20}
		// Times are kept in single precision.
		if got := straight.measure(over("even-rate", "bank", 90, 180)); math.Abs(got.Value) > 1e-4 {
			t.Fatalf("a straight line from %g by %g a degree: %+v", v, slope, got)
		}
		bent := func(sign float64) flight {
			return flight{rate: 20, signals: one(stream.Bank, func(turn float64) float64 {
				return sign * (v + slope*turn + corners(0, 0, 90, 0, 135, bump, 180, 0)(turn))
			})}
		}
		up, down := bent(1), bent(-1)
		a, b := up.measure(over("even-rate", "bank", 90, 180)), down.measure(over("even-rate", "bank", 90, 180))
		if math.Abs(a.Value+b.Value) > 1e-9 || math.Abs(a.Value-bump) > 0.5 {
			t.Fatalf("a bump of %g°: %+v, upside down %+v", bump, a, b)
		}
	}
}
