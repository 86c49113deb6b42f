package kinds_test

import (
	"testing"

	"halfturn/coach/check"
	"halfturn/stream"
)

func TestPause(t *testing.T) {
	k := func() *check.Spec {
		return with(over("pause", "pitch", 0, 180), func(k *check.Spec) { k.Within = 1 })
	}
	pitch := func(at ...float64) flight { return flight{signals: one(stream.Pitch, corners(at...))} }
	for _, r := range []row{
		{
			name:   "still throughout",
			check:  k(),
			flight: pitch(0, 5, 180, 5),
			want:   1,
			at:     90,
		},
		{
			// 60 of 180° at 10°, and 3° more on either side until it has changed by 1°, half of the 2° that fit.
			name:   "a third of the time",
			check:  k(),
			flight: pitch(0, -10, 60, 10, 120, 10, 180, -10),
			want:   (60 + 2*6) / 180.0,
			within: 0.02,
			at:     90,
			atNear: 2,
		},
		{
			// 40° in 180: the 2° that fit take 9.
			name:   "always moving",
			check:  k(),
			flight: pitch(0, -20, 180, 20),
			want:   9 / 180.0,
			within: 0.012,
			at:     90,
			atNear: 90,
		},
		{name: "no channel", check: k(), reason: "no pitch"},
	} {
		r.run(t)
	}
}

// The longer the stop, the larger the measure, and wider is never shorter.
func TestPauseLaws(t *testing.T) {
	last := 0.0
	for stop := 0.0; stop <= 100; stop += 10 {
		f := flight{rate: 20, signals: one(stream.Pitch, corners(0, -20, 40, 0, 40+stop, 0, 180, 20))}
		k := with(over("pause", "pitch", 0, 180), func(k *check.Spec) { k.Within = 1 })
		got := f.measure(k)
		if got.Value < last {
			t.Fatalf("a stop of %g° reads %+v, a shorter one %g", stop, got, last)
		}
		last = got.Value
		k.Within = 2
		if wide := f.measure(k); wide.Value < got.Value {
			t.Fatalf("within 2° %+v, within 1° %+v", wide, got)
		}
	}
	if last < 0.5 {
		t.Errorf("a stop of 100° of 180 reads %g", last)
	}
}
