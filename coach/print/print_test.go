package print_test

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/coach/print"
	"halfturn/stream/phrase"
)

func x(v float64) *float64 { return &v }

func flown() *print.Debrief {
	l := coach.Leg{Number: 1, Direction: "right", Outcome: coach.Finished, Start: 10, End: 40,
		Entry:   coach.Point{Values: map[string]float64{"pitch": 2}},
		Verdict: coach.Near, Score: 81, Grade: coach.Good, Change: phrase.Plain("Pull more gently in the first 45°."),
		Checks: []coach.Check{{ID: "bank-at-90", Label: "Bank at 90°", Turn: x(90), Value: x(-74.1), Unit: "°",
			Aim: x(75), Met: [2]*float64{x(60), x(90)}, Verdict: coach.Met},
			{ID: "speed", Label: "Speed at 90°", Turn: x(90), Value: x(58), Unit: "kt", Met: [2]*float64{x(65), nil},
				Verdict: coach.Missed},
			{ID: "height", Label: "Height at the exit", Value: x(90), Unit: "ft", Verdict: coach.Near},
			{ID: "roll", Label: "Roll-in as quick as the roll-out", Value: x(1.2), Unit: "ratio", Verdict: coach.Near},
			{ID: "ball", Label: "Ball", Unit: "balls", Weight: 1, Verdict: coach.NotMeasured}},
		Causes: []coach.Cause{{ID: "nose-high", Evidence: phrase.Plain("The nose was high."),
			Advice: phrase.Plain("Pull less.")}}}
	for turn := 0.0; turn <= 180; turn++ {
		l.Trace = append(l.Trace, coach.Trace{Turn: turn, Time: 10 + turn/6, Bank: turn * (180 - turn) / 108, Pitch: 2,
			Airspeed: x(120), Height: x(turn)})
	}
	plan := &message.Chart{Title: "Wing-over", Standard: "course", Turn: 180,
		Checkpoints: []message.Checkpoint{{Turn: 90, Label: "90°"}, {Turn: 180, Label: "out"}},
		Lanes: []message.Lane{{Channel: "bank", Title: phrase.Read("Bank"),
			Unit: "°", Low: -8, High: 95, Ticks: []float64{0, 45,
				90}, Corridor: []message.Corridor{{Turn: 0, Low: -5, Aim: 0, High: 5}, {Turn: 180, Low: -5, Aim: 0,
				High: 5}}},
			{Channel: "airspeed", Title: phrase.Read("Speed"),
				Unit: "kt", Low: 40, High: 160, Ticks: []float64{60, 120}}}}
	said := []coach.Callout{{Time: 12, Kind: coach.Cue, Words: "Nose up", Turn: 5}}
	return &print.Debrief{
		All:     true,
		Title:   "evening",
		Student: "Zoë Müller-Ångström",
		Station: "seat 3",
		Began:   time.Date(2026, 3, 1, 18, 0, 0, 0, time.UTC),
		Legs:    []print.Leg{{Leg: l, Plan: plan, Callouts: said}},
	}
}

func TestSameDebriefSameFile(t *testing.T) {
	for _, paper := range print.Papers {
		var a, b bytes.Buffer
		if err := print.Write(&a, paper, flown()); err != nil {
			t.Fatal(err)
		}
		if err := print.Write(&b, paper, flown()); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Errorf("%s: two files of one debrief differ", paper)
		}
	}
	err := print.Write(io.Discard, "a3", flown())
	if err == nil || !strings.Contains(err.Error(), "must be a4 or letter") {
		t.Errorf("unknown paper: %v", err)
	}
}

