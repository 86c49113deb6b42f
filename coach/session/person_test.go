package session_test

import (
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
)

var mo = who.Who{Name: "Mo Example"}

// bodies keeps what is published.
type bodies struct{ all []message.Body }

func (b *bodies) Event(m message.Message)  { b.all = append(b.all, m.Body) }
func (*bodies) Frame(string, *coach.Frame) {}
func (*bodies) Watched(string) bool        { return false }

// callouts returns the callouts of a kind.
func (b *bodies) callouts(kind string) (found []*coach.Callout) {
	for _, body := range b.all {
		if c, ok := body.(message.Callout); ok && c.Kind == kind {
			found = append(found, c.Callout)
		}
	}
	return found
}

func (b *bodies) legs() (found []*coach.Leg) {
	for _, body := range b.all {
		if l, ok := body.(message.Leg); ok {
			found = append(found, l.Leg)
		}
	}
	return found
}

// flyUntil feeds a recorded wing-over until the session is in the first leg at a turn angle, then does something, and
// flies on to the end.
func flyUntil(t *testing.T, s *session.Session, out *bodies, turn float64, do func(*session.Session)) {
	t.Helper()
	for _, d := range datagrams(t, "wo-turboprop-b-good-1") {
		s.Feed(d.Payload, d.Seconds())
		if do != nil && s.Flying() {
			s.Mark("probe", mo, time.Time{}, "")
			m := out.all[len(out.all)-1].(*message.Mark)
			out.all = out.all[:len(out.all)-1]
			if *m.Turn >= turn {
				do(s)
				do = nil
			}
		}
	}
	if do != nil {
		t.Fatalf("no leg came to %g°", turn)
	}
	s.End(phrase.RecordingEnded.Of())
}

// followers are a session that knows the maneuver, and one that finds it among several.
func followers(t *testing.T) map[string]func(out session.Output) *session.Session {
	return map[string]func(out session.Output) *session.Session{
		"chosen": func(out session.Output) *session.Session {
			return session.New(options(t, "wing-over", "turboprop-b", out))
		},
		"found": func(out session.Output) *session.Session {
			o := options(t, "wing-over", "turboprop-b", out)
			o.Auto = []*plan.Plan{o.Coach.Plan, options(t, "chandelle-civil", "turboprop-b", nil).Coach.Plan}
			return session.New(o)
		},
	}
}

// A leg that a person stops ends at once as a knock-off of theirs, with the words as a safety callout and without a
// grade; its series is not measured. The leg after it is flown and graded as ever, and no leg begins with the rest of
// the turn that was stopped.
func TestStop(t *testing.T) {
	for name, begin := range followers(t) {
		t.Run(name, func(t *testing.T) {
			var plain, out bodies
			flyUntil(t, begin(&plain), &plain, 100, func(*session.Session) {})
			s := begin(&out)
			flyUntil(t, s, &out, 100, func(s *session.Session) { s.Stop(mo) })
			said := out.callouts(coach.Safety)
			if len(said) != 1 || said[0].ID != coach.KnockedOff || said[0].Words != "Knock it off" ||
				said[0].By != "Mo Example" || said[0].Turn < 100 {
				t.Errorf("said %+v", said)
			}
			cleared := 0
			for _, c := range out.callouts(coach.Clear) {
				if c.ID == coach.KnockedOff {
					cleared++
					if stood := c.Time - said[0].Time; stood < 9 || stood > 11 {
						t.Errorf("the words stood for %g s", stood)
					}
				}
			}
			legs, all := out.legs(), plain.legs()
			if len(legs) != len(all) || len(all) < 2 || cleared != 1 {
				t.Fatalf("%d legs of %d, %d clears", len(legs), len(all), cleared)
			}
			l := legs[0]
			if l.Outcome != coach.KnockOff || l.Verdict != coach.NotMeasured || l.Score != 0 || l.Grade != "" ||
				!l.Change.IsZero() || l.Start != all[0].Start || l.End >= all[0].End ||
				l.Headline.String() != "Stopped for safety: knocked off by Mo Example" {
				t.Errorf("the leg that was stopped is %+v", l)
			}
			for i := range l.Checks {
				if l.Checks[i].Verdict != coach.NotMeasured {
					t.Errorf("%s is graded %s", l.Checks[i].ID, l.Checks[i].Verdict)
				}
			}
			if next := legs[1]; next.Outcome != coach.Finished || next.Verdict != all[1].Verdict ||
				next.Start != all[1].Start {
				t.Errorf("the leg after it is %s, %s from %g; must be %s from %g",
					next.Outcome, next.Verdict, next.Start, all[1].Verdict, all[1].Start)
			}
			if first := s.Report().Series[0]; first.Verdict != coach.NotMeasured || len(first.Legs) != 1 {
				t.Errorf("the series is %s with %d legs", first.Verdict, len(first.Legs))
			}
		})
	}
}

