package session_test

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/coach/session"
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/wire"
	"halfturn/stream/wire/format"
)

// A sender's clock may count from any moment. What is found in a flight does not depend on it: the recorded flights
// are fed as JSON lines with the recorded time, and again with seconds since 1970, as most programs have them.
func TestLegsDoNotDependOnTheEpochOfTheClock(t *testing.T) {
	const unix = 1_790_000_000 // in September 2026
	for name, w := range loadTruth(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			zero, since := flownAsJSON(t, name, w, 0), flownAsJSON(t, name, w, unix)
			if len(zero.legs) == 0 {
				t.Fatal("no leg was flown")
			}
			for i := range since.legs {
				shiftLeg(&since.legs[i], -unix)
			}
			if len(since.legs) != len(zero.legs) {
				t.Fatalf("by a clock from 1970 %d legs are found, by one from 0 %d", len(since.legs), len(zero.legs))
			}
			for i := range zero.legs {
				sameLeg(t, &zero.legs[i], &since.legs[i])
			}
			if d := cmp.Diff(zero.words, since.words); d != "" {
				t.Errorf("by a clock from 1970 other words are said:\n%s", d)
			}
		})
	}
}

// sameLeg compares two gradings of one leg. A double of seconds since 1970 has steps of 0.24 µs, so that a sample that
// stands exactly at the edge of a time span is in it or not: begin and end may differ by a few samples.
func sameLeg(t *testing.T, a, b *coach.Leg) {
	t.Helper()
	summary := func(l *coach.Leg) string {
		return fmt.Sprintf("%s %s %s %q, %d points, %d checks",
			l.Direction, l.Outcome, l.Verdict, l.Change, len(l.Points), len(l.Checks))
	}
	if x, y := summary(a), summary(b); x != y {
		t.Fatalf("the leg is %s; by a clock from 1970 %s", x, y)
	}
	within := func(what string, a, b, most float64) {
		if math.Abs(a-b) > most {
			t.Errorf("%s is %g, by a clock from 1970 %g", what, a, b)
		}
	}
	within("start", a.Start, b.Start, 0.1)
	within("end", a.End, b.End, 0.04)
	within("score", a.Score, b.Score, 0.5)
	for i := range a.Points {
		within("time of a checkpoint", a.Points[i].Time, b.Points[i].Time, 0.04)
		for name, most := range map[string]float64{"pitch": 0.1, "bank": 0.2, "airspeed": 0.1, "altitude": 1} {
			what := fmt.Sprintf("%s at %g°", name, a.Points[i].Turn)
			within(what, a.Points[i].Values[name], b.Points[i].Values[name], most)
		}
	}
	for i := range a.Checks {
		if x, y := &a.Checks[i], &b.Checks[i]; x.ID != y.ID || x.Verdict != y.Verdict {
			t.Errorf("check %s is %s, by a clock from 1970 %s %s", x.ID, x.Verdict, y.ID, y.Verdict)
		}
	}
}

// A heard is what a session said of a flight.
type heard struct {
	legs  []coach.Leg
	words []string
}

func (h *heard) Event(m message.Message) {
	switch b := m.Body.(type) {
	case message.Leg:
		leg := *b.Leg
		leg.Trace = nil
		h.legs = append(h.legs, leg)
	case message.Callout:
		h.words = append(h.words, fmt.Sprint(b.Kind, b.ID, b.Words))
	}
}
func (h *heard) Frame(string, *coach.Frame) {}
func (h *heard) Watched(string) bool        { return true }

// flownAsJSON feeds a recorded flight as JSON lines with that many seconds added to its clock.
func flownAsJSON(t *testing.T, name string, w truth, shift float64) *heard {
	t.Helper()
	h := &heard{}
	s := session.New(options(t, w.Maneuver, w.Aircraft, h))
	r := wire.NewReader(format.Options{})
	var sample stream.Sample
	for _, d := range datagrams(t, name) {
		if r.Decode(d.Payload, d.Seconds(), &sample) != nil {
			continue
		}
		line := []byte("{")
		for _, c := range sample.Has.Names() {
			channel, _ := stream.ChannelNamed(c)
			v := sample.Value(channel)
			if channel == stream.Time {
				v += shift
			}
			line = strconv.AppendFloat(fmt.Appendf(line, "%q:", c), v, 'f', -1, 64)
			line = append(line, ',')
		}
		s.Feed(append(bytes.TrimSuffix(line, []byte(",")), '}'), d.Seconds())
	}
	s.End(phrase.Read("the recording ended"))
	return h
}

// shiftLeg adds to the times of a leg.
func shiftLeg(l *coach.Leg, by float64) {
	l.Start, l.End = l.Start+by, l.End+by
	l.Entry.Time += by
	for i := range l.Points {
		l.Points[i].Time += by
	}
	if l.Exit != nil {
		l.Exit.Time += by
	}
}
