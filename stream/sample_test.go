package stream_test

import (
	"math"
	"testing"

	"halfturn/stream"
)

func TestSamplePut(t *testing.T) {
	tests := []struct {
		channel stream.Channel
		value   float64
		want    float64
		ok      bool
	}{
		{stream.Bank, 45, 45, true},
		{stream.Bank, -180, -180, true},
		{stream.Bank, 181, 0, false},
		{stream.Heading, 361, 1, true},
		{stream.Heading, -90, 270, true},
		{stream.Heading, 1e7, 0, false},
		{stream.Heading, math.Inf(1), 0, false},
		{stream.Pitch, math.NaN(), 0, false},
		{stream.Airspeed, -1, 0, false},
		{stream.Airspeed, math.Inf(1), 0, false},
		{stream.Time, 0, 0, true},
		{stream.Time, -1, 0, false},
		{stream.OnGround, 0, 0, true}, // flags: whatever is not 0 is set
		{stream.OnGround, 0.5, 1, true},
		{stream.Paused, -7, 1, true},
		{stream.StallWarning, math.Inf(1), 1, true},
		{stream.StallWarning, math.NaN(), 0, false},
	}
	for _, test := range tests {
		var s stream.Sample
		ok := s.Put(test.channel, test.value)
		got, has := s.Get(test.channel)
		if ok != test.ok || has != test.ok || got != test.want || s.Bad.Has(test.channel) == test.ok {
			t.Errorf("Put(%v, %v): %v, then %v %v, bad %v", test.channel, test.value, ok, got, has, s.Bad.Names())
		}
	}
}

func TestSampleDerive(t *testing.T) {
	var s stream.Sample
	s.Derive(stream.Ball, 1)
	s.Derive(stream.Pitch, 91)
	if !s.Derived.Has(stream.Ball) || s.Value(stream.Ball) != 1 {
		t.Errorf("derived ball: %v, derived %v", s.Value(stream.Ball), s.Derived.Names())
	}
	if s.Has.Has(stream.Pitch) || s.Bad != 0 { // a computed value is not bad data
		t.Errorf("pitch of 91° derived: has %v, bad %v", s.Has.Names(), s.Bad.Names())
	}
	s.Drop(stream.Ball)
	if s.Has != 0 || s.Derived != 0 || s.Value(stream.Ball) != 0 {
		t.Errorf("dropped: has %v, derived %v", s.Has.Names(), s.Derived.Names())
	}
	s.Put(stream.Bank, 3)
	if s.Reset(); s != (stream.Sample{}) {
		t.Error("Reset leaves something")
	}
}

func TestSampleNegate(t *testing.T) {
	var s stream.Sample
	s.Put(stream.Bank, 3)
	s.Negate(stream.Bank)
	s.Negate(stream.Pitch)
	if s.Value(stream.Bank) != -3 || s.Has.Has(stream.Pitch) {
		t.Errorf("bank %v, has %v", s.Value(stream.Bank), s.Has.Names())
	}
}

func TestSampleLerp(t *testing.T) {
	tests := []struct {
		channel stream.Channel
		a, b, f float64
		want    float64
	}{
		{stream.Airspeed, 100, 110, 0.25, 102.5},
		{stream.Heading, 350, 20, 0.5, 5}, // through north
		{stream.Heading, 20, 350, 0.5, 5},
		{stream.Track, 359, 1, 0.25, 359.5},
		{stream.Bank, 170, -170, 0.25, 175}, // through inverted
		{stream.Longitude, 179.9, -179.9, 0.5, -180},
		{stream.OnGround, 1, 0, 0.9, 1}, // flags keep the earlier state
		{stream.Pitch, 5, -5, 0, 5},
		{stream.Pitch, 5, -5, 1, -5},
	}
	for _, test := range tests {
		var a, b, s stream.Sample
		a.Put(test.channel, test.a)
		b.Put(test.channel, test.b)
		s.Lerp(&a, &b, test.f)
		if got := s.Value(test.channel); math.Abs(got-test.want) > 1e-9 {
			t.Errorf("%v from %v to %v at %v: %v; must be %v", test.channel, test.a, test.b, test.f, got, test.want)
		}
	}
	var a, b, s stream.Sample
	a.Put(stream.Pitch, 1)
	a.Put(stream.Bank, 1)
	a.Magnetic = true
	b.Derive(stream.Pitch, 2)
	b.Put(stream.Throttle, 1)
	s.Put(stream.RPM, 9)
	s.Lerp(&a, &b, 0.5)
	only := s.Has == stream.Set(0).With(stream.Pitch) && s.Value(stream.RPM) == 0
	if !only || !s.Derived.Has(stream.Pitch) || !s.Magnetic {
		t.Errorf("has %v, derived %v, magnetic %v", s.Has.Names(), s.Derived.Names(), s.Magnetic)
	}
}

// Of the values that are not believed, the first channel of the table is reported, once, with its value; a derived
// value is none of them.
func TestRefusedValues(t *testing.T) {
	var s stream.Sample
	if _, _, ok := s.TakeRefused(); ok {
		t.Error("an empty sample has a refused value")
	}
	s.Put(stream.Bank, 999)
	s.Put(stream.Pitch, 91)
	s.Put(stream.Airspeed, -1)
	s.Derive(stream.Heading, math.NaN())
	if c, v, ok := s.TakeRefused(); c != stream.Pitch || v != 91 || !ok {
		t.Errorf("%v of %v, %v; must be 91 of pitch", v, c, ok)
	}
	s.Refuse(stream.Time, math.NaN())
	s.Derive(stream.Pitch, 500)
	if c, v, ok := s.TakeRefused(); c != stream.Time || v == v || !ok {
		t.Errorf("%v of %v, %v; must be not a number, of time", v, c, ok)
	}
	if s.Bad != 1<<stream.Bank|1<<stream.Pitch|1<<stream.Airspeed|1<<stream.Time {
		t.Errorf("bad are %v", s.Bad.Names())
	}
	s.Reset()
	s.Put(stream.Pitch, 2)
	s.TakeRefused()
	var same stream.Sample
	same.Put(stream.Pitch, 2)
	if s != same {
		t.Error("what was taken is still there")
	}
}
