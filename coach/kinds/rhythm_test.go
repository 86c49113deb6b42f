package kinds_test

import (
	"math"
	"testing"

	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/stream"
)

func TestRhythm(t *testing.T) {
	whole := over("rhythm", "", 0, 180)
	for _, r := range []row{
		{name: "even", check: whole, want: 1, at: 22.5, atNear: 200},
		{
			name:   "exit 3° early: 42 of 45° in the last quarter",
			check:  whole,
			flight: flight{end: 177},
			want:   45.0 / 42,
			at:     157.5,
		},
		{name: "past the end", check: whole, flight: flight{end: 185}, want: 1, at: 22.5, atNear: 200},
		{
			name:   "another span",
			check:  over("rhythm", "", 60, 160),
			flight: flight{end: 170},
			want:   1,
			at:     72.5,
			atNear: 200,
		},
		{name: "not far enough", check: whole, flight: flight{end: 130}, reason: "did not reach its last quarter"},
		{name: "no exit", check: whole, flight: flight{noExit: true}, reason: "no exit"},
	} {
		r.run(t)
	}
}

// Quarters of 10, 5, 6 and 9 s: 2 to 1, and the second is the odd one; by hand.
func TestRhythmByHand(t *testing.T) {
	ends := corners(0, 0, 10, 45, 15, 90, 21, 135, 30, 180)
	for _, rate := range []float64{4, 30} {
		f := flight{}
		j := kinds.NewJudge(over("rhythm", "", 0, 180), f.known())
		var m check.Moment
		for i := 0; float64(i) <= 30*rate; i++ {
			m.Turn = ends(float64(i) / rate)
			m.Sample.Put(stream.Time, begin+float64(i)/rate)
			j.Step(&m)
		}
		got := j.Measure(&m)
		const note = "the quarters of the turn took 33, 17, 20 and 30 % of the time"
		if !got.OK || math.Abs(got.Value-2) > 1e-9 || got.At != 67.5 || got.Note.String() != note {
			t.Errorf("%+v", got)
		}
	}
}
