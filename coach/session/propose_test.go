package session_test

import (
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/aircraft"
	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/stream/phrase"
)

// played feeds a recording to a session of a maneuver, without an aircraft card.
func played(t *testing.T, name, card string, change func(*session.Options)) []coach.Series {
	t.Helper()
	opt := options(t, card, "", nil)
	opt.Coach.Plan = plan.New(opt.Coach.Plan.Card, nil)
	change(&opt)
	s := session.New(opt)
	for _, d := range datagrams(t, name) {
		s.Feed(d.Payload, d.Seconds())
	}
	s.End(phrase.Read("the recording ended"))
	return s.Report().Series
}

// Without an aircraft card a flawless leg is no better than good, its headline counts what was not judged, and the card
// is proposed that its aircraft was flown at: the recordings' models of the classes, and the shipped cards.
func TestCardIsProposed(t *testing.T) {
	lib, err := shipped()
	if err != nil {
		t.Fatal(err)
	}
	var all []*aircraft.Aircraft
	for _, name := range []string{"turboprop-a", "turboprop-b", "jet", "single-a", "single-b"} {
		all = append(all, models[name])
	}
	for _, c := range []struct {
		name, card string
		cards      []*aircraft.Aircraft
		want       string
	}{
		{"wo-turboprop-b-good-1", "wing-over", all, "turboprop-b"},
		{"wo-turboprop-b-good-1", "wing-over", lib.Aircraft(), ""}, // none is flown at 155 kt
		{"wing-over-turboprop-a-turbulence-good", "wing-over", lib.Aircraft(), "turboprop-trainer"},
		{"cc-single-a-bank-grows-1", "chandelle-civil", lib.Aircraft(), "light-single"},
	} {
		series := played(t, c.name, c.card, func(o *session.Options) { o.Aircraft = c.cards })
		if len(series) != 1 {
			t.Fatalf("%s: %d series", c.name, len(series))
		}
		for _, l := range series[0].Legs {
			got := ""
			if l.Propose != nil {
				got = l.Propose.Aircraft
			}
			if got != c.want {
				t.Errorf("%s: %q is proposed; must be %q", c.name, got, c.want)
			}
			if l.Grade == coach.Excellent || !strings.Contains(l.Headline.String(), "not measured") {
				t.Errorf("%s: %s, %q", c.name, l.Grade, l.Headline)
			}
		}
	}
}

// A leg of another maneuver than the chosen one says so, with the other's name, and gives neither a grade nor advice by
// the chosen one.
func TestAnotherManeuver(t *testing.T) {
	lib, err := shipped()
	if err != nil {
		t.Fatal(err)
	}
	others := func(o *session.Options) { o.Coach.Others = lib.Distinct() }
	for name, w := range loadTruth(t) {
		for _, card := range []string{"wing-over", "chandelle-civil", "chandelle-traditional", "lazy-eight"} {
			for _, s := range played(t, name, card, others) {
				for _, l := range s.Legs {
					if l.Another != nil && (s.Grade != "" || s.Score != 0 || !s.Change.IsZero()) {
						t.Errorf("%s as a %s: the series is judged %q, %.0f", name, card, s.Grade, s.Score)
					}
					switch flown := l.Another; {
					case flown == nil:
					case card == w.Maneuver || flown.Maneuver != w.Maneuver:
						t.Errorf("%s as a %s: a %s was flown", name, card, flown.Maneuver)
					case !l.Change.IsZero() || len(l.Causes) > 0 || !strings.Contains(l.Headline.String(), flown.Title):
						t.Errorf("%s as a %s: %q, %q", name, card, l.Headline, l.Change)
					default:
						ungraded(t, &l)
					}
				}
			}
		}
	}
	for name, card := range map[string]string{
		"cc-single-a-nose-still-rising-1": "wing-over",
		"tc-turboprop-a-roll-out-quick-1": "lazy-eight",
		"wo-turboprop-a-rushed-1":         "chandelle-civil",
	} {
		if found := played(t, name, card, others); len(found) == 0 || found[0].Legs[0].Another == nil {
			t.Errorf("%s as a %s: no other maneuver is noticed", name, card)
		}
	}
}

// ungraded holds a leg to having neither grade nor verdicts, and to what was measured.
func ungraded(t *testing.T, l *coach.Leg) {
	t.Helper()
	measured := 0
	for _, k := range l.Checks {
		if k.Verdict != coach.NotMeasured || k.Score != 0 || k.Words != "" {
			t.Errorf("%s is judged %s, %.0f, %q", k.ID, k.Verdict, k.Score, k.Words)
		}
		if k.Value != nil {
			measured++
		}
	}
	for _, p := range l.Posts {
		if p.Verdict != coach.NotMeasured {
			t.Errorf("a checkpoint is judged %s", p.Verdict)
		}
	}
	if l.Verdict != coach.NotMeasured || l.Grade != "" || l.Score != 0 || measured == 0 {
		t.Errorf("the leg is judged %s, %q, %.0f by %d numbers", l.Verdict, l.Grade, l.Score, measured)
	}
}
