package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestCardsShow(t *testing.T) {
	// Of the radial-engine trainer: entry 130 kt, apex 70 kt; the wing-over's bands about them are ±10 and ±11.
	_, out, _ := call(t, nil, "cards", "show", "wing-over", "--aircraft", "radial-trainer")
	for _, want := range []string{"120 to 140 kt", "59 to 81 kt", "bank at 90° of turn", "60 to 88°", "CTS155A", "simulator practice only"} {
		if !strings.Contains(out, want) {
			t.Errorf("show lacks %q:\n%s", want, out)
		}
	}
	if _, out, _ = call(t, nil, "cards", "show", "wing-over", "--aircraft", ""); !strings.Contains(out, "from the entry (not known)") {
		t.Errorf("bands without an aircraft:\n%s", out)
	}
	_, raw, _ := call(t, nil, "cards", "show", "--raw", "wing-over")
	if !strings.Contains(raw, "[[checkpoint]]") || !strings.HasPrefix(raw, "#") {
		t.Errorf("raw is not the file: %.80q", raw)
	}
}

func TestCardsExplain(t *testing.T) {
	_, out, _ := call(t, nil, "cards", "explain", "bank-at-90", "--maneuver", "wing-over")
	// The scale of DEVELOPERS.md, by hand: 100 to half way (67.5°), 85 at 60°, 60 at 57°, 0 at 54°.
	for _, want := range []string{"54° missed 0", "57° near 60", "60° met 85", "67.5° met 100", "88° met 85", "Less bank at the top", "simulator practice only"} {
		if !strings.Contains(out, want) {
			t.Errorf("explain lacks %q:\n%s", want, out)
		}
	}
	if strings.Contains(out, "Chandelle") {
		t.Error("explains another card's check too")
	}
	status, _, msg := call(t, nil, "cards", "explain", "bank-at-91", "--maneuver", "wing-over")
	if status != exitUsage || !strings.Contains(msg, "bank-at-90") {
		t.Errorf("exit status %d: %s", status, msg)
	}
}

func TestCardsNew(t *testing.T) {
	file := filepath.Join(t.TempDir(), "mine.toml")
	if status, out, msg := call(t, nil, "cards", "new", "--from", "wing-over", file); status != exitDone || !strings.Contains(out, "--maneuver "+file) {
		t.Fatalf("exit status %d: %s%s", status, out, msg)
	}
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if strings.Count(string(text), `name = "mine"`) != 1 || !strings.Contains(string(text), `name = "over the top"`) {
		t.Error("the card's name alone is to change")
	}
	if status, _, msg := call(t, nil, "cards", "check", file); status != exitDone {
		t.Error(msg)
	}
	if status, out, _ := call(t, nil, "brief", "--maneuver", file); status != exitDone || !strings.Contains(out, "Wing-over") {
		t.Error("the new card cannot be used")
	}
	for _, again := range []string{file, filepath.Join(t.TempDir(), "Not A Name.toml"), filepath.Join(t.TempDir(), "mine.txt")} {
		if status, _, _ := call(t, nil, "cards", "new", "--from", "wing-over", again); status == exitDone {
			t.Errorf("%s was written", again)
		}
	}
}
