package encode_test

import (
	"math"
	"os"
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/trainer/encode"
	"halfturn/stream/wire"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/wiretest"
)

// through writes a sample five times, until a map is believed, and returns what is read of the last.
func through(t *testing.T, name string, o format.Options, in *stream.Sample) (r *wire.Reader, got stream.Sample) {
	t.Helper()
	e, r := wiretest.NewEncoder(t, name), wire.NewReader(o)
	if p := e.Preamble(); p != nil {
		if err := r.Decode(p, 0, &got); err != fault.ErrLabels {
			t.Fatal(name, err)
		}
	}
	for range 5 {
		_ = r.Decode(e.Append(nil, in), 0, &got)
	}
	return r, got
}

// What an encoder writes is read back within the printed digits, in a sample with every channel and in one with few.
func TestRoundTrip(t *testing.T) {
	few := *wiretest.SampleOf(stream.Time, 1, stream.Heading, 0.25, stream.Pitch, -3, stream.Bank, 0)
	for _, f := range encode.Written {
		name, want := f.Name, f.Loss
		for what, in := range map[string]stream.Sample{"full": wiretest.FullSample(), "few": few} {
			if want.Mute && what == "few" {
				if b := wiretest.Encode(t, name, &in); len(b) != 0 {
					t.Errorf("%s: %d bytes of a sample that cannot be sent", name, len(b))
				}
				continue
			}
			r, got := through(t, name, format.Options{Rows: format.RowsNew}, &in)
			expect := in
			for c := range (expect.Has &^ wiretest.NewEncoder(t, name).Channels()).All() {
				expect.Drop(c)
			}
			if name == "binary" && what == "few" { // flags have no blank
				expect.Put(stream.StallWarning, 0)
				expect.Put(stream.OnGround, 0)
			}
			if got.Has != expect.Has || got.Bad != 0 && !want.Blanks || r.Format() != f.Reads {
				t.Errorf("%s, %s: %q has %v; must be %v", name, what, r.Format(), got.Has.Names(), expect.Has.Names())
			}
			compare(t, want, name+", "+what, &got, &expect)
		}
	}
}

func compare(t *testing.T, l encode.Loss, what string, got, want *stream.Sample) {
	t.Helper()
	for c := range stream.NumChannels {
		abs := l.Abs
		if more, ok := l.Coarse[c]; ok {
			abs = more
		}
		if v := want.Value(c); math.Abs(got.Value(c)-v) > abs+l.Rel*math.Abs(v) {
			t.Errorf("%s: %s = %v; must be %v", what, c, got.Value(c), v)
		}
	}
}

// A magnetic heading stays one where the format can say so, and is left out where it cannot: in columns without labels
// the true one has its fixed place.
func TestRoundTripMagnetic(t *testing.T) {
	in := *wiretest.SampleOf(stream.Time, 1, stream.Heading, 80, stream.Pitch, 1)
	in.Magnetic = true
	for _, f := range encode.Written {
		name, keeps := f.Name, f.Loss.Magnetic
		_, got := through(t, name, format.Options{}, &in)
		if got.Has.Has(stream.Heading) != keeps || got.Magnetic != keeps {
			t.Errorf("%s: %+v", name, got)
		}
	}
}

// The shape of the bytes is that of the recorded socket: the same first labels, twelve places per column, a line end.
func TestLabelsLikeTheSimulator(t *testing.T) {
	recorded, err := os.ReadFile("../../wire/testdata/flights/properties.txt")
	if err != nil {
		t.Fatal(err)
	}
	e := wiretest.NewEncoder(t, "labels")
	label := string(e.Preamble())
	if n := strings.Index(label, ",throttle"); n < 0 || !strings.HasPrefix(string(recorded), label[:n]) {
		t.Errorf("labels\n%s\nrecorded\n%.200s", label, recorded)
	}
	in := wiretest.FullSample()
	line := string(e.Append(nil, &in))
	begins := strings.HasPrefix(line, "    123.4567, 21.79146571,-158.2781088,      6638.6,")
	if strings.Count(line, ",")+1 != strings.Count(label, ",") || !begins || !strings.HasSuffix(line, "\n") {
		t.Errorf("line %q", line)
	}
}

func TestUnknownFormat(t *testing.T) {
	const want = `format is "morse"; must be labels, columns, pairs, rows, json, `
	if _, err := encode.New("morse"); err == nil || !strings.HasPrefix(err.Error(), want) {
		t.Error(err)
	}
}

// Writing allocates nothing once the buffer is long enough.
func TestNoAllocations(t *testing.T) {
	for _, name := range encode.Formats() {
		e, in := wiretest.NewEncoder(t, name), wiretest.FullSample()
		b := e.Append(nil, &in)
		if n := testing.AllocsPerRun(200, func() { b = e.Append(b[:0], &in) }); n != 0 {
			t.Errorf("%s: writing allocates %v times", name, n)
		}
	}
}

// BenchmarkEncode writes one datagram of each format.
func BenchmarkEncode(b *testing.B) {
	for _, name := range encode.Formats() {
		b.Run(name, func(b *testing.B) {
			e, in := wiretest.NewEncoder(b, name), wiretest.FullSample()
			b.ReportAllocs()
			var dst []byte
			for b.Loop() {
				dst = e.Append(dst[:0], &in)
			}
		})
	}
}
