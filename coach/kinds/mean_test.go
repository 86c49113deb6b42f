package kinds_test

import (
	"math"
	"testing"

	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/stream"
)

func TestMean(t *testing.T) {
	for _, r := range []row{
		{
			name:   "constant",
			check:  over("mean", "bank", 20, 85),
			flight: flight{signals: one(stream.Bank, constant(30))},
			want:   30,
			at:     none,
		},
		{
			name:   "line: half a sample late at most",
			check:  over("mean", "bank", 20, 80),
			flight: flight{signals: one(stream.Bank, line(0, 1))},
			want:   50,
			within: 0.07,
			at:     none,
		},
		{
			name:   "only its span",
			check:  over("mean", "bank", 90, 180),
			flight: flight{signals: one(stream.Bank, corners(0, 80, 89, 80, 89.5, 10, 180, 10))},
			want:   10,
			at:     none,
		},
		{
			name:   "not reached",
			check:  over("mean", "bank", 90, 180),
			flight: flight{signals: one(stream.Bank, constant(30)), end: 80},
			reason: "did not reach 90°",
		},
		{name: "no channel", check: over("mean", "bank", 20, 85), reason: "no bank"},
	} {
		r.run(t)
	}
}

// By time, not by sample: dense samples over the first half weigh no more than thin ones over
// the second.
func TestMeanIsOverTime(t *testing.T) {
	f := flight{signals: one(stream.Bank, func(turn float64) float64 { return 10 + 20*math.Floor(turn/90) })}
	for kind, want := range map[string]float64{"mean": 20, "rms": math.Sqrt((100 + 900) / 2), "share": 0.5} {
		j := kinds.NewJudge(with(over(kind, "bank", 0, 179.999), func(k *check.Spec) { k.Within = 20 }), f.known())
		for turn, step := 0.0, 0.01; turn < 180; turn += step {
			if turn >= 90 {
				step = 0.5
			}
			m := f.moment(turn)
			j.Step(&m)
		}
		if got := j.Measure(nil); !got.OK || math.Abs(got.Value-want) > want*0.01 {
			t.Errorf("%s: %+v, want %g", kind, got, want)
		}
	}
}
