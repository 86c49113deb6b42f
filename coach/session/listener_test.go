package session_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/session"
	"halfturn/stream/phrase"
)

// A listener hears a session as a page does: cues come early, and each is begun when the time to
// its checkpoint, by the latest frame, is down to what the voice needs; one whose words would end
// later than lateAt after it is dropped (web/static/pure/schedule.js).
type listener struct {
	late    int     // cues dropped
	rate    float64 // words a second
	waiting []*coach.Callout
	begun   []spoken
	legs    []*coach.Leg
	series  []*coach.Series
	now     float64
}

const lateAt = 0.4 // s

// spoken is a cue that was begun.
type spoken struct {
	cue        *coach.Callout
	begun, end float64
	leg        int // how many legs were over: after a reset the times of another come again
}

func (l *listener) Watched(string) bool { return true }

func (l *listener) Event(m message.Message) {
	switch b := m.Body.(type) {
	case message.Callout:
		switch b.Kind {
		case coach.Cue:
			l.waiting = append(l.waiting, b.Callout)
		case coach.Clear: // of a flight that is far off: it is taken back, unless it was begun
			l.waiting = slices.DeleteFunc(l.waiting, func(k *coach.Callout) bool { return k.ID == b.ID })
		}
	case message.Leg:
		l.legs = append(l.legs, b.Leg)
		l.waiting = nil
	case message.Series:
		l.series = append(l.series, b.Series)
	}
}

func (l *listener) Frame(_ string, f *coach.Frame) {
	l.now = f.Time
	l.waiting = slices.DeleteFunc(l.waiting, func(k *coach.Callout) bool {
		left := *k.Due - f.Time
		for _, q := range f.Cues {
			if q.To == *k.To {
				left = q.Seconds
			}
		}
		need := float64(len(strings.Fields(k.Words))) / l.rate
		if left-need < -lateAt {
			l.late++
			return true
		}
		if left > need {
			return false
		}
		l.begun = append(l.begun, spoken{k, f.Time, f.Time + need, len(l.legs)})
		return true
	})
}

// reached returns when a leg came to a turn angle.
func reached(l *coach.Leg, turn float64) (float64, bool) {
	for i := 1; i < len(l.Trace); i++ {
		a, b := &l.Trace[i-1], &l.Trace[i]
		if a.Turn <= turn && b.Turn > turn {
			return a.Time + (b.Time-a.Time)*(turn-a.Turn)/(b.Turn-a.Turn), true
		}
	}
	return 0, false
}

// flown is what became of the cues of a flight with one voice: how far the prediction sent with
// each was off, and how far from its checkpoint its words ended, s.
type flown struct{ due, end []float64 }

// heardBy flies a recording for a voice. The exit is kept apart from checkpoints at turn angles; late is how many cues
// came too late to be said.
func heardBy(t *testing.T, name string, rate float64) (angles, exit flown, late int) {
	t.Helper()
	w := loadTruth(t)[name]
	l := &listener{rate: rate}
	s := session.New(options(t, w.Maneuver, w.Aircraft, l))
	for _, d := range datagrams(t, name) {
		s.Feed(d.Payload, d.Seconds())
	}
	s.End(phrase.Read("over"))
	full := s.Coaching().Card.Turn
	if len(l.series) == 0 {
		t.Errorf("%s: no series", name)
	}
	for _, series := range l.series {
		if hasTrace(series.Legs) {
			t.Errorf("%s: a series has the traces of its legs again", name)
		}
	}
	for i, leg := range l.legs {
		for _, k := range l.begun {
			at, ok := reached(leg, *k.cue.To)
			if !ok || k.leg != i {
				continue
			}
			into := &angles
			if *k.cue.To == full-maneuver.ExitLead {
				into = &exit
			}
			into.due = append(into.due, *k.cue.Due-at)
			into.end = append(into.end, k.end-at)
		}
	}
	return angles, exit, l.late
}

func hasTrace(legs []coach.Leg) bool {
	return slices.ContainsFunc(legs, func(l coach.Leg) bool { return len(l.Trace) > 0 })
}

// within returns the share of the values that are no farther from 0.
func within(values []float64, limit float64) float64 {
	n := 0
	for _, v := range values {
		if math.Abs(v) <= limit {
			n++
		}
	}
	return float64(n) / float64(max(1, len(values)))
}

// TestCuesEndAtTheirCheckpoints: on flights with people's hands, flawed ones and turbulence among
// them, cues of slow, usual and quick voices end within 0.4 s of where their checkpoint was
// crossed, measured on the flight. Once begun a phrase cannot be hurried: a slow voice commits
// itself three seconds ahead, in which a pilot may change his mind, so its share is lower.
//
// How pilots fly the last degrees, quickly or with a long shallow taper, is up to them: of the words of the
// exit, which end some degrees before it, fewer are on time.
func TestCuesEndAtTheirCheckpoints(t *testing.T) {
	for _, v := range []struct{ rate, share, far float64 }{{1.8, 0.88, 0.93}, {2.5, 0.95, 0.97}, {3.5, 0.97, 0.98}} {
		var angles, exits flown
		late := 0
		for name := range loadTruth(t) {
			a, e, n := heardBy(t, name, v.rate)
			late += n
			angles.due, angles.end = append(angles.due, a.due...), append(angles.end, a.end...)
			exits.end = append(exits.end, e.end...)
		}
		if all := late + len(angles.end) + len(exits.end); float64(late) > 0.15*float64(all) {
			t.Errorf("at %g words a second %d of %d cues come too late to be said", v.rate, late, all)
		}
		if len(angles.end) < 40 {
			t.Fatalf("at %g words a second: only %d cues", v.rate, len(angles.end))
		}
		if got := within(angles.end, 0.4); got < v.share {
			t.Errorf("at %g words a second %.0f %% end within 0.4 s, want %.0f %%", v.rate, 100*got, 100*v.share)
		}
		if got := within(angles.end, 0.6); got < v.far {
			t.Errorf("at %g words a second %.0f %% end within 0.6 s, want %.0f %%", v.rate, 100*got, 100*v.far)
		}
		t.Logf("at %g words a second %.0f %% of %d end within 0.4 s, of the exits %.0f %%; %d come too late",
			v.rate, 100*within(angles.end, 0.4), len(angles.end), 100*within(exits.end, 0.4), late)
		// What was predicted when the cue was sent, some three seconds ahead.
		if got := within(angles.due, 0.75); got < 0.9 {
			t.Errorf("%.0f %% are predicted within 0.75 s, want 90 %%", 100*got)
		}
		if got := within(exits.end, 0.6); len(exits.end) < 8 || got < 0.7 {
			t.Errorf("at %g words a second %.0f %% of %d end within 0.6 s of the point before the exit; must be 70 %%",
				v.rate, 100*got, len(exits.end))
		}
	}
}
