package talk_test

import (
	"math"
	"slices"
	"testing"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/stream"
	"halfturn/stream/phrase"
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

// A stall that is near is called twice. A pilot who goes on without a push is stopped, where a third call would have
// been (common practice, no source); one who gains speed, or is at the end of the turn, flies on and is called again.
func TestUnheededStallIsStopped(t *testing.T) {
	for _, r := range []struct {
		why     string
		turn    float64
		gaining float64 // kt/s
		seconds float64
		stopped bool
	}{
		{"two calls are not heeded", 60, 0, 9, true},
		{"losing speed", 60, -1, 9, true},
		{"it is heeded after the second call", 60, 0, 5, false},
		{"gaining speed", 60, 1, 20, false},
		{"a few degrees before the end", 175, 0, 20, false},
	} {
		s := begin(t, "practice")
		s.pilot.rates.SpeedRate = r.gaining
		const stall = 84 // of the card, kt
		for end := s.time + r.seconds; s.time < end && len(s.ends) == 0; {
			s.at(r.turn, 40, 10, stall+2)
		}
		s.take()
		calls := s.words(coach.Safety)
		if !r.stopped {
			s.fly(10, r.turn, 40, 10, 120)
			if len(s.ends) > 0 || len(calls) < 2 {
				t.Errorf("%s: ended by %v after %q", r.why, s.ends, calls)
			}
			continue
		}
		if len(s.ends) != 1 || !s.ends[0].Reason.Is(phrase.NearStall) || s.ends[0].Outcome != coach.KnockOff {
			t.Errorf("%s: ended by %v", r.why, s.ends)
		}
		if !slices.Equal(calls, []string{"Push, unload", "Push, unload"}) {
			t.Errorf("%s: %q", r.why, calls)
		}
	}
}
