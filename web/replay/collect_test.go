package replay

import (
	"testing"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/stream/phrase"
)

// TestUnclearLegIsHeldAgainstNothing: a leg that fits no card is not drawn over the bands of the card shown before it.
func TestUnclearLegIsHeldAgainstNothing(t *testing.T) {
	plan := &message.Chart{Maneuver: "wing-over", Title: "Wing-over", Turn: 180, Legs: 2,
		Checkpoints: []message.Checkpoint{
			{Turn: 90, Label: "90°", Words: "nose through the horizon", Want: phrase.Read("bank 75°")},
		},
		Lanes: []message.Lane{{Channel: "bank", Corridor: []message.Corridor{{Turn: 90}}}}}
	leg := message.Leg{Leg: &coach.Leg{Number: 1, Outcome: coach.Finished, End: 30, Verdict: coach.NotMeasured}}
	c := &collector{}
	tell := func(body message.Body) { c.Event(message.Message{Body: body}) }
	tell(plan)
	tell(leg)
	tell(message.Series{Series: &coach.Series{Maneuver: "wing-over"}})
	c.flush()
	tell(leg)
	tell(message.Series{Series: &coach.Series{Maneuver: coach.Unclear}})
	c.flush()
	if c.err != nil || len(c.list.Legs) != 2 || len(c.list.Plans) != 2 {
		t.Fatalf("%d legs of %d plans, %v", len(c.list.Legs), len(c.list.Plans), c.err)
	}
	for i, want := range []string{"Wing-over", "Unclear"} {
		p := &c.list.Plans[c.list.Legs[i].Plan]
		clear := i == 0
		if p.Title != want || p.Checkpoints[0].Label != "90°" || (!p.Checkpoints[0].Want.IsZero()) != clear ||
			(len(p.Lanes[0].Corridor) > 0) != clear {
			t.Errorf("leg %d: %+v", i+1, p)
		}
	}
}
