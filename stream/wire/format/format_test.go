package format_test

import (
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/mapping"
)

// A silence is worth advice after ten datagrams that were understood: at once when no sample ever came, after three
// seconds when there were some.
func TestSilence(t *testing.T) {
	for s, want := range map[format.Silence]bool{
		{Parts: 9}:                            false,
		{Parts: 10}:                           true,
		{Parts: 10, Ever: true, Since: 2.9}:   false,
		{Parts: 10, Ever: true, Since: 3}:     true,
		{Parts: 9, Ever: true, Since: 60}:     false,
		{Failures: 100, Ever: true, Since: 9}: false,
	} {
		if s.Lasts() != want {
			t.Errorf("%+v lasts: %v; must be %v", s, s.Lasts(), want)
		}
	}
}

// Without maps of the user's the shipped ones are chosen from; a map of the user's is the only one.
func TestComplete(t *testing.T) {
	shipped := format.Options{}.Complete()
	if len(shipped.Maps) != len(mapping.Shipped()) || len(shipped.Marked()) == 0 {
		t.Errorf("%d maps, %d of them for marked records", len(shipped.Maps), len(shipped.Marked()))
	}
	mine := mapping.ShippedNamed("flightgear")
	if mine == nil {
		t.Fatal("the shipped map is gone")
	}
	if o := (format.Options{Map: mine}).Complete(); len(o.Maps) != 1 || o.Maps[0] != mine || len(o.Marked()) != 0 {
		t.Errorf("%d maps, %d marked", len(o.Maps), len(o.Marked()))
	}
	if o := shipped.Complete(); len(o.Marked()) != len(shipped.Marked()) {
		t.Error("completing twice adds layouts")
	}
}

// The plain part of a decoder says nothing and remembers nothing.
func TestPlain(t *testing.T) {
	var p format.Plain
	p.Restart()
	if !p.Detail().IsZero() || !p.Advice(format.Silence{Parts: 100}).IsZero() ||
		p.Trying() || p.Continues([]byte("x")) {
		t.Error("a plain decoder speaks")
	}
	if p.Age(stream.Heading) != 0 || format.Is(true) != format.Yes || format.Is(false) != format.No {
		t.Error("an age, or a claim turned round")
	}
}
