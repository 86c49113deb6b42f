package follow

import (
	"slices"
	"testing"

	"halfturn/coach"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/configs"
	"halfturn/stream"
	"halfturn/stream/trainer"
)

// A closed series waits until all its legs are decided. One that lost legs is open again when it may go on, and is
// graded again otherwise.
func TestRelease(t *testing.T) {
	wide, narrow := &coach.Decision{Margin: 2}, &coach.Decision{Margin: 1}
	for _, c := range []struct {
		name     string
		fates    []*fate // of legs at 1, 2, 3 s
		begun    bool
		under    bool // another series is under way
		more     bool // another closed series follows
		want     string
		reopened bool
		held     int
	}{
		{"all claimed", []*fate{{wide}, {narrow}, {wide}}, true, false, false, "series steep 1 2 3", false, 0},
		{"one not decided", []*fate{{wide}, nil, {wide}}, true, false, false, "", false, 1},
		{"one lost, in flight", []*fate{{wide}, {}, {narrow}}, true, false, false, "", true, 0},
		{"one lost, at the end", []*fate{{wide}, {}, {narrow}}, false, false, false, "series steep 1 3", false, 0},
		{
			"one lost, the next under way", []*fate{{wide}, {}, {narrow}}, true, true, false,
			"series steep 1 3", false, 0,
		},
		{"one lost, the next closed", []*fate{{wide}, {}, {narrow}}, true, false, true, "series steep 1 3", false, 1},
		{"all lost", []*fate{{}, {}, {}}, true, false, false, "", false, 0},
	} {
		a := newAuto(t)
		a.shared.Begun = c.begun
		s := &coach.Series{Maneuver: "steep"}
		for i, f := range c.fates {
			l := recordOf(float64(i+1), float64(i+2), 60)
			l.Number = i + 1
			s.Legs = append(s.Legs, *l)
			if f != nil {
				a.fates[steep][l.Start] = f
			}
		}
		a.held[steep] = []*coach.Series{s}
		if c.more {
			a.held[steep] = append(a.held[steep], &coach.Series{Legs: []coach.Leg{*recordOf(9, 10, 60)}})
		}
		if c.under {
			a.judges[steep].SetSeries(&coach.Series{})
		}
		a.release(steep)
		if got := worded(a.Take()); got != c.want || len(a.held[steep]) != c.held {
			t.Errorf("%s: %q, %d held; must be %q, %d", c.name, got, len(a.held[steep]), c.want, c.held)
		}
		if (a.judges[steep].Series() == s) != c.reopened {
			t.Errorf("%s: the series under way is %+v", c.name, a.judges[steep].Series())
		}
		if c.want != "" && (s.Decision != narrow || len(a.fates[steep]) != 0) {
			t.Errorf("%s: decision %+v, %d fates left", c.name, s.Decision, len(a.fates[steep]))
		}
		numbered := slices.IndexFunc(s.Legs, func(l coach.Leg) bool { return l.Number == 0 })
		if n := len(s.Legs); numbered >= 0 || n > 0 && s.Legs[n-1].Number != n {
			t.Errorf("%s: the legs are not numbered from 1", c.name)
		}
	}
}

// Until its series is known a leg is the first.
func TestNumber(t *testing.T) {
	a := newAuto(t)
	a.held[steep] = []*coach.Series{{Legs: []coach.Leg{*recordOf(1, 2, 60), *recordOf(3, 4, 60), *recordOf(5, 6, 60)}}}
	a.judges[steep].SetSeries(&coach.Series{Legs: []coach.Leg{*recordOf(7, 8, 60), *recordOf(9, 10, 60)}})
	a.fates[steep] = map[float64]*fate{1: {claimed: &coach.Decision{}}, 3: {}}
	for start, want := range map[float64]int{1: 1, 5: 2, 7: 1, 9: 2, 11: 1} {
		if got := a.number(steep, start); got != want {
			t.Errorf("the leg of %g s is number %d; must be %d", start, got, want)
		}
	}
}

// A slot waits for a judge whose leg began more than a second before the slot's end.
func TestGrowing(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	card, err := lib.Card("wing-over")
	if err != nil {
		t.Fatal(err)
	}
	pilot, err := trainer.New(trainer.Flight{Maneuver: "wing-over", Direction: "right"})
	if err != nil {
		t.Fatal(err)
	}
	a := NewAuto(judge.Options{}, []*plan.Plan{plan.New(card, nil)}, 0)
	if a.growing(&slot{to: 1e9}) {
		t.Error("a slot grows before any leg")
	}
	var s stream.Sample
	for pilot.Step(1.0/60, &s) {
		a.Step(&s)
		start, _, ok := a.judges[0].UnderWay()
		if !ok {
			continue
		}
		for to, want := range map[float64]bool{start: false, start + 1: false, start + 1.01: true} {
			if got := a.growing(&slot{to: to}); got != want {
				t.Errorf("a slot to %g s grows by a leg from %g s: %v", to, start, got)
			}
		}
		return
	}
	t.Fatal("no leg was found")
}
