package talk_test

import (
	"math"
	"testing"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/stream"
)

// The stall speed grows with the root of the load factor (Airplane Flying Handbook, accelerated stalls). How far the
// speed is above that one, and how fast it comes nearer, is what is said before the limit: at 1 g and in a pull alike.
func TestStallIsSaidToBeNear(t *testing.T) {
	for _, r := range []struct {
		why             string
		load            float64
		above           float64 // kt over the stall speed at that load
		slowing, pulled float64 // kt/s, g/s
		prompts         string
		want            bool
	}{
		{"ten knots in hand, falling fast", 1, 10, -5, 0, "", true},
		{"ten knots in hand, falling slowly, as at the end of a chandelle", 1, 10, -2, 0, "", false},
		{"six knots in hand, held", 1, 6, 0, 0, "", false},
		{"four and a half knots in hand, creeping away", 1, 4.5, -0.2, 0, "", true},
		{"the same in a pull of 2 g", 2, 10, -5, 0, "", true},
		{"a pull of 2 g far above its stall", 2, 40, -5, 0, "", false},
		{"a pull that grows", 2, 8, 0, 0.6, "", true},
		{"a pull that is eased", 2, 6, -2, -0.6, "", false},
		{"floating over the top at half the weight", 0.5, 10, -2, 0, "", false},
		{"the check standard is silent", 1, 10, -5, 0, callout.PromptsOff, false},
	} {
		s := begin(t, "practice")
		s.Prompt(r.prompts)
		s.pilot.rates.SpeedRate, s.pilot.rates.LoadRate = -math.Abs(r.slowing), r.pulled
		const stall = 84 // of the card, kt
		for range 10 {
			s.at(60, 40, 10, 200)
			s.pilot.now.Sample.Put(stream.NormalLoad, r.load)
			s.pilot.now.Sample.Put(stream.Airspeed, stall*math.Sqrt(r.load)+r.above)
			s.Fly()
		}
		s.take()
		said := 0
		for _, k := range s.said {
			if k.Kind == coach.Watch && k.ID == "stall-near" {
				said++
				if k.Words != "Ease the pull" {
					t.Errorf("%s: %q", r.why, k.Words)
				}
			}
		}
		if (said > 0) != r.want || said > 1 {
			t.Errorf("%s: said %d times in a second", r.why, said)
		}
	}
}
