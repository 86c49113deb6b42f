package feed

import (
	"math"
	"testing"

	"halfturn/coach"
)

// TestShape: the made-up wing-over begins and ends level, is highest, slowest and steepest half way, and has its nose
// highest at a quarter of the turn and lowest at three quarters, as FAA-H-8083-3C, chapter 10, describes each half of a
// lazy eight.
func TestShape(t *testing.T) {
	for _, end := range []float64{0, Turn} {
		if math.Abs(Bank(end)) > 1e-9 || math.Abs(Pitch(end)) > 1e-9 || math.Abs(Climb(end)) > 1e-9 ||
			math.Abs(Speed(end)-entry) > 1e-9 {
			t.Errorf("at %g° it is not as at the entry", end)
		}
	}
	for turn := 0.0; turn <= Turn; turn++ {
		if Bank(turn) > Bank(90) || Climb(turn) > Climb(90) || Speed(turn) < Speed(90) || Pitch(turn) > Pitch(45) ||
			Pitch(turn) < Pitch(135) {
			t.Errorf("the extremes are not where the plan says, but at %g°", turn)
		}
	}
}

// TestPlan: checkpoints and corridors go once around, and each aim lies in its corridor and its lane.
func TestPlan(t *testing.T) {
	p := Plan()
	last := 0.0
	for _, c := range p.Checkpoints {
		if c.Turn <= last || c.Turn > p.Turn || c.Label == "" || c.Want.IsZero() {
			t.Errorf("checkpoint %+v comes after %g°", c, last)
		}
		last = c.Turn
	}
	if last != p.Turn {
		t.Errorf("the last checkpoint is at %g°", last)
	}
	for _, lane := range p.Lanes {
		if first, end := lane.Corridor[0], lane.Corridor[len(lane.Corridor)-1]; first.Turn != 0 || end.Turn != p.Turn {
			t.Errorf("the corridor of %s goes from %g° to %g°", lane.Channel, first.Turn, end.Turn)
		}
		for _, c := range lane.Corridor {
			if !(c.Low < c.Aim && c.Aim < c.High) || c.Aim < lane.Low || c.Aim > lane.High {
				t.Errorf("%s at %g°: %+v in a lane from %g to %g", lane.Channel, c.Turn, c, lane.Low, lane.High)
			}
		}
	}
}

// TestFrames: what comes next lies ahead, until nothing does, and the path over the ground is the half circle that
// Place gives.
func TestFrames(t *testing.T) {
	for turn := 0.0; turn <= Turn; turn += 7.5 {
		f := At(3, turn, -5)
		if got := f.Values["bank"]; math.Abs(got-(Bank(turn)-5)) > 1e-9 {
			t.Errorf("at %g° the bank is %g", turn, got)
		}
		if (f.Next == nil) != (turn >= Turn) {
			t.Errorf("at %g° next is %+v", turn, f.Next)
		}
		if f.Next != nil && (f.Next.Turn <= turn || *f.Next.Seconds <= 0) {
			t.Errorf("at %g° next is %+v", turn, f.Next)
		}
		along, across := Place(turn)
		if math.Abs(math.Hypot(along, across-radius)-radius) > 1e-6 || f.Ground.Along != along ||
			f.Ground.Across != across {
			t.Errorf("at %g° it is at %g, %g", turn, along, across)
		}
	}
	for _, ready := range []bool{false, true} {
		f := Level(1, ready)
		open := true
		for _, g := range f.Gates {
			open = open && g.OK
		}
		if f.Ready != ready || open != ready {
			t.Errorf("ready %v with gates open %v", f.Ready, open)
		}
	}
}

// TestFinished: the pages are checked with one check of each verdict at least, and a trace of the whole leg.
func TestFinished(t *testing.T) {
	leg := Finished(2, "left", 100)
	if leg.Number != 2 || leg.Direction != "left" || leg.Start != 100 || leg.End <= 100 || leg.Exit == nil {
		t.Errorf("%+v", leg)
	}
	seen := map[string]bool{}
	for _, k := range leg.Checks {
		seen[k.Verdict] = true
		if k.Value == nil != (k.Verdict == coach.NotMeasured) {
			t.Errorf("%s is %s", k.ID, k.Verdict)
		}
	}
	for _, v := range []string{coach.Met, coach.Near, coach.Missed, coach.NotMeasured} {
		if !seen[v] {
			t.Errorf("no check is %s", v)
		}
	}
	for i, x := range leg.Trace {
		if x.Turn != float64(i) || x.Time < leg.Start || x.Time > leg.End {
			t.Errorf("trace %d is at %g°, %g s", i, x.Turn, x.Time)
		}
	}
	if late := Late(92); late > -16 {
		t.Errorf("the bank is late by %g° only", -late)
	}
}

// TestCallouts come in the order of the turn, before what they are for.
func TestCallouts(t *testing.T) {
	last := 0.0
	for _, c := range Callouts() {
		if c.Turn < last || c.To != nil && *c.To <= c.Turn {
			t.Errorf("%+v after %g°", c, last)
		}
		last = c.Turn
	}
}

// TestProbe: each state of a channel is there, and what is missing can be mended.
func TestProbe(t *testing.T) {
	p := Probe("Seat 3")
	states := map[string]bool{}
	for _, n := range p.Needs {
		states[n.State] = true
		if (n.State == "missing") != !n.Setting.IsZero() {
			t.Errorf("%+v", n)
		}
	}
	if len(states) != 3 || p.Station.Name != "Seat 3" || len(p.Todo) == 0 || len(p.Station.Missing) != 1 {
		t.Errorf("%+v", p)
	}
}