// Between legs it is only said, and the owner of the machine goes by no name.
func TestStopBetweenLegs(t *testing.T) {
	var plain, out bodies
	w := loadTruth(t)["wo-turboprop-b-good-1"]
	want := grade(t, "wo-turboprop-b-good-1", w, &plain)
	s := session.New(options(t, w.Maneuver, w.Aircraft, &out))
	for i, d := range datagrams(t, "wo-turboprop-b-good-1") {
		s.Feed(d.Payload, d.Seconds())
		if i == 20 {
			s.Stop(who.Owner())
		}
	}
	s.End(phrase.RecordingEnded.Of())
	if said := out.callouts(coach.Safety); len(said) != 1 || said[0].By != "" {
		t.Errorf("said %+v", said)
	}
	if d := cmp.Diff(legsOf(want), legsOf(s.Report()), cmp.Comparer(phrase.Phrase.Equal)); d != "" {
		t.Errorf("the legs differ (-without +with):\n%s", d)
	}
}

// What a person says comes at once, with the name; the coach says nothing of less weight while it is heard, and the
// words that are said again are those.
func TestSay(t *testing.T) {
	for name, begin := range followers(t) {
		t.Run(name, func(t *testing.T) {
			var out bodies
			const words = "  Less rudder,\n look outside "
			flyUntil(t, begin(&out), &out, 60, func(s *session.Session) {
				if err := s.Say(mo, words); err != nil {
					t.Error(err)
				}
				s.Again()
				if err := s.Say(mo, strings.Repeat("so ", 9)); err == nil {
					t.Error("nine words are said")
				}
			})
			said, again := out.callouts(coach.Said), out.callouts(coach.Again)
			if len(said) != 1 || said[0].Words != "Less rudder, look outside" || said[0].By != "Mo Example" ||
				said[0].Turn < 60 {
				t.Fatalf("said %+v", said)
			}
			if len(again) != 1 || again[0].Words != said[0].Words || again[0].ID != coach.Said {
				t.Errorf("said again %+v", again)
			}
			for _, kind := range []string{coach.Watch, coach.Result} {
				for _, c := range out.callouts(kind) {
					if c.Time >= said[0].Time && c.Time < said[0].Time+1.5 {
						t.Errorf("%s %q is said over it", kind, c.Words)
					}
				}
			}
		})
	}
}

// A mark holds the moment: the stream time, and in a leg the turn angle.
func TestMark(t *testing.T) {
	var out bodies
	at := time.Date(2026, 1, 2, 3, 4, 5, 0, time.UTC)
	s := session.New(options(t, "wing-over", "turboprop-b", &out))
	s.Mark("01A", mo, at, "before anything flew")
	flyUntil(t, s, &out, 90, func(s *session.Session) { s.Mark("01B", mo, at, "") })
	var marks []*message.Mark
	for _, body := range out.all {
		if m, ok := body.(*message.Mark); ok {
			marks = append(marks, m)
		}
	}
	if len(marks) != 2 || marks[0].Turn != nil || marks[0].Time != 0 || marks[1].ID != "01B" || marks[1].Time <= 0 ||
		marks[1].Turn == nil || *marks[1].Turn < 90 || *marks[1].Turn > 95 {
		t.Errorf("marked %+v", marks)
	}
}

// A station says when it is private, and when it is not any more.
func TestStationPrivate(t *testing.T) {
	s := session.New(options(t, "wing-over", "turboprop-b", nil))
	for _, on := range []bool{true, false} {
		if s.SetPrivate(on); s.Private() != on || s.Info(0).Private != on {
			t.Errorf("private is %v", s.Private())
		}
	}
}
