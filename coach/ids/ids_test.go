package ids_test

import (
	"testing"
	"time"

	"halfturn/coach/ids"
)

// TestNew: ids differ, and sort by time. The time of 01ARYZ6S41 is that of the README of github.com/ulid/javascript.
func TestNew(t *testing.T) {
	at := time.UnixMilli(1469918176385)
	a, b, later := ids.New(at), ids.New(at), ids.New(at.Add(time.Millisecond))
	if a == b || a >= later || b >= later || a[:10] != "01ARYZ6S41" {
		t.Errorf("%s, %s, later %s", a, b, later)
	}
	for _, at := range []time.Time{{}, time.UnixMilli(1 << 60)} {
		if id := ids.New(at); !ids.Valid(id) {
			t.Errorf("%v: %s", at, id)
		}
	}
}

// TestDerive: the same parts give the same id, and others give others.
func TestDerive(t *testing.T) {
	at := time.UnixMilli(1469918176385)
	seen := map[string][]string{}
	for _, parts := range [][]string{{}, {""}, {"a"}, {"a", ""}, {"a", "b"}, {"ab"}, {"", "ab"}} {
		id := ids.Derive(at, parts...)
		if was, ok := seen[id]; ok {
			t.Errorf("%q and %q give %s", was, parts, id)
		}
		seen[id] = parts
		if !ids.Valid(id) || id[:10] != "01ARYZ6S41" || id != ids.Derive(at, parts...) {
			t.Errorf("%q: %s", parts, id)
		}
	}
	if ids.Derive(at, "a") == ids.Derive(at.Add(time.Millisecond), "a") {
		t.Error("another time gives the same id")
	}
}

func TestValid(t *testing.T) {
	for s, want := range map[string]bool{"01ARZ3NDEKTSV4RRFFQ69G5FAV": true, "": false, "01ARZ3NDEK": false,
		"01ARZ3NDEKTSV4RRFFQ69G5FA!": false} {
		if ids.Valid(s) != want {
			t.Errorf("%q: %v", s, !want)
		}
	}
}
