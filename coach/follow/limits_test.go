package follow_test

import (
	"math"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/stream"
)

// between changes samples from one number to another, 60 a second. The pilot begins his first
// leg after 12 to 15 s and takes some 45 s.
func between(from, to int, change func(*stream.Sample)) func(int, *stream.Sample) {
	return func(n int, s *stream.Sample) {
		if n >= from && n < to {
			change(s)
		}
	}
}

func TestKnockOff(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*stream.Sample)
		reason string
		id     string
	}{
		"hard deck": {func(s *stream.Sample) { s.Put(stream.Height, 1400) }, "below the hard deck", "hard-deck"},
		"never exceed": {func(s *stream.Sample) { s.Put(stream.Airspeed, 330) }, "over the never-exceed airspeed",
			"never-exceed"},
		"load factor": {func(s *stream.Sample) { s.Put(stream.NormalLoad, 7.5) }, "over the load factor limit",
			"load"},
		// 84 kt at 1 g is 118.8 kt at 2 g: the law of FAA-H-8083-25, stall speed × √n.
		"stalled": {func(s *stream.Sample) { s.Put(stream.Airspeed, 117); s.Put(stream.NormalLoad, 2) }, "stalled",
			"stall"},
	} {
		t.Run(name, func(t *testing.T) {
			legs, _, said := fly(t, wingOver, between(60*33, 60*35, c.change))
			if len(legs) == 0 || legs[0].Outcome != coach.KnockOff || legs[0].Reason.String() != c.reason ||
				legs[0].Verdict != coach.Missed || legs[0].Exit != nil {
				t.Fatalf("the first leg is %+v", legs[0])
			}
			var kinds []string
			for _, k := range said {
				if k.ID == c.id && (k.Kind == coach.Safety || k.Kind == coach.Clear) {
					kinds = append(kinds, k.Kind)
				}
			}
			if strings.Join(kinds, " ") != "safety clear" {
				t.Errorf("said of it: %v, want safety, then clear", kinds)
			}
		})
	}
}

// TestDeckWithoutAirspeed: a stream of attitude and height alone is enough to fall below the deck in.
func TestDeckWithoutAirspeed(t *testing.T) {
	low := between(60*33, 60*35, func(s *stream.Sample) { s.Put(stream.Height, 1400) })
	legs, _, _ := fly(t, wingOver, func(n int, s *stream.Sample) {
		for _, c := range []stream.Channel{stream.Airspeed, stream.TrueAirspeed, stream.GroundSpeed} {
			s.Drop(c)
		}
		low(n, s)
	})
	if len(legs) == 0 || legs[0].Outcome != coach.KnockOff || legs[0].Reason.String() != "below the hard deck" {
		t.Errorf("flown %+v", legs)
	}
}

// TestAlertStands: an alert stands as long as its words take a slow voice, and that of the hard deck, which ends a leg,
// until the airplane is above it again, or for ten seconds: alerts go when their cause goes (14 CFR 25.1322(a)(3)).
func TestAlertStands(t *testing.T) {
	deep := func(s *stream.Sample) { s.Put(stream.Height, 1400) }
	for name, c := range map[string]struct {
		id          string
		change      func(*stream.Sample)
		seconds     int
		least, most float64 // s that it stands
	}{
		"passed for a moment":         {"load", func(s *stream.Sample) { s.Put(stream.NormalLoad, 7.5) }, 1, 1.7, 1.8},
		"below the deck and up again": {"hard-deck", deep, 4, 3.9, 4.1},
		"below the deck for good":     {"hard-deck", deep, 60, 9.9, 12}, // said again, and heard to its end
	} {
		from, to := math.NaN(), math.NaN()
		_, _, said := fly(t, wingOver, between(60*33, 60*(33+c.seconds), c.change))
		for _, k := range said {
			switch {
			case k.ID == c.id && k.Kind == coach.Safety && math.IsNaN(from):
				from = k.Time
			case k.ID == c.id && k.Kind == coach.Clear && math.IsNaN(to):
				to = k.Time
			}
		}
		if stood := to - from; !(stood >= c.least && stood <= c.most) {
			t.Errorf("%s: said at %g s, taken down at %g s", name, from, to)
		}
	}
}

// TestAlertEndsOnTheGround: what was said in the air does not stand on the ground.
func TestAlertEndsOnTheGround(t *testing.T) {
	landed := 60 * 35
	_, _, said := fly(t, wingOver, func(n int, s *stream.Sample) {
		if n >= 60*33 {
			s.Put(stream.Height, 1400)
		}
		if n >= landed {
			s.Put(stream.OnGround, 1)
		}
	})
	for _, k := range said {
		if k.ID == "hard-deck" && k.Kind == coach.Clear {
			if k.Time > 35.1 {
				t.Errorf("taken down at %g s, on the ground from 35 s on", k.Time)
			}
			return
		}
	}
	t.Error("the alert stands for ever")
}

func TestNotStalled(t *testing.T) {
	// 118.8 kt is the stall speed at 2 g; 123 kt is above it.
	legs, _, _ := fly(t, wingOver, between(60*33, 60*35,
		func(s *stream.Sample) { s.Put(stream.Airspeed, 123); s.Put(stream.NormalLoad, 2) }))
	if legs[0].Outcome != coach.Finished {
		t.Errorf("the leg is %s: %s", legs[0].Outcome, legs[0].Reason)
	}
}
