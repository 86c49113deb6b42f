package fault

import (
	"errors"
	"math"
	"strings"
	"testing"

	"halfturn/stream"
)

// Every error has a label of its own that fits a metric.
func TestReasons(t *testing.T) {
	seen := map[string]bool{}
	for err, label := range reasons {
		fits := !strings.ContainsAny(label, " _\n") && label == strings.ToLower(label)
		if Reason(err) != label || label != "" && (seen[label] || !fits) {
			t.Errorf("%v: %q", err, label)
		}
		seen[label] = true
	}
	if Reason(nil) != "" || Reason(errors.New("x")) != "other" {
		t.Error("nil or a foreign error")
	}
}

// A sample with any value is of use, unless its time is impossible.
func TestUse(t *testing.T) {
	var empty, bad, good, untimed stream.Sample
	bad.Put(stream.Pitch, math.NaN())
	good.Put(stream.Pitch, 1)
	untimed.Put(stream.Pitch, 1)
	untimed.Put(stream.Time, -1)
	for _, tt := range []struct {
		name            string
		s               *stream.Sample
		hollow, useless error
	}{
		{"empty", &empty, Malformed, Malformed},
		{"nothing that is possible", &bad, Value, Value},
		{"a value", &good, nil, nil},
		{"a value at an impossible time", &untimed, nil, Value},
	} {
		if h, u := OfHollow(tt.s), OfUseless(tt.s); h != tt.hollow || u != tt.useless {
			t.Errorf("%s: %v, %v", tt.name, h, u)
		}
	}
}
