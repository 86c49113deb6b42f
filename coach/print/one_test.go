package print_test

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/print"
	"halfturn/stream/phrase"
)

// read returns the pages of a debrief as poppler reads them, their spaces as they stand on the paper.
func read(t *testing.T, paper string, d *print.Debrief) []string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "d.pdf")
	var b bytes.Buffer
	if err := print.Write(&b, paper, d); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-layout", name, "-").Output()
	if err != nil {
		t.Fatalf("pdftotext: %v; install poppler-utils", err)
	}
	return strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
}

// TestOnePage: a leg is one page on either paper, however many checks it has, with the verdict, what to change, the
// checks that were not met, how many are left out, and the cautions.
func TestOnePage(t *testing.T) {
	d := flown()
	d.All = false
	l := &d.Legs[0]
	l.Headline = phrase.Plain("Not yet: Speed at 90°; 20 of 24 within limits")
	for i := range 40 {
		l.Checks = append(l.Checks, coach.Check{ID: fmt.Sprint("more-", i), Label: fmt.Sprintf("Check number %d", i),
			Value: x(float64(i)), Unit: "°", Verdict: coach.Met})
	}
	better := *l
	better.Score, better.Verdict, better.Direction = 99, coach.Met, "left"
	d.Legs = append([]print.Leg{{Leg: better.Leg, Plan: l.Plan}}, d.Legs...)
	for _, paper := range print.Papers {
		pages := read(t, paper, d)
		if len(pages) != 1 {
			t.Errorf("%s: %d pages, not 1", paper, len(pages))
		}
		flat := strings.Join(strings.Fields(pages[0]), " ")
		for _, part := range []string{"Wing-over to the right", "Zoë Müller-Ångström", "leg 2 of 2",
			"Not yet: Speed at 90°; 20 of 24 within limits",
			"The one thing to change Pull more gently in the first 45°.",
			"more, all met", "Also flown: Leg 1 to the left: met", "Instructor", "For simulator practice only.",
			"It gives no credit toward a license.", "page 1 of 1", "entry", "Bank"} {
			if !strings.Contains(flat, part) {
				t.Errorf("%s: lacks %q", paper, part)
			}
		}
		first, second := strings.Index(flat, "Speed at 90° 58"), strings.Index(flat, "Bank at 90°")
		if first < 0 || second < first {
			t.Errorf("%s: the missed check at %d does not come before the one that was met at %d", paper, first, second)
		}
	}
}

// TestOnePageOfAStoppedLeg: what stopped a leg comes before what to change.
func TestOnePageOfAStoppedLeg(t *testing.T) {
	d := flown()
	d.All = false
	d.Legs[0].Outcome, d.Legs[0].Reason = coach.KnockOff, phrase.Stalled.Of()
	flat := strings.Join(strings.Fields(read(t, "a4", d)[0]), " ")
	if !strings.Contains(flat, "The one thing to change Stalled. Pull more gently in the first 45°. Pull less.") {
		t.Errorf("what stopped it is not first: %s", flat)
	}
}