// TestRead reads the file with poppler, another program than the one that wrote it.
func TestRead(t *testing.T) {
	name := filepath.Join(t.TempDir(), "d.pdf")
	var b bytes.Buffer
	if err := print.Write(&b, "a4", flown()); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-layout", name, "-").Output()
	if err != nil {
		t.Fatalf("pdftotext: %v; install poppler-utils", err)
	}
	pages := strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
	if len(pages) != 2 {
		t.Errorf("%d pages, want 2", len(pages))
	}
	for i, p := range pages {
		flat := strings.Join(strings.Fields(p), " ")
		for _, want := range []string{"For simulator practice only.", "It gives no credit toward a license.", "of 2"} {
			if !strings.Contains(flat, want) {
				t.Errorf("page %d lacks %q", i+1, want)
			}
		}
		if !strings.HasPrefix(flat, "Simulator practice only. Never for use in an aircraft.") {
			t.Errorf("page %d does not begin with the caution: %.80s", i+1, flat)
		}
	}
	for _, line := range strings.Split(string(out), "\n") { // a mark does not move the row it stands in
		for label, verdict := range map[string]string{
			"Height at the exit":               "near",
			"Roll-in as quick as the roll-out": "near",
			"Speed at 90°":                     "missed",
			"Bank at 90°":                      "met",
		} {
			if strings.Contains(line, label) && !strings.HasSuffix(strings.TrimSpace(line), verdict) {
				t.Errorf("%q is not in one row with its verdict: %q", label, line)
			}
		}
	}
	for _, want := range []string{"Zoë Müller-Ångström", "Instructor", "−74.1°", "60 to 90°", "at least 65 kt",
		"not measured", "Pull more gently in the first 45°.", "Nose up"} {
		if !strings.Contains(string(out), want) {
			t.Errorf("lacks %q", want)
		}
	}
}

// TestWhatIsMissingIsPrinted: a series without all its legs says so where one of them is printed, and a leg that was
// not judged has no score.
func TestWhatIsMissingIsPrinted(t *testing.T) {
	d := flown()
	blind := d.Legs[0]
	blind.Verdict, blind.Score, blind.Grade, blind.Start, blind.Change = coach.NotMeasured, 0, "", 60, phrase.Phrase{}
	d.Legs = append(d.Legs, blind)
	d.Series = []coach.Series{
		{Maneuver: "wing-over", Missing: phrase.Read("1 of 2 legs finished, one to the left is missing"),
			Legs: []coach.Leg{d.Legs[0].Leg}},
		{Maneuver: "steep-turn", Missing: phrase.Read("0 of 2 legs finished"), Legs: []coach.Leg{{Start: 500}}},
	}
	name := filepath.Join(t.TempDir(), "d.pdf")
	var b bytes.Buffer
	if err := print.Write(&b, "a4", d); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-layout", name, "-").Output()
	if err != nil {
		t.Fatalf("pdftotext: %v; install poppler-utils", err)
	}
	text := string(out)
	if !strings.Contains(text, "Wing-over, not complete: 1 of 2 legs finished, one to the left is missing.") ||
		strings.Contains(text, "0 of 2 legs finished") {
		t.Errorf("what is missing is not told:\n%s", text)
	}
	if strings.Contains(text, "score 0") || strings.Contains(text, "no grade,") {
		t.Errorf("a leg that was not judged has a score:\n%s", text)
	}
	for _, line := range strings.Split(text, "\n") {
		if f := strings.Fields(line); len(f) > 2 && f[0] == "2" && f[1] == "Wing-over" && !strings.Contains(line, "–") {
			t.Errorf("a leg that was not judged has a score: %q", line)
		}
	}
}

// TestChecksOnOnePage prints a leg with as many lanes and checks as the shipped cards have.
func TestChecksOnOnePage(t *testing.T) {
	for _, paper := range print.Papers {
		d := flown()
		l := &d.Legs[0]
		for len(l.Plan.Lanes) < 4 {
			l.Plan.Lanes = append(l.Plan.Lanes, l.Plan.Lanes[0])
		}
		l.Change = phrase.ChangeLessBank.Of()
		for len(l.Checks) < 25 {
			l.Checks = append(l.Checks, l.Checks[0])
		}
		l.Checks[24].Label = "The last check"
		name := filepath.Join(t.TempDir(), "d.pdf")
		var b bytes.Buffer
		if err := print.Write(&b, paper, d); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, b.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command("pdftotext", "-f", "2", "-l", "2", "-layout", name, "-").Output()
		if err != nil {
			t.Fatalf("pdftotext: %v; install poppler-utils", err)
		}
		if !strings.Contains(string(out), "Less bank") || !strings.Contains(string(out), "The last check") {
			t.Errorf("%s: the checks go on to another page", paper)
		}
	}
}
