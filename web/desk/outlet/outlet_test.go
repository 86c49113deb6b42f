package outlet

import (
	"testing"

	"github.com/prometheus/client_golang/prometheus/testutil"

	"halfturn/coach"
	"halfturn/coach/message"
)

// A listener notes what reaches it.
type listener struct {
	messages []message.Message
	watched  bool
}

func (l *listener) Event(m message.Message)        { l.messages = append(l.messages, m) }
func (l *listener) Frame(_ string, _ *coach.Frame) {}
func (l *listener) Watched(string) bool            { return l.watched }

// TestEvent: what was published before is held back, except the beginning of a session, which is new; what was flown
// before this run of the server is passed on, and not counted.
func TestEvent(t *testing.T) {
	call := message.Message{Body: message.Callout{Callout: &coach.Callout{Kind: "cue"}}}
	series := message.Message{Body: message.Series{Series: &coach.Series{
		Maneuver: "wing-over",
		Legs: []coach.Leg{
			{Outcome: coach.Finished, Verdict: coach.Met},
			{Outcome: coach.Finished, Verdict: coach.Met},
			{Outcome: coach.BrokenOff, Verdict: coach.NotMeasured},
		},
	}}}
	begins := message.Message{Body: &message.Session{ID: "x", State: message.SessionBegan}}
	for name, c := range map[string]struct {
		past, muted          bool
		passed, legs, called int
	}{
		"live":       {false, false, 3, 2, 1},
		"flown past": {true, false, 3, 0, 0},
		"muted":      {false, true, 1, 0, 0},
	} {
		to, counts := &listener{watched: true}, NewCounts()
		o := &Outlet{Output: to, Counts: counts, Past: c.past, Muted: c.muted}
		for _, m := range []message.Message{call, series, begins} {
			o.Event(m)
		}
		if len(to.messages) != c.passed {
			t.Errorf("%s: %d messages pass; must be %d", name, len(to.messages), c.passed)
		}
		legs := testutil.ToFloat64(counts.legs.WithLabelValues("wing-over", coach.Finished, coach.Met))
		called := testutil.ToFloat64(counts.calls.WithLabelValues("cue"))
		if int(legs) != c.legs || int(called) != c.called {
			t.Errorf("%s: counted are %g legs and %g callouts; must be %d and %d", name, legs, called, c.legs, c.called)
		}
		if o.Watched("x") == c.muted {
			t.Errorf("%s: it is watched %v", name, !c.muted)
		}
	}
	if n := len(NewCounts().Collectors()); n != 3 {
		t.Errorf("%d metrics", n)
	}
}
