// Package wiretest is what the tests of the decoders share.
package wiretest

import (
	"bytes"
	"encoding/hex"
	"math"
	"os"
	"path/filepath"
	"testing"

	"halfturn/stream"
	"halfturn/stream/trainer/encode"
	"halfturn/stream/wire"
	"halfturn/stream/wire/format"
)

// Unhex decodes hexadecimal digits.
func Unhex(t testing.TB, s string) []byte {
	t.Helper()
	b, err := hex.DecodeString(s)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// ReadFile reads a file of the package's testdata.
func ReadFile(t testing.TB, name string) []byte {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// ReadLines reads a recording of one text datagram per line, line ends kept.
func ReadLines(t testing.TB, name string) [][]byte {
	t.Helper()
	lines := bytes.SplitAfter(ReadFile(t, name), []byte("\n"))
	return lines[:len(lines)-1]
}

// Decode decodes a datagram that must give a sample, received at time 0.
func Decode(t testing.TB, r *wire.Reader, b []byte) stream.Sample {
	t.Helper()
	var s stream.Sample
	if err := r.Decode(b, 0, &s); err != nil {
		t.Fatalf("Decode(%.80q): %v", b, err)
	}
	return s
}

// DecodeAll returns the samples of datagrams; errors are skipped.
func DecodeAll(r *wire.Reader, all [][]byte) []stream.Sample {
	var out []stream.Sample
	for _, b := range all {
		var s stream.Sample
		if r.Decode(b, 0, &s) == nil {
			out = append(out, s)
		}
	}
	return out
}

// SampleOf makes a sample from channels and values.
func SampleOf(pairs ...any) *stream.Sample {
	var s stream.Sample
	for i := 0; i < len(pairs); i += 2 {
		switch v := pairs[i+1].(type) {
		case int:
			s.Put(pairs[i].(stream.Channel), float64(v))
		case float64:
			s.Put(pairs[i].(stream.Channel), v)
		}
	}
	return &s
}

// Near compares in a channel's unit, angles the short way around.
func Near(c stream.Channel, got, want, tolerance float64) bool {
	d := got - want
	if c.Info().Circular {
		d = stream.Wrap180(d)
	}
	return math.Abs(d) <= tolerance
}

// OrNaN returns a channel's value, NaN where the sample lacks it.
func OrNaN(s *stream.Sample, c stream.Channel) float64 {
	if v, ok := s.Get(c); ok {
		return v
	}
	return math.NaN()
}

// NewEncoder makes an encoder of a format.
func NewEncoder(t testing.TB, name string) encode.Encoder {
	t.Helper()
	e, err := encode.New(name)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// Encode writes one sample by a new encoder.
func Encode(t testing.TB, name string, s *stream.Sample) []byte {
	t.Helper()
	return NewEncoder(t, name).Append(nil, s)
}

// FullSample has every channel.
func FullSample() stream.Sample {
	var s stream.Sample
	for c, v := range map[stream.Channel]float64{
		stream.Time:          123.4567,
		stream.Heading:       245.1157,
		stream.Pitch:         13.9722,
		stream.Bank:          -43.5661,
		stream.Airspeed:      118.545,
		stream.TrueAirspeed:  126.538,
		stream.GroundSpeed:   125.311,
		stream.Track:         244.8829,
		stream.VerticalSpeed: -999.0,
		stream.Altitude:      6638.6,
		stream.Height:        5639.25,
		stream.Latitude:      21.79146571,
		stream.Longitude:     -158.27810879,
		stream.AngleOfAttack: 3.8649,
		stream.Sideslip:      -0.2675,
		stream.Ball:          0.0183,
		stream.NormalLoad:    1.4142,
		stream.LateralLoad:   -0.0029,
		stream.AxialLoad:     0.1677,
		stream.RollRate:      -1.9813,
		stream.PitchRate:     6.6861,
		stream.YawRate:       2.9182,
		stream.Throttle:      0.75,
		stream.RPM:           2591.2,
		stream.Torque:        61.5,
		stream.N1:            88.25,
		stream.Elevator:      0.0224,
		stream.Aileron:       -0.0029,
		stream.Rudder:        0.0738,
		stream.StallWarning:  1,
		stream.OnGround:      1,
		stream.Paused:        1,
	} {
		s.Put(c, v)
	}
	for c := range stream.NumChannels { // a channel added since then
		if !s.Has.Has(c) {
			s.Put(c, max(c.Info().Min, 0))
		}
	}
	return s
}

// Warm returns a reader that has recognized a format, and one datagram of it.
func Warm(t testing.TB, name string) (*wire.Reader, []byte) {
	t.Helper()
	e, r := NewEncoder(t, name), wire.NewReader(format.Options{})
	var s stream.Sample
	_ = r.Decode(e.Preamble(), 0, &s)
	in := FullSample()
	b := e.Append(nil, &in)
	for range 10 { // a map is believed after five lines
		_ = r.Decode(b, 0, &s)
	}
	if r.Format() == "" {
		t.Fatalf("%s is not recognized", name)
	}
	return r, b
}
