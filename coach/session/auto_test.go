package session_test

import (
	"testing"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/stream/phrase"
)

// TestWhichManeuverOnRecordings: the maneuver found on recorded flights against what was flown,
// by truth.json. Legs given up early, and one chandelle whose flaw is a bank that grows, the
// mark of the other chandelle, may stay unclear; none may be claimed for another card.
func TestWhichManeuverOnRecordings(t *testing.T) {
	lib, err := shipped()
	if err != nil {
		t.Fatal(err)
	}
	unclear := map[string]bool{"wo-turboprop-a-abandoned-1": true, "cc-single-a-bank-grows-1": true}
	for name, w := range loadTruth(t) {
		var plans []*plan.Plan
		for _, c := range lib.Distinct() {
			plans = append(plans, plan.New(c, models[w.Aircraft]))
		}
		opt := options(t, w.Maneuver, w.Aircraft, nil)
		opt.Auto, opt.Coach.Plan = plans, plans[0]
		s := session.New(opt)
		for _, d := range datagrams(t, name) {
			s.Feed(d.Payload, d.Seconds())
		}
		s.End(phrase.Read("the recording ended"))
		legs := 0
		for _, r := range s.Report().Series {
			legs += len(r.Legs)
			if r.Decision == nil || r.Maneuver != w.Maneuver && !(r.Maneuver == coach.Unclear && unclear[name]) {
				t.Errorf("%s reads %s: %+v", name, r.Maneuver, r.Decision)
			}
			if r.Maneuver != coach.Unclear && r.Decision.Margin < coach.LeastMargin {
				t.Errorf("%s is claimed with a margin of %g", name, r.Decision.Margin)
			}
		}
		if legs != len(w.Legs) {
			t.Errorf("%s: %d legs, want %d", name, legs, len(w.Legs))
		}
	}
}

// plansTold keeps the names of the plans that a session publishes.
type plansTold struct{ names []string }

func (p *plansTold) Event(m message.Message) {
	if b, ok := m.Body.(*message.Chart); ok {
		p.names = append(p.names, b.Maneuver)
	}
}
func (*plansTold) Frame(string, *coach.Frame) {}
func (*plansTold) Watched(string) bool        { return false }

// TestPlanFollowsTheManeuver: live, the plan shown is another's as soon as it is clear which
// maneuver is flown: here a recorded wing-over, with a chandelle shown at first.
func TestPlanFollowsTheManeuver(t *testing.T) {
	const name = "wo-turboprop-b-good-1"
	w := loadTruth(t)[name]
	lib, err := shipped()
	if err != nil {
		t.Fatal(err)
	}
	told := &plansTold{}
	opt := options(t, "chandelle-civil", w.Aircraft, nil)
	opt.Output = told
	for _, c := range lib.Distinct() {
		p := plan.New(c, models[w.Aircraft])
		opt.Auto = append(opt.Auto, p)
		if c.Name == "chandelle-civil" {
			opt.Coach.Plan = p
		}
	}
	s := session.New(opt)
	for _, d := range datagrams(t, name) {
		s.Feed(d.Payload, d.Seconds())
		if len(told.names) == 2 {
			break
		}
	}
	if len(told.names) != 2 || told.names[0] != "chandelle-civil" || told.names[1] != w.Maneuver {
		t.Fatalf("plans told: %v", told.names)
	}
	if s.Legs() != 0 {
		t.Error("it became clear only once the leg was over")
	}
}

// TestAutoChosenInMidSession: from the moment it is chosen, the maneuver is found: a recorded wing-over is
// one, with a lazy eight chosen before. The ground line stays, and the gates let every maneuver begin.
func TestAutoChosenInMidSession(t *testing.T) {
	const name = "wo-turboprop-b-good-1"
	w := loadTruth(t)[name]
	lib, err := shipped()
	if err != nil {
		t.Fatal(err)
	}
	var plans []*plan.Plan
	for _, c := range lib.Distinct() {
		plans = append(plans, plan.New(c, models[w.Aircraft]))
	}
	g := &grounds{}
	s := session.New(options(t, "lazy-eight", w.Aircraft, g))
	heading := 90.0
	for i, d := range datagrams(t, name) {
		if i == 30 {
			if err := s.SetLine(coach.LineChoice{Heading: &heading}); err != nil {
				t.Fatal(err)
			}
			s.Choose(plans[0], plans)
		}
		s.Feed(d.Payload, d.Seconds())
	}
	s.End(phrase.SessionEnded.Of())
	r := s.Report()
	if len(r.Series) != 1 || r.Series[0].Maneuver != w.Maneuver || len(r.Series[0].Legs) != len(w.Legs) {
		t.Errorf("it reads %+v", r.Series)
	}
	var speed, line string
	for _, f := range g.frames {
		for _, gate := range f.Gates {
			switch gate.ID {
			case "entry-speed":
				speed = gate.Want.String()
			case "on-the-line":
				line = gate.Want.String()
			}
		}
	}
	if speed != "155 kt, within 10 kt" || line != "within 5° of 090°" {
		t.Errorf("wanted are %q and %q", speed, line)
	}
}
