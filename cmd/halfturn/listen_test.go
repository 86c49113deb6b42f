package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A station named with a card that does not exist is told before anything starts.
func TestNamedStationWrongCard(t *testing.T) {
	file := filepath.Join(t.TempDir(), "c.toml")
	if err := os.WriteFile(file, []byte("[[station]]\naddress = '127.0.0.1'\nname = 'Seat 3'\nmaneuver = 'loop'\n"),
		0o600); err != nil {
		t.Fatal(err)
	}
	status, _, msg := call(t, nil, "serve", "--config", file, "--data", t.TempDir(), "--log-level", "error", "--http",
		"127.0.0.1:0", "--udp", "127.0.0.1:0")
	if status != exitUsage || !strings.Contains(msg, "c.toml:4: station[0].maneuver: there is no") ||
		!strings.Contains(msg, "there are: chandelle-civil") {
		t.Errorf("exit status %d: %s", status, msg)
	}
}
