package follow_test

import (
	"testing"

	"halfturn/coach"
	"halfturn/stream"
	"halfturn/stream/trainer"
)

// A cue that was sent and waits keeps no correction from being said: the ball is out all the way,
// and the correction comes as soon as its watch allows, cues or not. What is said on the way
// begins no sooner than a second before the average voice has to begin a cue.
func TestWaitingCuesBlockNothing(t *testing.T) {
	f := trainer.Flight{Maneuver: "wing-over", Direction: "right", Airplane: "turboprop-trainer", Seed: 4, Steady: true}
	legs, _, said := fly(t, f, func(_ int, s *stream.Sample) { s.Put(stream.Ball, 1.6) })
	if len(legs) == 0 {
		t.Fatal("no leg")
	}
	corrections, waiting := 0, 0
	for _, k := range said {
		if k.Kind != coach.Watch {
			continue
		}
		corrections++
		for _, q := range said {
			if q.Kind != coach.Cue || q.Time > k.Time || *q.Due < k.Time {
				continue
			}
			waiting++
			begin := *q.Due - float64(len(fields(q.Words)))/2.5 - 0.25
			if ahead := begin - k.Time; k.ID == "ball-out" && ahead > 0.2 && ahead < 0.8 {
				t.Errorf("%q at %.2f s runs into %q, which begins at %.2f s", k.Words, k.Time, q.Words, begin)
			}
		}
	}
	if corrections == 0 {
		t.Error("the ball was out all the way, and nothing was said of it")
	}
	t.Logf("%d corrections, %d of them while a cue waited", corrections, waiting)
}
