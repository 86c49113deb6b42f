package follow_test

import (
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/trainer"
)

// The rudder that a note asks for lies on the ball's side as the stream has it, to the right
// and to the left: press the pedal on the ball's side (Instrument Flying Handbook).
func TestNoteNamesTheRudder(t *testing.T) {
	for _, ball := range []float64{0.8, -0.8} {
		pedal := map[bool]string{true: "more right rudder", false: "more left rudder"}[ball > 0]
		legs, _, _ := fly(t, trainer.Flight{Maneuver: "wing-over", Direction: "both", Airplane: "turboprop-trainer",
			Seed: 11},
			func(_ int, s *stream.Sample) { s.Put(stream.Ball, ball) })
		if len(legs) != 2 || legs[0].Direction == legs[1].Direction {
			t.Fatalf("%d legs, want one each way", len(legs))
		}
		for _, l := range legs {
			motion := "skid"
			if (l.Direction == "right") == (ball > 0) {
				motion = "slip"
			}
			noted := false
			for _, k := range l.Checks {
				if k.ID == "ball-centered" {
					noted = true
					note := k.Note.String()
					if k.Verdict != "missed" || !strings.Contains(note, pedal) || !strings.Contains(note, motion) {
						t.Errorf("%s leg, ball %g: %s, %q", l.Direction, ball, k.Verdict, k.Note)
					}
				}
			}
			if !noted {
				t.Error("no check of the ball")
			}
		}
	}
}
