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
	for _, want := range []string{"120 to 140 kt", "59 to 81 kt", "bank at 90° of turn", "60 to 88°", "CTS155A",
		"simulator practice only"} {
		if !strings.Contains(out, want) {
			t.Errorf("show lacks %q:\n%s", want, out)
		}
	}
	if _, out, _ = call(t, nil, "cards", "show", "wing-over", "--aircraft", ""); !strings.Contains(out,
		"from the entry (not known)") {
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
	for _, want := range []string{"54° missed 0", "57° near 60", "60° met 85", "67.5° met 100", "88° met 85",
		"Less bank at the top", "simulator practice only"} {
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

// A card is named before its check, as cards show names it; the words are taken in the other order too where it
// is clear what they are.
func TestCardsExplainWords(t *testing.T) {
	file := filepath.Join(t.TempDir(), "mine.toml")
	if status, _, msg := call(t, nil, "cards", "new", "--from", "wing-over", file); status != exitDone {
		t.Fatal(msg)
	}
	_, want, _ := call(t, nil, "cards", "explain", "bank-at-90", "--maneuver", "wing-over")
	for _, words := range [][]string{{"wing-over", "bank-at-90"}, {"bank-at-90", "wing-over"}, {file, "bank-at-90"},
		{"wing-over", "bank-at-90", "--maneuver", "wing-over"}} {
		if status, out, msg := call(t, nil, append([]string{"cards", "explain"}, words...)...); status != exitDone ||
			out != want {
			t.Errorf("%v: exit status %d, %s%s", words, status, msg, out)
		}
	}
	if _, out, _ := call(t, nil, "cards", "explain", "bank-at-90"); strings.Count(out, "(bank-at-90)") < 2 {
		t.Errorf("a check alone is of every card:\n%s", out)
	}
	for _, c := range []struct {
		words []string
		want  string
	}{
		{[]string{"wing-over"}, "which check is meant is missing; there are: "},
		{[]string{"wing-over", "bank-at-91"}, `there is no check "bank-at-91"; there are: `},
		{[]string{"loop", "bank-at-90"}, `there is no maneuver card "loop"; there are: `},
		{[]string{"wing-over", "bank-at-90", "--maneuver", "lazy-eight"}, "two cards are named"},
		{[]string{"no.toml", "bank-at-90"}, "no.toml: no such file"},
	} {
		if status, _, msg := call(t, nil, append([]string{"cards", "explain"}, c.words...)...); status != exitUsage ||
			!strings.Contains(msg, c.want) {
			t.Errorf("%v: exit status %d, %q", c.words, status, msg)
		}
	}
	if _, out, _ := call(t, nil, "cards", "show", "wing-over"); !strings.Contains(out,
		"halfturn cards explain wing-over ") {
		t.Error("cards show names another order")
	}
}

// Standards are cards like the others: listed, shown, copied, begun from and checked.
func TestCardsOfStandards(t *testing.T) {
	dir := t.TempDir()
	if _, out, _ := call(t, nil, "cards"); !strings.Contains(out, "Standards\n") ||
		!strings.Contains(out, "  practice ") {
		t.Errorf("listed:\n%s", out)
	}
	if status, out, msg := call(t, nil, "cards", "show", "check"); status != exitDone ||
		!strings.Contains(out, "widen") {
		t.Errorf("shown: %d %s%s", status, out, msg)
	}
	if status, _, msg := call(t, nil, "cards", "copy", "check", dir); status != exitDone {
		t.Errorf("copied: %s", msg)
	}
	mine := filepath.Join(dir, "standards", "mine.toml")
	if status, out, msg := call(t, nil, "cards", "new", "--from", "check", mine); status != exitDone ||
		!strings.Contains(out, "--standard mine") {
		t.Errorf("begun: %s%s", out, msg)
	}
	status, out, msg := call(t, nil, "cards", "check", mine, filepath.Join(dir, "standards", "check.toml"))
	if status != exitDone || strings.Count(out, "a good standard card") != 2 {
		t.Errorf("checked: %d %s%s", status, out, msg)
	}
	if status, _, msg := call(t, nil, "brief", "--cards", dir, "--standard", "mine"); status != exitDone {
		t.Errorf("used: %s", msg)
	}
}

// A wrong card is told with the folder it is in.
func TestCardsFolderIsNamed(t *testing.T) {
	for name, c := range map[string]struct {
		text, want string
	}{
		"wing-over.toml": {"name = 3\n", "wing-over.toml:1: name: is a TOML integer; must be a string"},
		"other.toml":     {"", "other.toml: name: is missing"},
	} {
		dir := t.TempDir()
		folder := filepath.Join(dir, "maneuvers")
		file := filepath.Join(folder, name)
		if err := os.MkdirAll(folder, 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(c.text), 0o600); err != nil {
			t.Fatal(err)
		}
		status, _, msg := call(t, nil, "brief", "--cards", dir)
		if status != exitFailed || !strings.Contains(msg, file+":") || !strings.Contains(msg, c.want) {
			t.Errorf("%s: exit status %d, %q", name, status, msg)
		}
	}
}

func TestCardsNew(t *testing.T) {
	file := filepath.Join(t.TempDir(), "mine.toml")
	if status, out, msg := call(t, nil, "cards", "new", "--from", "wing-over", file); status != exitDone ||
		!strings.Contains(out, "--maneuver "+file) {
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
	if status, out, _ := call(t, nil, "brief", "--maneuver", file); status != exitDone ||
		!strings.Contains(out, "Wing-over") {
		t.Error("the new card cannot be used")
	}
	for _, again := range []string{file, filepath.Join(t.TempDir(), "Not A Name.toml"),
		filepath.Join(t.TempDir(), "mine.txt")} {
		if status, _, _ := call(t, nil, "cards", "new", "--from", "wing-over", again); status == exitDone {
			t.Errorf("%s was written", again)
		}
	}
}
