package speech

import (
	"math"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/web/internal/rules"
)

func TestGiveWay(t *testing.T) {
	var table struct {
		What string
		Rows []struct {
			Comes, ID, Speaking, Words, Level string
			Age                               float64
			Cancel, Say, Wait                 bool
		}
	}
	rules.Read(t, "give-way", &table)
	if len(table.Rows) == 0 {
		t.Fatal("the table is empty")
	}
	for _, r := range table.Rows {
		got := decide(&coach.Callout{Kind: r.Comes, ID: r.ID, Words: r.Words}, Level(r.Level), r.Age, r.Speaking)
		if want := (order{cancel: r.Cancel, say: r.Say, wait: r.Wait}); got != want {
			t.Errorf("%+v: %+v", r, got)
		}
	}
}

func TestCues(t *testing.T) {
	var table struct {
		What string
		Rows []struct {
			Why, Want   string
			Cue         coach.Callout
			Frame       *coach.Frame
			Age, Length float64
		}
	}
	rules.Read(t, "cues", &table)
	if len(table.Rows) == 0 {
		t.Fatal("the table is empty")
	}
	names := map[fate]string{keep: "wait", begin: "start", tooOld: "late", over: "over"}
	now := time.Unix(1_000, 0)
	for _, r := range table.Rows {
		var g *glance
		if r.Frame != nil {
			g = look(r.Frame, now.Add(-time.Duration(r.Age*float64(time.Second))))
		}
		if got := names[g.of(&r.Cue, now, r.Length)]; got != r.Want {
			t.Errorf("%s: %q, the table says %q", r.Why, got, r.Want)
		}
	}
}

func TestLengths(t *testing.T) {
	var table struct {
		What []string
		Rows []struct {
			Words              string
			Syllables, Seconds float64
		}
	}
	rules.Read(t, "syllables", &table)
	if len(table.Rows) == 0 {
		t.Fatal("the table is empty")
	}
	for _, r := range table.Rows {
		if got := syllables(r.Words); got != r.Syllables {
			t.Errorf("%q has %g syllables, the table says %g", r.Words, got, r.Syllables)
		}
		if got := newLengths(175).of(r.Words); math.Abs(got-r.Seconds) > 1e-9 {
			t.Errorf("%q takes %g s, the table says %g", r.Words, got, r.Seconds)
		}
	}
}

func TestLimits(t *testing.T) {
	var table map[string]any
	rules.Read(t, "constants", &table)
	for name, here := range map[string]float64{
		"late":      late,
		"patience":  patience,
		"tolerance": tolerance,
		"blind":     blind,
		"setBack":   setBack,
		"step":      step,
	} {
		if table[name] != here {
			t.Errorf("%s is %g, the table says %v", name, here, table[name])
		}
	}
}
