package fdm_test

import (
	"bytes"
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/fdm"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/mapping"
	"halfturn/stream/wire/wiretest"
)

// TestFDMRecorded reads the native flight model stream of FlightGear 2020.3.16, in the roll-out of a
// chandelle, against the text columns it sent of the same frames: equal to the rounding of
// the text. Body rates are sent as such there and as Euler rates here, which proves the conversion.
func TestFDMRecorded(t *testing.T) {
	all, lines := wiretest.ReadFile(t, "fdm.bin"), wiretest.ReadLines(t, "fdm.columns.txt")
	if len(lines) != 12 || len(all) != len(lines)*fdm.Length24 {
		t.Fatalf("%d lines, %d bytes", len(lines), len(all))
	}
	native, columns := wire.NewReader(format.Options{}),
		wire.NewReader(format.Options{Map: mapping.ShippedNamed("flightgear")})
	tol := map[stream.Channel]float64{stream.Altitude: 0.0051, stream.Height: 0.0054, stream.VerticalSpeed: 0.0052,
		stream.RPM:         0.051,
		stream.GroundSpeed: 6e-4, stream.Airspeed: 6e-4, stream.Track: 0.15, stream.Longitude: 2e-6,
		stream.Latitude: 2e-6}
	for i, line := range lines {
		got := wiretest.Decode(t, native, all[i*fdm.Length24:(i+1)*fdm.Length24])
		want := wiretest.Decode(t, columns, line)
		for c := range stream.NumChannels {
			within := 6e-5
			if more, ok := tol[c]; ok {
				within = more
			}
			if v, ok := got.Get(c); ok && (!want.Has.Has(c) || !wiretest.Near(c, v, want.Value(c), within)) {
				t.Errorf("frame %d: %s = %v, the columns say %v", i, c, v, want.Value(c))
			}
		}
		for _, c := range []stream.Channel{stream.Time, stream.Sideslip, stream.TrueAirspeed, stream.Throttle,
			stream.Ball, stream.Paused} {
			if got.Has.Has(c) {
				t.Errorf("%s is read from a stream that does not carry it", c)
			}
		}
		if len(got.Has.Names()) != 21 || got.Bad != 0 {
			t.Errorf("channels %v, bad %v", got.Has.Names(), got.Bad.Names())
		}
	}
	if native.Format() != "native FDM 24" || !native.Advice().IsZero() {
		t.Error(native.Format(), native.Advice())
	}
}

func TestFDMBad(t *testing.T) {
	in := wiretest.FullSample()
	good := wiretest.Encode(t, "fdm24", &in)
	change := func(at int, v ...byte) []byte {
		b := append([]byte{}, good...)
		copy(b[at:], v)
		return b
	}
	for name, tt := range map[string]struct {
		in  []byte
		err error
	}{
		"cut short":             {good[:407], fault.ErrTruncated},
		"too long":              {append(change(0), 0), fault.ErrTruncated},
		"version 25, length 24": {change(3, 25), fault.ErrTruncated},
		"version 26":            {change(3, 26), fault.ErrUnknown},
		"little endian":         {change(0, 24, 0, 0, 0), fault.ErrUnknown},
		"padding not 0":         {change(4, 1), fault.ErrUnknown},
		"all NaN": {append(append([]byte{0, 0, 0, 24, 0, 0, 0, 0}, bytes.Repeat([]byte{0xFF}, 296)...),
			make([]byte, 104)...), fault.ErrValue},
	} {
		var s stream.Sample
		if err := wire.NewReader(format.Options{}).Decode(tt.in, 0, &s); err != tt.err {
			t.Errorf("%s: %v; must be %v", name, err, tt.err)
		}
	}
}

// What a sender fills with zeros for good is not measured: sideslip, rpm, height, wheels.
func TestFDMUnfilled(t *testing.T) {
	in := wiretest.FullSample()
	for _, c := range []stream.Channel{stream.Sideslip, stream.RPM, stream.Height, stream.OnGround} {
		in.Drop(c)
	}
	r := wire.NewReader(format.Options{})
	s := wiretest.Decode(t, r, wiretest.Encode(t, "fdm25", &in))
	for _, c := range []stream.Channel{stream.Sideslip, stream.RPM, stream.Height, stream.OnGround} {
		if s.Has.Has(c) || s.Bad.Has(c) {
			t.Errorf("%s = %v, bad %v", c, s.Value(c), s.Bad.Has(c))
		}
	}
	full := wiretest.FullSample()
	wiretest.Decode(t, r, wiretest.Encode(t, "fdm25", &full))
	if s = wiretest.Decode(t, r, wiretest.Encode(t, "fdm25", &in)); !s.Has.Has(stream.Sideslip) ||
		!s.Has.Has(stream.RPM) {
		t.Error("a zero after other values is one")
	}
}

func FuzzFDM(f *testing.F) { wiretest.Fuzz(f, "FuzzFDM", "fdm25") }
