package outlet

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/message"
)

// cues are the cues of a leg that were sent and not taken back, by their ids.
type cues map[string]cue

// A cue says when the flight was expected to pass a turn angle.
type cue struct{ turn, due float64 } // °; stream time, s

// time takes a message. At the end of a leg it observes for each of its cues how far from the expected time its turn
// angle was passed, s.
func (c *cues) time(body message.Body, observe func(float64)) {
	switch b := body.(type) {
	case message.Callout:
		switch {
		case b.Kind == coach.Clear:
			delete(*c, b.ID)
		case b.Kind == coach.Cue && b.To != nil && b.Due != nil:
			if *c == nil {
				*c = cues{}
			}
			(*c)[b.ID] = cue{*b.To, *b.Due}
		}
	case message.Leg:
		for _, k := range *c {
			for i := range b.Points {
				if p := &b.Points[i]; p.Turn == k.turn {
					observe(math.Abs(p.Time - k.due))
				}
			}
		}
		clear(*c)
	}
}
