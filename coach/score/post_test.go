package score_test

import (
	"math"
	"testing"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/maneuver"
	"halfturn/coach/score"
	"halfturn/configs"
)

// Each check belongs to the checkpoint where it is decided, or to the whole leg.
func TestPostOf(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	card, err := lib.Card("wing-over")
	if err != nil {
		t.Fatal(err)
	}
	specs := map[string]*check.Spec{}
	for i := range card.Checks {
		specs[card.Checks[i].ID] = &card.Checks[i]
	}
	whole := math.NaN()
	for _, c := range []struct {
		id   string
		at   *float64
		want float64
	}{
		{"entry-level", nil, 0},
		{"bank-at-90", new(90.0), 90},
		{"steepest-bank", new(104.0), 90},
		{"steepest-bank", new(116.0), 135},
		{"highest-nose-at", new(80.0), 45}, // it is about 45°, wherever it was
		{"roll-out-start", new(141.0), 90},
		{"exit-height", new(178.0), 180},
		{"exit-heading", nil, 180},
		{"smooth-roll", nil, whole},
		{"pace", nil, whole},
		{"even-bank", nil, whole},
	} {
		spec := specs[c.id]
		k := &coach.Check{ID: c.id, Turn: spec.Turn, Aim: spec.Aim, At: c.at}
		got := score.PostOf(spec, k, card.Turns())
		if math.IsNaN(c.want) != (got == nil) || got != nil && *got != c.want {
			t.Errorf("%s at %v belongs to %v; must be %g", c.id, c.at, got, c.want)
		}
	}
}

// The verdict at a checkpoint is the worst of its checks; those without weight do not count.
func TestPosts(t *testing.T) {
	k := func(post *float64, verdict string, weight float64) coach.Check {
		return coach.Check{Post: post, Verdict: verdict, Weight: weight}
	}
	got := score.Posts([]coach.Check{
		k(nil, coach.Met, 1),
		k(new(90.0), coach.Met, 1),
		k(new(45.0), coach.NotMeasured, 1),
		k(new(90.0), coach.Missed, 1),
		k(new(90.0), coach.Near, 1),
		k(new(180.0), coach.NotMeasured, 1),
		k(new(180.0), coach.Met, 1),
		k(new(0.0), coach.Near, 1),
		k(new(135.0), coach.Missed, 0),
	})
	want := []coach.Post{
		{Turn: new(0.0), Verdict: coach.Near},
		{Turn: new(45.0), Verdict: coach.NotMeasured},
		{Turn: new(90.0), Verdict: coach.Missed},
		{Turn: new(180.0), Verdict: coach.Met},
		{Verdict: coach.Met},
	}
	if len(got) != len(want) {
		t.Fatalf("%d posts; must be %d", len(got), len(want))
	}
	for i := range want {
		a, b := got[i].Turn, want[i].Turn
		if (a == nil) != (b == nil) || a != nil && *a != *b || got[i].Verdict != want[i].Verdict {
			t.Errorf("%d: %v %s; must be %v %s", i, a, got[i].Verdict, b, want[i].Verdict)
		}
	}
}
