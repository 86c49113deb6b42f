package hub

import (
	"encoding/json"
	"maps"
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/web/internal/rules"
)

// TestEntry: the first degrees of a turn, as the pages find them in the frames they saw.
func TestEntry(t *testing.T) {
	type moment struct {
		Time, Turn                             float64
		Heading, Bank, Climb, Altitude, Height *float64
	}
	var table struct {
		What []string
		Rows []struct {
			Why, Direction string
			Level, Want    []moment
			First          moment
		}
	}
	rules.Read(t, "entry", &table)
	if len(table.Rows) == 0 {
		t.Fatal("the table is empty")
	}
	frame := func(m moment, state, direction string) *coach.Frame {
		f := &coach.Frame{Time: m.Time, Turn: m.Turn, State: state, Direction: direction, Climb: m.Climb}
		f.Values = map[string]float64{"pitch": 0}
		for name, v := range map[string]*float64{"heading": m.Heading, "bank": m.Bank, "altitude": m.Altitude} {
			if v != nil {
				f.Values[name] = *v
			}
		}
		return f
	}
	for _, r := range table.Rows {
		var tr tracer
		for _, m := range r.Level {
			tr.add(frame(m, "set-up", ""))
		}
		got := []moment{}
		for _, p := range tr.sinceEntry(frame(r.First, "turn", r.Direction)) {
			bank := p.Bank
			got = append(got, moment{Time: p.Time, Turn: math.Round(p.Turn*1e6) / 1e6, Bank: &bank, Height: p.Height})
		}
		if d := cmp.Diff(r.Want, got); d != "" {
			t.Errorf("%s: %s", r.Why, d)
		}
	}
}

func TestVocabulary(t *testing.T) {
	var table struct {
		What                                                 string
		Verdicts, Grades, Outcomes, Callouts, Turning, Level []string
	}
	rules.Read(t, "vocabulary", &table)
	for name, lists := range map[string][2][]string{
		"verdicts": {table.Verdicts, {coach.Met, coach.Near, coach.Missed, coach.NotMeasured}},
		"grades":   {table.Grades, {coach.Unable, coach.Fair, coach.Good, coach.Excellent}},
		"outcomes": {table.Outcomes, {coach.Finished, coach.BrokenOff, coach.KnockOff}},
		"callouts": {table.Callouts, {coach.Safety, coach.Clear, coach.Said, coach.Watch, coach.Cue, coach.After,
			coach.Result, coach.NextTime, coach.SetUpSaid, coach.Done, coach.Again}},
	} {
		if d := cmp.Diff(lists[0], lists[1]); d != "" {
			t.Errorf("%s: %s", name, d)
		}
	}
	// A trace begins in the states of a turn, and in no other.
	for _, state := range slices.Concat(table.Turning, table.Level) {
		var tr tracer
		tr.add(&coach.Frame{State: state, Turn: 5, Direction: "left"})
		if turning := slices.Contains(table.Turning, state); len(tr.points) > 0 != turning {
			t.Errorf("in the state %q a trace has %d points", state, len(tr.points))
		}
	}
}

func TestLimits(t *testing.T) {
	var table map[string]json.RawMessage
	rules.Read(t, "constants", &table)
	here := map[string]float64{
		"setBack":    setBack,
		"levelKept":  levelKept,
		"levelApart": levelApart,
		"seriesKept": seriesKept,
	}
	for _, name := range slices.Sorted(maps.Keys(here)) {
		var want float64
		if err := json.Unmarshal(table[name], &want); err != nil || want != here[name] {
			t.Errorf("%s is %g, the table says %s", name, here[name], table[name])
		}
	}
}
