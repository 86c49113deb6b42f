package kinds_test

import (
	"math"
	"testing"

	"halfturn/coach/check"
	"halfturn/stream"
)

func TestExtremeAngle(t *testing.T) {
	within := func(w float64, extreme func(*check.Spec)) func(*check.Spec) {
		return func(k *check.Spec) { extreme(k); k.Within = w }
	}
	rough := func(base signal, size float64) signal { // bumps of 7° and 1.3° of turn
		return func(turn float64) float64 {
			return base(turn) + size*0.6*math.Sin(turn*2*math.Pi/7) + size*0.4*math.Cos(turn*2*math.Pi/1.3)
		}
	}
	flat := corners(0, 0, 40, 20, 70, 20, 110, 0)
	for _, r := range []row{
		{name: "hill", check: with(over("extreme-angle", "pitch", 0, 95), within(0.6, highest)),
			flight: flight{signals: one(stream.Pitch, corners(0, 0, 45, 25, 90, 0))}, want: 45, within: 0.5, at: 45},
		{name: "valley", check: with(over("extreme-angle", "airspeed", 0, 180), within(1, lowest)),
			flight: flight{
				signals: one(stream.Airspeed, corners(0, 130, 100, 70, 180, 120)),
			}, want: 100, within: 0.5, at: 100},
		{name: "middle of a flat top", check: with(over("extreme-angle", "pitch", 0, 110), within(0.6, highest)),
			flight: flight{signals: one(stream.Pitch, flat)}, want: 55, within: 0.5, at: 55},
		{name: "flat top in rough air", check: with(over("extreme-angle", "pitch", 0, 110), within(0.6, highest)),
			flight: flight{signals: one(stream.Pitch, rough(flat, 0.25))}, want: 55, within: 1.5, at: 55, atNear: 1.5},
		{name: "at the end of the span", check: with(over("extreme-angle", "pitch", 0, 90), within(0, highest)),
			flight: flight{signals: one(stream.Pitch, line(0, 0.2))}, want: 90, within: 1, at: 90, atNear: 1},
		{
			name:   "a second, lower hill does not count",
			check:  with(over("extreme-angle", "pitch", 0, 180), within(1, highest)),
			flight: flight{signals: one(stream.Pitch, corners(0, 0, 40, 20, 80, 0, 120, 18, 180, 0))},
			want:   40,
			within: 0.5,
			at:     40,
		},
		{name: "in the third round", check: with(over("extreme-angle", "bank", 720, 1000), within(0.5, highest)),
			flight: flight{
				signals: one(stream.Bank, corners(0, 0, 760, 0, 900, 45, 1040, 0)),
				end:     1080,
			}, want: 900, within: 0.5, at: 900},
		{name: "span not reached", check: with(over("extreme-angle", "pitch", 90, 180), within(1, highest)),
			flight: flight{signals: one(stream.Pitch, flat), end: 60}, reason: "did not reach 90°"},
		{
			name:   "no channel",
			check:  with(over("extreme-angle", "pitch", 0, 90), within(1, highest)),
			reason: "no pitch",
		},
	} {
		r.run(t)
	}
}
