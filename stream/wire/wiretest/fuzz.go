package wiretest

import (
	"bytes"
	"math"
	"path/filepath"
	"slices"
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
)

// NeedSeeds fails when a fuzz target's committed inputs are not found: without them it would pass and prove nothing.
func NeedSeeds(f *testing.F, target string) {
	f.Helper()
	seeds, err := filepath.Glob(filepath.Join("testdata", "fuzz", target, "*"))
	if err != nil || len(seeds) < 3 {
		f.Fatalf("%d seeds for %s, %v", len(seeds), target, err)
	}
}

// Fuzz feeds datagrams whole, then cut in two, after others of the same sender.
func Fuzz(f *testing.F, target, name string, first ...string) {
	NeedSeeds(f, target)
	f.Fuzz(func(t *testing.T, b []byte, cut uint8) {
		Feed(t, format.Options{}, first, b, name)
		n := min(int(cut), len(b))
		Feed(t, format.Options{}, append([]string{string(b[:n])}, first...), b[n:], name)
		Feed(t, format.Options{}, append(first[:len(first):len(first)], string(b[:n])), b[n:], name)
	})
}

// Feed feeds a datagram to a reader that was given others first, and checks what comes of it. The name is that of an
// encoder which must settle on what was read.
func Feed(t *testing.T, o format.Options, first []string, b []byte, name string) {
	r := wire.NewReader(o)
	var s stream.Sample
	for _, p := range first {
		_ = r.Decode([]byte(p), 0, &s)
	}
	before := bytes.Clone(b)
	err := r.Decode(b, 0, &s)
	if !bytes.Equal(b, before) {
		t.Fatal("the datagram was changed")
	}
	if err != nil {
		if s != (stream.Sample{}) {
			t.Fatalf("an error and a sample: %v, %+v", err, s)
		}
		if fault.Reason(err) == "other" {
			t.Fatalf("error without a label: %v", err)
		}
		_ = r.Advice()
		return
	}
	if s.Has == 0 {
		t.Fatal("an empty sample")
	}
	CheckSample(t, &s)
	checkStable(t, name, &s)
}

// CheckSample asserts what holds of every sample, whatever it was read from: each value is within its channel's range,
// no channel is both there and bad, nothing is derived here, and JSON lines carry it there and back without a change.
func CheckSample(t *testing.T, s *stream.Sample) {
	t.Helper()
	for c := range stream.NumChannels {
		v, ok := s.Get(c)
		in := c.Info()
		if ok && !(v >= in.Min && v <= in.Max) {
			t.Fatalf("%s = %v is out of range", c, v)
		}
		if !ok && v != 0 {
			t.Fatalf("%s = %v though absent", c, v)
		}
		if in.Flag && v != 0 && v != 1 {
			t.Fatalf("flag %s = %v", c, v)
		}
	}
	if s.Has&s.Bad != 0 || s.Derived != 0 || s.Magnetic && !s.Has.Has(stream.Heading) {
		t.Fatalf("has %v, bad %v, derived %v, magnetic %v", s.Has.Names(), s.Bad.Names(), s.Derived.Names(), s.Magnetic)
	}
	var back stream.Sample
	line := Encode(t, "json", s)
	if err := wire.NewReader(format.Options{}).Decode(line, 0, &back); err != nil {
		t.Fatalf("%s: %v", line, err)
	}
	back.Bad = s.Bad
	if back != *s {
		t.Fatalf("%s\ngives %+v\nwant  %+v", line, back, *s)
	}
}

// checkStable asserts that writing a sample in a format and reading it settles: after one round, a further one changes
// no byte.
func checkStable(t *testing.T, name string, s *stream.Sample) {
	t.Helper()
	if !slices.Contains([]string{"labels", "columns", "pairs", "rows", "json"}, name) {
		checkSettles(t, name, s)
		return
	}
	e, r := NewEncoder(t, name), wire.NewReader(format.Options{Rows: format.RowsNew})
	var next stream.Sample
	_ = r.Decode(e.Preamble(), 0, &next)
	var lines [3][]byte
	next = *s
	for i := range lines {
		lines[i] = e.Append(nil, &next)
		for range 5 { // lines until a map is believed
			_ = r.Decode(lines[i], 0, &next)
		}
	}
	if !bytes.Equal(lines[1], lines[2]) {
		t.Fatalf("%s is not stable:\n%q\n%q", name, lines[1], lines[2])
	}
}

// checkSettles asserts that writing a sample in a format and reading it settles: after a few rounds the same channels
// come back with the same values, to the rounding of 32 bits.
func checkSettles(t *testing.T, name string, s *stream.Sample) {
	t.Helper()
	if math.Abs(s.Value(stream.Pitch)) > 80 {
		return // heading and bank, and rates of them, run together near the vertical
	}
	rounds := [5]stream.Sample{*s}
	for i := range rounds[1:] {
		b := Encode(t, name, &rounds[i])
		if len(b) == 0 {
			return // it cannot be sent without position or attitude
		}
		err := wire.NewReader(format.Options{}).Decode(b, 0, &rounds[i+1])
		if err != nil && err != fault.Part && rounds[i].Has&stream.AttitudeSet != 0 {
			if name == "gdl90" || name == "xatt" || rounds[i].Magnetic {
				return // all of it was beyond what the format has a value for
			}
			t.Fatalf("%s: %x: %v", name, b, err)
		}
	}
	a, b := &rounds[3], &rounds[4]
	if a.Has != b.Has || a.Magnetic != b.Magnetic {
		t.Fatalf("%s does not settle: %v, then %v", name, a.Has.Names(), b.Has.Names())
	}
	for c := range stream.NumChannels {
		v := a.Value(c)
		d := b.Value(c) - v
		if in := c.Info(); in.Circular || in.Signed {
			d = stream.Wrap180(d)
		}
		if math.Abs(d) > 1e-4+1e-5*math.Abs(v) {
			t.Fatalf("%s does not settle: %s %v, then %v", name, c, v, b.Value(c))
		}
	}
}
