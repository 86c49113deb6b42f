package outlet

import (
	"slices"
	"testing"

	"halfturn/coach"
	"halfturn/coach/message"
)

// TestCueError: the time of each cue that was said is compared with that of the point it was about; one that was taken
// back, and one whose turn angle was never passed, are not. The leg after begins without cues.
func TestCueError(t *testing.T) {
	call := func(kind, id string, turn, due float64) message.Body {
		return message.Callout{Callout: &coach.Callout{Kind: kind, ID: id, To: &turn, Due: &due}}
	}
	leg := message.Leg{Leg: &coach.Leg{Points: []coach.Point{
		{Turn: 45, Time: 10.25}, {Turn: 90, Time: 14}, {Turn: 135, Time: 19},
	}}}
	var errors []float64
	var c cues
	for _, body := range []message.Body{
		message.Callout{Callout: &coach.Callout{Kind: coach.Watch, ID: "bank"}},
		call(coach.Cue, "cue-45", 45, 10),
		call(coach.Cue, "cue-90", 90, 14.5),
		call(coach.Cue, "cue-135", 135, 18),
		call(coach.Cue, "cue-180", 178, 24),
		message.Callout{Callout: &coach.Callout{Kind: coach.Clear, ID: "cue-135"}},
		leg, leg,
	} {
		c.time(body, func(s float64) { errors = append(errors, s) })
	}
	slices.Sort(errors)
	if want := []float64{0.25, 0.5}; !slices.Equal(errors, want) {
		t.Errorf("errors of %v s; must be %v", errors, want)
	}
}
