package session_test

import (
	"testing"

	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/coach/session"
	"halfturn/configs"
)

// TestWhichManeuverOnRecordings: the maneuver found on recorded flights against what was flown,
// by truth.json. Legs given up early, and one chandelle whose flaw is a bank that grows, the
// mark of the other chandelle, may stay unclear; none may be claimed for another card.
func TestWhichManeuverOnRecordings(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	unclear := map[string]bool{"wo-turboprop-a-abandoned-1": true, "cc-single-a-bank-grows-1": true}
	for name, w := range loadTruth(t) {
		var plans []*coach.Plan
		for _, c := range lib.Cards() {
			plans = append(plans, coach.NewPlan(c, aircraft[w.Aircraft]))
		}
		opt := options(t, w.Maneuver, w.Aircraft, nil)
		opt.Auto, opt.Coach.Plan = plans, plans[0]
		s := session.New(opt)
		for _, d := range datagrams(t, name) {
			s.Feed(d.Payload, d.Seconds())
		}
		s.End("the recording ended")
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
