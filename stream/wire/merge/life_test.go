package merge

import (
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire/fault"
)

// A sample needs an update of heading, pitch or bank; what else comes waits for it.
func TestUpdated(t *testing.T) {
	for c := range stream.NumChannels {
		var m Values
		m.Put(c, 1, 5)
		want := c == stream.Heading || c == stream.Pitch || c == stream.Bank
		if m.Updated() != want || !m.Has(c) || m.Fresh() != stream.Set(1)<<c {
			t.Errorf("%s: updated %v, has %v, fresh %v", c, m.Updated(), m.Has(c), m.Fresh().Names())
		}
		var s stream.Sample
		if err := m.Sample(nil, 5, &s); (err == fault.ErrPart) == want {
			t.Errorf("%s: %v", c, err)
		}
		if want && (m.Fresh() != 0 || m.Updated()) {
			t.Errorf("%s is fresh after a sample", c)
		}
	}
}

// Every channel is carried as long as its table row says, and no longer; also where the receive clock went back.
func TestCarry(t *testing.T) {
	for c := range stream.NumChannels {
		if stream.AttitudeSet.Has(c) {
			continue
		}
		life := c.Info().Carry
		for _, at := range []struct {
			age  float64
			here bool
		}{{0, true}, {life, true}, {life + 0.01, false}, {-life, true}, {-life - 0.01, false}} {
			var m Values
			m.Put(c, 1, 100)
			m.Put(stream.Pitch, 1, 100+at.age)
			var s stream.Sample
			if err := m.Sample(nil, 100+at.age, &s); err != nil || s.Has.Has(c) != at.here {
				t.Errorf("%s after %v s: there is %v, %v; must be %v", c, at.age, s.Has.Has(c), err, at.here)
			}
			if got := m.Age(c); got < at.age-1e-9 || got > at.age+1e-9 {
				t.Errorf("%s is %v s old; must be %v", c, got, at.age)
			}
		}
	}
}

// Which north a heading refers to is kept with it, and goes with it.
func TestMagnetic(t *testing.T) {
	var m Values
	var s stream.Sample
	m.Put(stream.Pitch, 2, 0)
	m.SetMagnetic(true)
	if err := m.Sample(nil, 0, &s); err != nil || s.Magnetic {
		t.Errorf("without a heading: %v, magnetic %v", err, s.Magnetic)
	}
	m.Put(stream.Heading, 80, 0)
	if err := m.Sample(nil, 0, &s); err != nil || !s.Magnetic || s.Value(stream.Heading) != 80 {
		t.Errorf("a magnetic heading: %v, %+v", err, s)
	}
	m.SetMagnetic(false)
	m.Put(stream.Heading, 90, 0)
	if err := m.Sample(nil, 0, &s); err != nil || s.Magnetic {
		t.Errorf("a true heading: %v, %+v", err, s)
	}
}

// A value of a source gives way to a higher rank, and takes the place of its own and of a lower one.
func TestOutranked(t *testing.T) {
	for _, c := range []struct {
		there, comes uint8
		age          float64 // of what is there
		wins         bool
	}{
		{0, 0, 0, true},
		{1, 1, 0, true},
		{1, 2, 0, true},
		{2, 1, 0, false},
		{2, 1, 1.4, false}, // an airspeed is carried for 1.5 s
		{2, 1, 1.6, true},
		{2, 1, -9, true}, // the receive clock went back
	} {
		var m Values
		m.Offer(stream.Airspeed, 100, 10, c.there)
		m.Offer(stream.Airspeed, 90, 10+c.age, c.comes)
		l := m.Latest()
		if got := l.Value(stream.Airspeed) == 90; got != c.wins {
			t.Errorf("%+v: it won: %v", c, got)
		}
		rank := c.there
		if c.wins {
			rank = c.comes
		}
		if m.Rank(stream.Airspeed) != rank {
			t.Errorf("%+v: rank %d; must be %d", c, m.Rank(stream.Airspeed), rank)
		}
	}
}

// An impossible value takes the place of the one before, which is not carried on; a good one makes up for it.
func TestImpossibleThenGood(t *testing.T) {
	var m Values
	var s stream.Sample
	m.Put(stream.Altitude, 5000, 0)
	m.Put(stream.Altitude, 1e9, 0.1)
	m.Put(stream.Pitch, 1, 0.1)
	if err := m.Sample(nil, 0.1, &s); err != nil || s.Has.Has(stream.Altitude) || !s.Bad.Has(stream.Altitude) {
		t.Errorf("%v: has %v, bad %v", err, s.Has.Names(), s.Bad.Names())
	}
	m.Put(stream.Pitch, 1, 0.2)
	if err := m.Sample(nil, 0.2, &s); err != nil || s.Bad != 0 {
		t.Errorf("the next sample: %v, bad %v", err, s.Bad.Names())
	}
	m.Put(stream.Altitude, 1e9, 0.3)
	m.Put(stream.Altitude, 5100, 0.3)
	m.Put(stream.Pitch, 1, 0.3)
	if err := m.Sample(nil, 0.3, &s); err != nil || s.Value(stream.Altitude) != 5100 || s.Bad != 0 {
		t.Errorf("made up for: %v, %v ft, bad %v", err, s.Value(stream.Altitude), s.Bad.Names())
	}
}
