package wire

import (
	"bytes"
	"encoding/json"
	"math"
	"slices"
	"testing"

	"halfturn/stream"
)

// checkSample asserts what holds of every sample, whatever it was read from: each value is
// within its channel's range, no channel is both there and bad, nothing is derived here, and
// JSON lines carry it there and back without a change.
func checkSample(t *testing.T, s *stream.Sample) {
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
		if c >= stream.StallWarning && v != 0 && v != 1 {
			t.Fatalf("flag %s = %v", c, v)
		}
	}
	if s.Has&s.Bad != 0 || s.Derived != 0 || s.Magnetic && !s.Has.Has(stream.Heading) {
		t.Fatalf("has %v, bad %v, derived %v, magnetic %v", s.Has.Names(), s.Bad.Names(), s.Derived.Names(), s.Magnetic)
	}
	var back stream.Sample
	line := jsonEncoder{}.Append(nil, s)
	if err := decodeJSON(trimEnd(line), &back); err != nil {
		t.Fatalf("%s: %v", line, err)
	}
	back.Bad = s.Bad
	if back != *s {
		t.Fatalf("%s\ngives %+v\nwant  %+v", line, back, *s)
	}
}

// checkStable asserts that writing a sample in the format and reading it settles: after one
// round, a further one changes no byte.
func checkStable(t *testing.T, format string, s *stream.Sample) {
	t.Helper()
	if !slices.Contains([]string{"labels", "columns", "pairs", "rows", "json"}, format) {
		checkSettles(t, format, s)
		return
	}
	e, r := mustEncoder(t, format), NewReader(Options{Rows: RowsNew})
	var next stream.Sample
	_ = r.Decode(e.Preamble(), &next)
	var lines [3][]byte
	next = *s
	for i := range lines {
		lines[i] = e.Append(nil, &next)
		for range trialLines {
			_ = r.Decode(lines[i], &next)
		}
	}
	if !bytes.Equal(lines[1], lines[2]) {
		t.Fatalf("%s is not stable:\n%q\n%q", format, lines[1], lines[2])
	}
}

// fuzzText feeds a text datagram to a reader that has been told the given datagrams first.
func fuzzText(t *testing.T, o Options, first []string, b []byte, format string) {
	r := NewReader(o)
	var s stream.Sample
	for _, p := range first {
		_ = r.Decode([]byte(p), &s)
	}
	before := bytes.Clone(b)
	err := r.Decode(b, &s)
	if !bytes.Equal(b, before) {
		t.Fatal("the datagram was changed")
	}
	if err != nil {
		if s != (stream.Sample{}) {
			t.Fatalf("an error and a sample: %v, %+v", err, s)
		}
		if _, known := reasons[err]; !known {
			t.Fatalf("error without a label: %v", err)
		}
		_ = r.Advice()
	} else {
		if s.Has == 0 {
			t.Fatal("an empty sample")
		}
		checkSample(t, &s)
		checkStable(t, format, &s)
	}
	_ = r.DecodeAll(b, func(s *stream.Sample) { checkSample(t, s) })
}

const fuzzLabels = "<LABELS> ,Time,psi-deg,theta-deg,phi-deg,vc-kts,Latitude (deg),n-pilot-z-norm,WOW\n"

func FuzzLabels(f *testing.F) {
	mustHaveSeeds(f, "FuzzLabels")
	f.Fuzz(func(t *testing.T, b []byte) { fuzzText(t, Options{}, []string{fuzzLabels}, b, "labels") })
}

func FuzzColumns(f *testing.F) {
	mustHaveSeeds(f, "FuzzColumns")
	f.Fuzz(func(t *testing.T, b []byte) {
		fuzzText(t, Options{Map: shippedMap("flightgear")}, nil, b, "columns")
		fuzzText(t, Options{}, []string{string(b), string(b), string(b), string(b)}, b, "columns")
	})
}

func FuzzPairs(f *testing.F) {
	mustHaveSeeds(f, "FuzzPairs")
	f.Fuzz(func(t *testing.T, b []byte) { fuzzText(t, Options{}, nil, b, "pairs") })
}

func FuzzRows(f *testing.F) {
	mustHaveSeeds(f, "FuzzRows")
	f.Fuzz(func(t *testing.T, b []byte, layout uint8) {
		fuzzText(t, Options{Rows: RowsLayout(layout % 3)}, []string{string(b)}, b, "rows")
	})
}

// FuzzJSON also holds the reader against the standard library: what that takes for an object,
// this one takes too, with the same numbers.
func FuzzJSON(f *testing.F) {
	mustHaveSeeds(f, "FuzzJSON")
	f.Fuzz(func(t *testing.T, b []byte) {
		fuzzText(t, Options{}, nil, b, "json")
		var want map[string]any
		if len(b) > maxLine || json.Unmarshal(b, &want) != nil || want == nil || bytes.IndexByte(b, '\\') >= 0 {
			return // escaped names are not resolved, on purpose
		}
		var s stream.Sample
		if err := decodeJSON(b, &s); err != nil && err != ErrNoChannels && s.Has|s.Bad == 0 {
			t.Fatalf("%q is JSON, but: %v", b, err)
		}
		for name, v := range want {
			c, known := stream.ChannelNamed(name)
			num, isNumber := v.(float64)
			if !known || !isNumber || c >= stream.StallWarning {
				continue
			}
			var one stream.Sample
			if one.Put(c, num); one.Value(c) != s.Value(c) || math.Signbit(one.Value(c)) != math.Signbit(s.Value(c)) {
				t.Fatalf("%q: %s = %v, want %v", b, name, s.Value(c), num)
			}
		}
	})
}

func FuzzMap(f *testing.F) {
	mustHaveSeeds(f, "FuzzMap")
	f.Fuzz(func(t *testing.T, text, datagram []byte) {
		m, err := LoadMap("fuzz.toml", text)
		if err != nil {
			if m != nil || err.Error() == "" || bytes.ContainsRune([]byte(err.Error()), '\n') && !bytes.ContainsRune(text, '\n') {
				t.Fatalf("map %v, error %q", m, err)
			}
			return
		}
		r := NewReader(Options{Map: m})
		var s stream.Sample
		if r.Decode(datagram, &s) == nil {
			checkSample(t, &s)
		}
	})
}
