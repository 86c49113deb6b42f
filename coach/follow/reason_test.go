package follow_test

import (
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/follow"
	"halfturn/coach/judge"
	"halfturn/stream"
	"halfturn/stream/derive"
	"halfturn/stream/trainer"
)

// TestStreamIsBlamedForNothing: of a stream that has every channel, no check of any leg says that one is missing.
func TestStreamIsBlamedForNothing(t *testing.T) {
	for _, m := range []string{"wing-over", "chandelle-civil", "chandelle-traditional", "lazy-eight", "steep-turn"} {
		var derive derive.Deriver
		legs, _, _ := fly(t, trainer.Flight{Maneuver: m, Direction: "both", Airplane: "light-single", Seed: 3},
			func(_ int, s *stream.Sample) { derive.Fill(s) })
		if len(legs) < 2 {
			t.Fatalf("%s: %d legs", m, len(legs))
		}
		for _, l := range legs {
			for _, k := range l.Checks {
				if strings.Contains(k.Reason.String(), "the stream") {
					t.Errorf("%s, leg %d, %s: %s", m, l.Number, k.ID, k.Reason)
				}
			}
		}
	}
}

// TestWhatIsMissingIsNamed: a channel that the stream has, but not where a check looks, is missing only there; what the
// aircraft card lacks is not the stream's.
func TestWhatIsMissingIsNamed(t *testing.T) {
	reasons := func(legs []*coach.Leg) map[string]string {
		all := map[string]string{}
		for _, k := range legs[0].Checks {
			all[k.ID] = k.Reason.String()
		}
		return all
	}
	f := trainer.Flight{Maneuver: "wing-over", Direction: "right", Airplane: "light-single", Seed: 3}
	legs, _, _ := fly(t, f, nil)
	if len(legs) != 1 || legs[0].Exit == nil {
		t.Fatalf("%d legs", len(legs))
	}
	exit := legs[0].Exit.Time
	legs, _, _ = fly(t, f, func(_ int, s *stream.Sample) {
		if s.Value(stream.Time) > exit-1 {
			s.Drop(stream.Altitude)
		}
	})
	if got := reasons(legs)["exit-height"]; got != "the stream had no altitude there" {
		t.Errorf("the altitude at the exit: %q", got)
	}
	legs, _, _ = fly(t, f, func(_ int, s *stream.Sample) { s.Drop(stream.Altitude) })
	if got := reasons(legs)["exit-height"]; got != "the stream has no altitude" {
		t.Errorf("without altitude: %q", got)
	}
	bare := follow.New(judge.Options{Plan: planOf(t, "wing-over", "")})
	pilot, err := rehearsed.NewSequence(f)
	if err != nil {
		t.Fatal(err)
	}
	var s stream.Sample
	var h heard
	for pilot.Step(1.0/60, &s) {
		bare.Step(&s)
		h.take(bare.Take())
	}
	if got := reasons(h.legs)["stall-margin"]; got != "the aircraft card gives no stall speed" {
		t.Errorf("the margin over a stall speed that nobody gave: %q", got)
	}
}
