package follow_test

import (
	"strings"

	"halfturn/coach"
	"halfturn/stream/trainer"
)

// rehearsed is what pilots have found out by flying before: many fly the same leg.
var rehearsed trainer.Rehearsals

func fields(s string) []string { return strings.Fields(s) }

// heard is what a follower reported, by kind.
type heard struct {
	legs   []*coach.Leg
	series []*coach.Series
	said   []*coach.Callout
}

func (h *heard) take(events []coach.Event) {
	for _, e := range events {
		switch e := e.(type) {
		case *coach.Leg:
			h.legs = append(h.legs, e)
		case *coach.Series:
			h.series = append(h.series, e)
		case *coach.Callout:
			h.said = append(h.said, e)
		}
	}
}
