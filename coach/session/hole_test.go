package session_test

import (
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/coach/session"
)

// What was lost is published where it was lost, and listed in the report; however often that happens, the list is
// bounded and nothing is left out of the sum.
func TestLose(t *testing.T) {
	for name, begin := range followers(t) {
		var out bodies
		s := begin(&out)
		s.Lose(0, 57) // before anything flew
		flyUntil(t, s, &out, 90, func(s *session.Session) { s.Lose(3, 0) })
		var told []coach.Hole
		for _, b := range out.all {
			if h, is := b.(message.Hole); is {
				told = append(told, *h.Hole)
			}
		}
		if len(told) != 2 || told[0].Time != 0 || told[0].Shared != 57 || told[1].Time <= 0 || told[1].Own != 3 {
			t.Fatalf("%s: %+v", name, told)
		}
		words := told[0].Words.String()
		if !strings.Contains(words, "around 0 s into the session, of this station or of "+
			"others: 57.") {
			t.Errorf("%s: %q", name, words)
		}
		for range 1000 {
			s.Lose(1, 2)
		}
		own, shared := uint64(0), uint64(0)
		holes := s.Report().Holes
		for _, h := range holes {
			own, shared = own+h.Own, shared+h.Shared
		}
		last := holes[len(holes)-1].Words.String()
		if len(holes) != 64 || own != 1003 || shared != 2057 || !strings.Contains(last, "939. Of this") {
			t.Errorf("%s: %d holes, %d and %d lost, the last says %q", name, len(holes), own, shared, last)
		}
	}
}
