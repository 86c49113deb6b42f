package kinds_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"halfturn/stream"
)

func TestRollOutAngle(t *testing.T) {
	// 6° of turn a second: bank over time is made of the same straight lines as over turn.
	for _, r := range []row{
		{name: "held, then out by one degree per degree", check: over("roll-out-angle", "", 60, 180),
			flight: flight{
				signals: one(stream.Bank, corners(0, 0, 60, 60, 120, 60, 180, 0)),
			}, want: 120, within: 1, at: 120, atNear: 1},
		{name: "held, then out slowly", check: over("roll-out-angle", "", 60, 180),
			flight: flight{
				signals: one(stream.Bank, corners(0, 0, 60, 60, 95, 60, 180, 0)),
			}, want: 95, within: 1, at: 95, atNear: 1},
		{name: "held a little uneven", check: over("roll-out-angle", "", 60, 180),
			flight: flight{
				signals: one(stream.Bank, corners(0, 0, 60, 60, 80, 58, 100, 61, 120, 60, 180, 0)),
			}, want: 120, within: 1.5, at: 120, atNear: 1.5},
		// Rolled in from 51° and out to 48° of 60°, nothing held: level are the 9° before the peak
		// and as much after it.
		{name: "peak", check: over("roll-out-angle", "", 60, 180),
			flight: flight{
				signals: one(stream.Bank, corners(0, 0, 90, 60, 180, 0)),
				left:    true,
			}, want: 94, within: 4, at: 94, atNear: 4},
		{name: "the leveling at the end does not count", check: over("roll-out-angle", "", 60, 180),
			flight: flight{
				signals: one(stream.Bank, corners(0, 0, 60, 60, 100, 60, 130, 30, 180, 0)),
			}, want: 100, within: 1, at: 100, atNear: 1},
		{name: "never begun", check: over("roll-out-angle", "", 60, 180),
			flight: flight{signals: one(stream.Bank, constant(60)), noExit: true}, want: 180, within: 0.5, at: 180},
		{
			name:   "not reached",
			check:  over("roll-out-angle", "", 60, 180),
			flight: flight{signals: one(stream.Bank, constant(30)), end: 50},
			reason: "did not reach 60°",
		},
		{name: "no bank", check: over("roll-out-angle", "", 60, 180), reason: "no bank"},
	} {
		r.run(t)
	}
}

// Turbulence shakes the bank by degrees and its rate by far more than the roll-out's own; the
// change point stays. Gusts here are a random walk that is drawn back with a time constant of 1 s, 1.5° of bank
// r.m.s., at 30 samples a second.
func TestRollOutInTurbulence(t *testing.T) {
	const within = 5 // °
	rnd := rand.New(rand.NewPCG(11, 12))
	wide := 0
	for range 200 {
		held := 90 + rnd.Float64()*40
		clean := corners(0, 0, 60, 70, held, 75, 180, 0)
		gust := 0.0
		noisy := flight{rate: 30, signals: one(stream.Bank, func(turn float64) float64 {
			gust = gust*math.Exp(-1.0/30) + rnd.NormFloat64()*1.5*math.Sqrt(2.0/30)
			return clean(turn) + gust
		})}
		got := noisy.measure(over("roll-out-angle", "", 60, 180))
		if !got.OK || math.Abs(got.Value-held) > 2*within {
			t.Fatalf("roll-out from %.1f°: %+v", held, got)
		}
		if math.Abs(got.Value-held) > within {
			wide++
		}
	}
	if wide > 20 { // one in ten
		t.Errorf("%d of 200 are more than %d° off", wide, within)
	}
}

// A steady bank that comes off at one rate: the change point is exact wherever it lies,
// whatever the rate, and whatever the bank.
func TestRollOutExact(t *testing.T) {
	rnd := rand.New(rand.NewPCG(13, 14))
	for range 100 {
		at, bank, slope := math.Round(80+rnd.Float64()*60), 20+rnd.Float64()*60, 0.3+rnd.Float64()
		f := flight{rate: 24, signals: one(stream.Bank, func(turn float64) float64 {
			return math.Max(math.Min(math.Min(turn*2, bank), bank-slope*(turn-at)), 0)
		}), left: rnd.IntN(2) == 0}
		if got := f.measure(over("roll-out-angle", "", 60, 180)); !got.OK || math.Abs(got.Value-at) > 1 {
			t.Fatalf("%.0f° of bank, off by %.2f a degree from %g°: %+v", bank, slope, at, got)
		}
	}
}
