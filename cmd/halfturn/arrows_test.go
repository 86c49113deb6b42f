package main

import (
	"os/exec"
	"strings"
	"testing"
)

// TestImportArrows holds the direction in which data runs: stream -> coach -> web, wired by cmd.
func TestImportArrows(t *testing.T) {
	pure := []string{"halfturn/coach", "halfturn/coach/aero", "halfturn/coach/callout", "halfturn/coach/aircraft", "halfturn/coach/valid", "halfturn/coach/check", "halfturn/coach/kinds", "halfturn/coach/maneuver", "halfturn/coach/debrief", "halfturn/coach/session"}
	technology := []string{"net", "net/http", "os/exec", "github.com/gorilla/websocket", "github.com/prometheus/client_golang/prometheus", "github.com/rs/zerolog"}
	for _, p := range pure {
		deps := depsOf(t, p)
		for _, bad := range technology {
			if deps[bad] {
				t.Errorf("%s reaches %s: the coach knows no technology", p, bad)
			}
		}
		for d := range deps {
			if strings.HasPrefix(d, "halfturn/stream/") && d != "halfturn/stream/wire" && d != "halfturn/stream/station" {
				t.Errorf("%s reaches %s", p, d)
			}
		}
	}
	// The coach itself takes of stream the Sample and its channels only.
	for d := range depsOf(t, "halfturn/coach") {
		if strings.HasPrefix(d, "halfturn/stream/") {
			t.Errorf("coach reaches %s: it imports of stream only the Sample", d)
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
