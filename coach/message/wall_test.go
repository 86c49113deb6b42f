package message

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/configs"
)

// TestSheetPlan: the small corridor of every shipped card lies on the large one, from its beginning to its end.
func TestSheetPlan(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	aircraft, err := lib.AircraftNamed("radial-trainer")
	if err != nil {
		t.Fatal(err)
	}
	if len(lib.Cards()) == 0 {
		t.Fatal("no cards")
	}
	for _, card := range lib.Cards() {
		chart := NewChart(plan.New(card, aircraft))
		small := NewSheetPlan(chart)
		all := slices.DeleteFunc(slices.Clone(chart.Lanes), func(l Lane) bool {
			return l.Channel == LaneRadius || l.Channel == LanePivotal
		})
		if len(small.Posts) != len(chart.Checkpoints) || len(small.Lanes) != len(all) || len(all) != 4 {
			t.Fatalf("%s: %d posts, %d lanes", card.Name, len(small.Posts), len(small.Lanes))
		}
		for i, l := range small.Lanes {
			within(t, card.Name, all[i].Corridor, l.Corridor)
		}
	}
}

func within(t *testing.T, card string, all []Corridor, few [][3]float64) {
	t.Helper()
	if len(all) == 0 {
		if len(few) != 0 {
			t.Errorf("%s: a corridor out of nothing", card)
		}
		return
	}
	at := map[float64]Corridor{}
	for _, c := range all {
		at[c.Turn] = c
	}
	for _, f := range few {
		if c, ok := at[f[0]]; !ok || c.Low != f[1] || c.High != f[2] {
			t.Errorf("%s: at %g° it is %g to %g; must be %g to %g", card, f[0], f[1], f[2], c.Low, c.High)
		}
	}
	if few[0][0] != all[0].Turn || few[len(few)-1][0] != all[len(all)-1].Turn || len(few) > len(all)/2+2 {
		t.Errorf("%s: %d of %d places, from %g° to %g°", card, len(few), len(all), few[0][0], few[len(few)-1][0])
	}
}

// TestSheetStage: the first gate that is shut and needed is named, and two stages differ by it.
func TestSheetStage(t *testing.T) {
	f := &coach.Frame{
		State: "set-up", Direction: "", Phase: "set-up",
		Gates: []coach.Gate{{ID: "a", OK: true}, {ID: "b", Optional: true}, {ID: "c"}, {ID: "d"}},
	}
	s := NewSheetStage(f)
	if d := cmp.Diff(SheetStage{State: "set-up", Phase: "set-up", Holds: "c"}, s); d != "" {
		t.Error(d)
	}
	for _, change := range []func(*coach.Frame){
		func(f *coach.Frame) { f.State = "leg" },
		func(f *coach.Frame) { f.Direction = "left" },
		func(f *coach.Frame) { f.Phase = "up" },
		func(f *coach.Frame) { f.Ready = true },
		func(f *coach.Frame) { f.Unclear = true },
		func(f *coach.Frame) { f.Awaited = &coach.Awaited{Leg: 1} },
		func(f *coach.Frame) { f.Gates = nil },
	} {
		other := *f
		change(&other)
		if o := NewSheetStage(&other); s.SameAs(&o) || !s.SameAs(&s) {
			t.Errorf("%+v passes for %+v", o, s)
		}
	}
}
