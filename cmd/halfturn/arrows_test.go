package main

import (
	"os/exec"
	"strings"
	"testing"
)

// TestImportArrows holds the direction in which data runs: stream -> coach -> web, wired by cmd.
func TestImportArrows(t *testing.T) {
	pure := []string{"halfturn/coach/aero", "halfturn/coach/callout", "halfturn/coach/aircraft", "halfturn/coach/valid", "halfturn/coach/check", "halfturn/coach/kinds", "halfturn/coach/maneuver", "halfturn/coach/debrief", "halfturn/coach/session"}
	core := []string{"halfturn/coach", "halfturn/coach/ground", "halfturn/coach/track", "halfturn/coach/plan", "halfturn/coach/sampling", "halfturn/coach/score", "halfturn/coach/judge", "halfturn/coach/follow", "halfturn/coach/measure"}
	pure = append(pure, core...)
	technology := []string{"net", "net/http", "os/exec", "github.com/gorilla/websocket", "github.com/prometheus/client_golang/prometheus", "github.com/rs/zerolog"}
	for _, p := range pure {
		deps := depsOf(t, p)
		for _, bad := range technology {
			if deps[bad] {
				t.Errorf("%s reaches %s: the coach knows no technology", p, bad)
			}
		}
		for d := range deps {
			if strings.HasPrefix(d, "halfturn/stream/") && !decodes(d) {
				t.Errorf("%s reaches %s", p, d)
			}
		}
	}
	// The core takes of stream the Sample and its channels only, and the vocabulary takes nothing.
	for _, p := range core {
		for d := range depsOf(t, p) {
			if strings.HasPrefix(d, "halfturn/stream/") {
				t.Errorf("%s reaches %s: it imports of stream only the Sample", p, d)
			}
			if p == "halfturn/coach" && d != p && strings.HasPrefix(d, "halfturn/") {
				t.Errorf("%s reaches %s: the vocabulary imports nothing of the program", p, d)
			}
		}
	}
	// The tracker knows nothing of a card.
	for d := range depsOf(t, "halfturn/coach/track") {
		if d == "halfturn/coach/maneuver" || d == "halfturn/coach/plan" {
			t.Errorf("track reaches %s", d)
		}
	}
	for _, p := range list(t, "./...") {
		if p == "halfturn/cmd/halfturn" || strings.HasPrefix(p, "halfturn/web") {
			continue
		}
		for d := range depsOf(t, p) {
			if strings.HasPrefix(d, "halfturn/web") && p != d {
				t.Errorf("%s reaches %s: nothing imports web", p, d)
			}
			if strings.HasPrefix(p, "halfturn/stream") && strings.HasPrefix(d, "halfturn/coach") {
				t.Errorf("%s reaches %s: stream knows nothing of the coach", p, d)
			}
		}
	}
}

// decodes tells whether a package is on the way from a datagram to a sample.
func decodes(p string) bool {
	for _, part := range []string{"attitude", "derive", "pipeline", "timebase", "wire"} {
		if below := "halfturn/stream/" + part; p == below || strings.HasPrefix(p, below+"/") {
			return true
		}
	}
	return false
}

func list(t *testing.T, args ...string) []string {
	t.Helper()
	cmd := exec.Command("go", append([]string{"list"}, args...)...)
	cmd.Dir = "../.."
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list %v: %v", args, err)
	}
	return strings.Fields(string(out))
}

func depsOf(t *testing.T, p string) map[string]bool {
	t.Helper()
	set := map[string]bool{}
	for _, d := range list(t, "-deps", p) {
		set[d] = true
	}
	return set
}
