package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestCardsMeasure: what is printed is a card, and says what is missing. The recorded airplane
// enters at 118 kt.
func TestCardsMeasure(t *testing.T) {
	status, out, msg := call(t, nil, "cards", "measure", recording)
	if status != exitDone {
		t.Fatal(msg)
	}
	for _, want := range []string{"entry = 117", "rpm", "# stall: not found, no stall was flown",
		"simulator practice only", "apex, glide"} {
		if !strings.Contains(out, want) {
			t.Errorf("the card lacks %q:\n%s", want, out)
		}
	}
	file := filepath.Join(t.TempDir(), "mine.toml")
	if err := os.WriteFile(file, []byte(out), 0o600); err != nil {
		t.Fatal(err)
	}
	if status, out, msg := call(t, nil, "cards", "check", file); status != exitDone ||
		!strings.Contains(out, "good aircraft card") {
		t.Errorf("exit status %d: %s%s", status, out, msg)
	}
	if status, _, msg := call(t, nil, "cards", "measure", file); status != exitFailed ||
		!strings.Contains(msg, "mine.toml") {
		t.Errorf("exit status %d: %s", status, msg)
	}
}
