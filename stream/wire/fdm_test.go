package wire

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"halfturn/stream"
)

// TestFDMRecorded reads the native flight model stream of FlightGear 2020.3.16, in the roll-out of a
// chandelle, against the text columns it sent of the same frames: equal to the rounding of
// the text. Body rates are sent as such there and as Euler rates here, which proves the conversion.
func TestFDMRecorded(t *testing.T) {
	all, lines := readFile(t, "flights/fdm.bin"), datagrams(t, "flights/fdm.columns.txt")
	if len(lines) != 12 || len(all) != len(lines)*fdmLength24 {
		t.Fatalf("%d lines, %d bytes", len(lines), len(all))
	}
	native, columns := NewReader(Options{}), NewReader(Options{Map: shippedMap("flightgear")})
	tol := map[stream.Channel]float64{stream.Altitude: 0.0051, stream.Height: 0.0054, stream.VerticalSpeed: 0.0052, stream.RPM: 0.051,
		stream.GroundSpeed: 6e-4, stream.Airspeed: 6e-4, stream.Track: 0.15, stream.Longitude: 2e-6, stream.Latitude: 2e-6}
	for i, line := range lines {
		got := mustDecode(t, native, all[i*fdmLength24:(i+1)*fdmLength24])
		want := mustDecode(t, columns, line)
		for c := range stream.NumChannels {
			within := 6e-5
			if more, ok := tol[c]; ok {
				within = more
			}
			if v, ok := got.Get(c); ok && (!want.Has.Has(c) || !near(c, v, want.Value(c), within)) {
				t.Errorf("frame %d: %s = %v, the columns say %v", i, c, v, want.Value(c))
			}
		}
		for _, c := range []stream.Channel{stream.Time, stream.Sideslip, stream.TrueAirspeed, stream.Throttle, stream.Ball, stream.Paused} {
			if got.Has.Has(c) {
				t.Errorf("%s is read from a stream that does not carry it", c)
			}
		}
		if len(got.Has.Names()) != 21 || got.Bad != 0 {
			t.Errorf("channels %v, bad %v", got.Has.Names(), got.Bad.Names())
		}
	}
	if native.Format() != "native FDM 24" || native.Advice() != "" {
		t.Error(native.Format(), native.Advice())
	}
}

// NMEA as FlightGear 2020.3.16 sends it: RMC, GGA and GSA in one datagram. There is no attitude in
// it, and the user is told what to send instead.
func TestNMEARecorded(t *testing.T) {
	b := readFile(t, "flights/nmea.txt")
	if !bytes.HasPrefix(b, []byte("$GPRMC")) || !bytes.Contains(b, []byte("$GPGGA")) {
		t.Fatalf("%q", b)
	}
	r := NewReader(Options{})
	var s stream.Sample
	for range 5 {
		if err := r.Decode(b, &s); err != ErrUnknown {
			t.Fatal(err)
		}
	}
	if !strings.Contains(r.Advice(), "no attitude") || !strings.Contains(r.Advice(), "halfturn.xml") || r.Format() != "" {
		t.Error(r.Advice(), r.Format())
	}
}

func TestFDMBad(t *testing.T) {
	in := fullSample()
	good := fdmEncoder{24}.Append(nil, &in)
	change := func(at int, v ...byte) []byte {
		b := append([]byte{}, good...)
		copy(b[at:], v)
		return b
	}
	for name, tt := range map[string]struct {
		in  []byte
		err error
	}{
		"cut short":             {good[:407], ErrTruncated},
		"too long":              {append(change(0), 0), ErrTruncated},
		"version 25, length 24": {change(3, 25), ErrTruncated},
		"version 26":            {change(3, 26), ErrUnknown},
		"little endian":         {change(0, 24, 0, 0, 0), ErrUnknown},
		"padding not 0":         {change(4, 1), ErrUnknown},
		"all NaN":               {append(append([]byte{0, 0, 0, 24, 0, 0, 0, 0}, bytes.Repeat([]byte{0xFF}, 296)...), make([]byte, 104)...), ErrValue},
	} {
		var s stream.Sample
		if err := NewReader(Options{}).Decode(tt.in, &s); err != tt.err {
			t.Errorf("%s: %v, want %v", name, err, tt.err)
		}
	}
}

// What a sender fills with zeros for good is not measured: sideslip, rpm, height, wheels.
func TestFDMUnfilled(t *testing.T) {
	in := fullSample()
	for _, c := range []stream.Channel{stream.Sideslip, stream.RPM, stream.Height, stream.OnGround} {
		in.Drop(c)
	}
	r := NewReader(Options{})
	s := mustDecode(t, r, fdmEncoder{25}.Append(nil, &in))
	for _, c := range []stream.Channel{stream.Sideslip, stream.RPM, stream.Height, stream.OnGround} {
		if s.Has.Has(c) || s.Bad.Has(c) {
			t.Errorf("%s = %v, bad %v", c, s.Value(c), s.Bad.Has(c))
		}
	}
	full := fullSample()
	mustDecode(t, r, fdmEncoder{25}.Append(nil, &full))
	if s = mustDecode(t, r, fdmEncoder{25}.Append(nil, &in)); !s.Has.Has(stream.Sideslip) || !s.Has.Has(stream.RPM) {
		t.Error("a zero after other values is one")
	}
}

// Euler rates to body rates and back, and a steady level turn by hand: bank 60, turning 10°/s:
// q = 10 sin 60, r = 10 cos 60.
func TestBodyRates(t *testing.T) {
	p, q, r := bodyRates(60/degPerRadian, 0, 0, 0, 10)
	if math.Abs(p) > 1e-12 || math.Abs(q-8.660254037844386) > 1e-12 || math.Abs(r-5) > 1e-12 {
		t.Error(p, q, r)
	}
	for _, pitch := range []float64{-80, -10, 0, 35, 85} {
		for _, bank := range []float64{-170, -45, 0, 30, 120} {
			b, th := bank/degPerRadian, pitch/degPerRadian
			f, d, h := eulerRates(b, th, 1, 2, 3)
			if p, q, r := bodyRates(b, th, f, d, h); math.Abs(p-1)+math.Abs(q-2)+math.Abs(r-3) > 1e-12 {
				t.Errorf("pitch %v, bank %v: %v %v %v", pitch, bank, p, q, r)
			}
		}
	}
}
