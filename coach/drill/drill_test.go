package drill_test

import (
	"slices"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/cause"
	"halfturn/coach/check"
	"halfturn/coach/drill"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/configs"
)

func shipped(t *testing.T) *maneuver.Library {
	t.Helper()
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	return lib
}

func judged(t *testing.T, lib *maneuver.Library, name string) *maneuver.Card {
	t.Helper()
	card, err := lib.Judged(name, "course")
	if err != nil {
		t.Fatal(err)
	}
	return card
}

// TestWhere: the part where an error happens is a building block where there is one (FAA-H-8083-3C ch. 10 teaches the
// maneuvers from point to point), else the whole. Which point an error belongs to is that of the handbook's
// description; that a slip or the power is drilled in the shortest block is common practice, no source.
func TestWhere(t *testing.T) {
	lib := shipped(t)
	for _, c := range []struct{ maneuver, cause, where, cues, watches string }{
		{"wing-over", "overbanked", "wing-over-to-90", "90", "bank-on-the-way"},
		{"wing-over", "nose-peak-early", "wing-over-to-90", "45", "nose-on-the-way"},
		{"wing-over", "slip-or-skid", "level-roll", "", "ball-out"},
		{"wing-over", "power-added", "wing-over-to-45", "", "power-moved"},
		{"wing-over", "rolled-out-late", "wing-over", "180", "roll-out-pace"},
		{"wing-over", "height-lost", "wing-over", "", "nose-in-the-descent"},
		{"chandelle-civil", "roll-out-begun-late", "roll-out-from-90", "135", "roll-out-pace"},
		{"chandelle-civil", "nose-dropped", "chandelle-civil", "", "nose-on-the-way"},
		{"steep-spiral", "airspeed-fast", "steep-spiral", "", "speed-on-the-way"},
	} {
		if got := drill.Where(lib, c.maneuver, "course", c.cause); got != c.where {
			t.Errorf("%s of %s is drilled in %s, must be %s", c.cause, c.maneuver, got, c.where)
		}
		part, ok := drill.PartOf(judged(t, lib, c.maneuver), c.cause)
		if !ok || !slices.Contains(part.Watches, c.watches) {
			t.Errorf("%s of %s: %+v", c.cause, c.maneuver, part)
		}
		for _, at := range strings.Fields(c.cues) {
			if !slices.Contains([]string{"45", "90", "135", "180"}, at) || len(part.Cues) == 0 {
				t.Errorf("%s of %s: cues at %v, must have %s", c.cause, c.maneuver, part.Cues, at)
			}
		}
		if c.cues == "" && len(part.Cues) > 0 {
			t.Errorf("%s of %s: cues at %v, must have none", c.cause, c.maneuver, part.Cues)
		}
	}
	none := []string{"stalled", "abandoned", "below-hard-deck", "limit-passed", "no-cause", "same-direction"}
	for _, id := range none {
		if part, ok := drill.PartOf(judged(t, lib, "wing-over"), id); ok {
			t.Errorf("%s can be drilled: %+v", id, part)
		}
	}
}

// TestParts: of every cause of every card, the checks are those by which it is seen, and what is said is on the card. A
// part never is all that is said, unless the cause is in all of the turn.
func TestParts(t *testing.T) {
	lib, parts := shipped(t), 0
	for _, card := range lib.Cards() {
		card := judged(t, lib, card.Name)
		for _, m := range cause.Meanings() {
			part, ok := drill.PartOf(card, m.ID)
			if !ok {
				continue
			}
			parts++
			for _, id := range part.Checks {
				if !slices.Contains(cause.Shows(m.ID), id) || !card.Has(id) {
					t.Errorf("%s of %s: the check %s", m.ID, card.Name, id)
				}
			}
			for _, of := range part.Cues {
				if !slices.ContainsFunc(card.AllCues, func(q maneuver.Cue) bool { return q.Of == of && q.Say != "" }) {
					t.Errorf("%s of %s: a cue about %v", m.ID, card.Name, of)
				}
			}
			if len(part.Watches) > 1 && len(part.Watches) == len(card.Watches) {
				t.Errorf("%s of %s: every watch belongs to it", m.ID, card.Name)
			}
			where := drill.Where(lib, card.Name, "course", m.ID)
			if _, ok := drill.PartOf(judged(t, lib, where), m.ID); !ok {
				t.Errorf("%s of %s cannot be drilled in %s", m.ID, card.Name, where)
			}
		}
	}
	if parts < 200 {
		t.Errorf("only %d parts", parts)
	}
}

// legOf is a leg with two checks of a cause, and one that is none of it and missed.
func legOf(verdicts ...string) *coach.Leg {
	l := &coach.Leg{Outcome: coach.Finished, Verdict: coach.Missed, Checks: []coach.Check{
		{ID: "exit-heading", Weight: 1, Verdict: coach.Missed},
	}}
	for i, id := range []string{"bank-at-90", "steepest-bank"} {
		k := coach.Check{ID: id, Weight: 1, Verdict: verdicts[i]}
		if k.Verdict == coach.Met {
			k.Score = 100
		}
		l.Checks = append(l.Checks, k)
	}
	return l
}

// TestCount: three legs in a row, of which the checks of the cause are met, whatever the others are; what shows nothing
// of it neither counts nor breaks the row.
func TestCount(t *testing.T) {
	lib := shipped(t)
	plane, err := lib.AircraftNamed("radial-trainer")
	if err != nil {
		t.Fatal(err)
	}
	d, err := drill.New(plan.New(judged(t, lib, "wing-over"), plane), "overbanked")
	if err != nil {
		t.Fatal(err)
	}
	good, bad := legOf(coach.Met, coach.Met), legOf(coach.Met, coach.Missed)
	unseen := legOf(coach.NotMeasured, coach.NotMeasured)
	other := legOf(coach.Met, coach.Met)
	other.Another = &coach.Another{Maneuver: "chandelle-civil"}
	for i, c := range []struct {
		leg  *coach.Leg
		row  int
		says string
	}{
		{good, 1, ""}, {bad, 0, "Less bank"}, {good, 1, ""}, {unseen, 1, ""}, {other, 1, ""}, {good, 2, ""},
		{good, 3, ""},
	} {
		l := *c.leg
		d.Take(&l)
		if l.Drill == nil || l.Drill.Row != c.row || d.Row() != c.row || l.Drill.Want != drill.Want ||
			l.Drill.Change.IsZero() != (c.says == "") {
			t.Errorf("leg %d: %+v, must have a row of %d", i+1, l.Drill, c.row)
		}
	}
	if _, err := drill.New(plan.New(judged(t, lib, "wing-over"), plane), "stalled"); err == nil ||
		!strings.Contains(err.Error(), "no check of a leg of") {
		t.Errorf("a drill on a stall: %v", err)
	}
}

// TestAgainstSpecs: a drill's checks count by the card that it is flown by.
func TestAgainstSpecs(t *testing.T) {
	lib := shipped(t)
	for _, m := range cause.Meanings() {
		card := judged(t, lib, "wing-over")
		part, ok := drill.PartOf(card, m.ID)
		counts := slices.ContainsFunc(card.Checks, func(k check.Spec) bool {
			return k.Weight > 0 && slices.Contains(part.Checks, k.ID)
		})
		if ok != (counts && !cause.Ends(m.ID)) {
			t.Errorf("%s: can be drilled is %v, its checks count is %v", m.ID, ok, counts)
		}
	}
}
