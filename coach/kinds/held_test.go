package kinds_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"halfturn/coach/check"
	"halfturn/stream"
)

// fifty is the bank of a steep turn, held from 30° to 330°.
func fifty() *check.Spec {
	return with(over("held", "bank", 30, 330), func(k *check.Spec) { k.Aim = ptr(50) })
}

func TestHeld(t *testing.T) {
	bank := func(at ...float64) flight { return flight{end: 360, signals: one(stream.Bank, corners(at...))} }
	for _, r := range []row{
		{
			name:   "rolled in by 20° and out from 340°: neither roll counts",
			check:  fifty(),
			flight: bank(0, 0, 20, 50, 200, 52, 340, 50, 360, 0),
			want:   52,
			at:     200,
		},
		{
			name:   "steepest on the way",
			check:  fifty(),
			flight: bank(0, 0, 20, 50, 120, 50, 150, 59.6, 180, 50, 340, 50, 360, 0),
			want:   59.6,
			at:     150,
		},
		{
			name:   "overshot in the roll-in",
			check:  fifty(),
			flight: bank(0, 0, 15, 58, 30, 50, 340, 50, 360, 0),
			want:   58,
			at:     15,
		},
		{
			name:   "shallow in between",
			check:  fifty(),
			flight: bank(0, 0, 20, 53, 180, 53, 200, 44, 220, 53, 340, 50, 360, 0),
			want:   44,
			at:     200,
		},
		{
			name:   "rolled in too late",
			check:  fifty(),
			flight: bank(0, 0, 60, 50, 340, 50, 360, 0),
			want:   25,
			at:     30,
		},
		{
			name:   "rolled out too soon",
			check:  fifty(),
			flight: bank(0, 0, 20, 50, 300, 50, 360, 0),
			want:   25,
			at:     330,
		},
		{
			name:   "not reached",
			check:  fifty(),
			flight: flight{end: 20, signals: one(stream.Bank, constant(40))},
			reason: "did not reach 30°",
		},
		{name: "no channel", check: fifty(), flight: flight{end: 360}, reason: "no bank"},
	} {
		r.within = 0.05 // a sample may miss a corner by a little
		r.run(t)
	}
}

// Whatever is flown in the held part, no moment of it is farther from the aim than what was measured, and a mean is
// never farther than the excursion.
func TestHeldIsTheFarthest(t *testing.T) {
	rnd := rand.New(rand.NewPCG(9, 10))
	for range 100 {
		at := []float64{0, 0}
		for turn := 20.0; turn <= 340; turn += 20 {
			at = append(at, turn, 40+rnd.Float64()*20)
		}
		f := flight{end: 360, signals: one(stream.Bank, corners(append(at, 360, 0)...)), rate: 20}
		k := fifty()
		got, mean := f.measure(k), f.measure(over("mean", "bank", 30, 330))
		for _, m := range f.moments(k) {
			v := m.Sample.Value(stream.Bank)
			counts := v > 50 || m.Turn >= 30 && m.Turn <= 330
			if counts && math.Abs(v-50) > math.Abs(got.Value-50)+1e-9 {
				t.Fatalf("%g° of bank at %g° of turn is farther from 50° than %+v", v, m.Turn, got)
			}
		}
		if math.Abs(mean.Value-50) > math.Abs(got.Value-50) {
			t.Fatalf("the mean %+v is farther from 50° than %+v", mean, got)
		}
	}
}
