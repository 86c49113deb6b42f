package text

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/layout"
	"halfturn/coach/layout/layouttest"
)

var update = flag.Bool("update", false, "write the golden files")

// handMade is a report with everything a report can hold, as package debrief writes it.
func handMade(t *testing.T) *debrief.Report {
	t.Helper()
	data, err := os.ReadFile("../testdata/report.json")
	if err != nil {
		t.Fatal(err)
	}
	r := &debrief.Report{}
	if err := json.Unmarshal(data, r); err != nil {
		t.Fatal(err)
	}
	return r
}

func TestReport(t *testing.T) {
	var b bytes.Buffer
	if err := Report(&b, handMade(t), nil); err != nil {
		t.Fatal(err)
	}
	const golden = "testdata/report.txt"
	if *update {
		if err := os.WriteFile(golden, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), b.String()); diff != "" {
		t.Errorf("differs from %s (run with -update to accept):\n%s", golden, diff)
	}
	for _, caution := range coach.Cautions {
		if !strings.Contains(b.String(), caution) {
			t.Errorf("caution missing: %s", caution)
		}
	}
}

// faulty counts the writes and fails one of them.
type faulty struct{ n, fails int }

var errFull = errors.New("no space left")

func (w *faulty) Write(p []byte) (int, error) {
	if w.n++; w.n-1 == w.fails {
		return 0, errFull
	}
	return len(p), nil
}

// Whichever write fails, Report says so, also when those after it succeed.
func TestWriterFails(t *testing.T) {
	whole := &faulty{fails: -1}
	if err := Report(whole, handMade(t), nil); err != nil || whole.n < 30 {
		t.Fatalf("%d writes, %v", whole.n, err)
	}
	for i := range whole.n {
		if err := Report(&faulty{fails: i}, handMade(t), nil); !errors.Is(err, errFull) {
			t.Errorf("write %d of %d: %v", i, whole.n, err)
		}
	}
}

// Every verdict has its mark, and all are as wide.
func TestMark(t *testing.T) {
	seen := []string{}
	for _, v := range []string{coach.Met, coach.Near, coach.Missed, coach.NotMeasured} {
		m := mark(nil, v)
		if strings.TrimSpace(m) == "" || len([]rune(m)) != 6 || slices.Contains(seen, m) {
			t.Errorf("%s: %q", v, m)
		}
		seen = append(seen, m)
	}
}

// The cards a recording was judged by stand in one line, each with where it was chosen.
func TestJudgedBy(t *testing.T) {
	by := &debrief.JudgedBy{
		Maneuver: debrief.UsedCards{Names: []string{"wing-over", "lazy-eight"}, From: debrief.FromRecord},
		Standard: debrief.UsedCards{Names: []string{"training"}, From: debrief.FromFlag},
		Aircraft: debrief.UsedCards{Names: []string{""}, From: debrief.FromSession},
	}
	const want = "Judged by: maneuver wing-over, then lazy-eight (as flown), standard training (--standard)," +
		" aircraft none (as imported)"
	if got := JudgedBy(by, nil); got != want {
		t.Errorf("%s; must be %s", got, want)
	}
	if got := Origin(&debrief.UsedCards{}, "aircraft", nil); got != "as configured" {
		t.Errorf("%q; must be %q", got, "as configured")
	}
	var b bytes.Buffer
	r := &debrief.Report{Files: []debrief.FileReport{{File: "a.pcap", Error: "it ends early", By: by}}}
	if err := Report(&b, r, nil); err != nil {
		t.Fatal(err)
	}
	wanted := "a.pcap\n  not read to its end: it ends early\n  " + want + "\n"
	if !strings.Contains(b.String(), wanted) {
		t.Errorf("%s; must hold %s", b.String(), wanted)
	}
}

// The best leg is named where there are several.
func TestBestLeg(t *testing.T) {
	best := debrief.Best{Series: 2, Leg: 1, Direction: "left", Score: 91.6}
	for _, c := range []struct {
		summary debrief.Summary
		want    string
	}{
		{
			debrief.Summary{Legs: 3, Finished: 2, Best: best},
			"In all: 3 legs, 2 finished; best leg 1 of series 2 to the left, 92 of 100\n",
		},
		{debrief.Summary{Legs: 1, Finished: 1, Best: best}, "In all: one leg, 1 finished\n"},
		{debrief.Summary{Legs: 2}, "In all: 2 legs, 0 finished\n"},
	} {
		var b bytes.Buffer
		if err := Flown(&b, &debrief.StationReport{Summary: &c.summary}, nil); err != nil {
			t.Fatal(err)
		}
		if !strings.HasSuffix(b.String(), c.want) {
			t.Errorf("%q; must end with %q", b.String(), c.want)
		}
	}
}

// TestScreens: a report fits terminals of 80 and of 120 columns, with a shape for each verdict, and looks as accepted.
func TestScreens(t *testing.T) {
	for _, columns := range layouttest.Widths {
		screen := &layouttest.Terminal{Columns: columns}
		if err := Report(screen, handMade(t), nil); err != nil {
			t.Fatal(err)
		}
		text := strings.NewReplacer(string(layout.Bold), "", string(layout.Faint), "", string(layout.Plain), "").
			Replace(screen.String())
		layouttest.Fits(t, text, columns)
		layouttest.Golden(t, *update, fmt.Sprintf("report-%d.txt", columns), text)
		for _, glyph := range []string{"⊘ MISSED", "◐ near", "● met", "◌ –"} {
			if !strings.Contains(text, glyph) {
				t.Errorf("%d columns: %s is missing", columns, glyph)
			}
		}
	}
}

// Checks stand worst first, and otherwise in the order of the card.
func TestWorstFirst(t *testing.T) {
	var list []coach.Check
	for i, v := range []string{coach.Met, coach.Near, coach.NotMeasured, coach.Missed, coach.Met, coach.Missed} {
		list = append(list, coach.Check{ID: fmt.Sprint(i), Verdict: v})
	}
	order := ""
	for _, k := range worstFirst(list) {
		order += k.ID
	}
	if order != "351042" {
		t.Errorf("order %s; must be 351042", order)
	}
}
