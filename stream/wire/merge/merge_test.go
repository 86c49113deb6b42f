package merge

import (
	"math"
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire/fault"
)

// A sample is made at each update of the attitude, carries what came before with its age, and drops what is older than
// its channel allows: position 2.5 s, airspeed 1.5 s.
func TestSample(t *testing.T) {
	var m Values
	m.Put(stream.Latitude, 47, 10)
	m.Put(stream.Airspeed, 100, 10)
	var s stream.Sample
	if err := m.Sample(nil, 10, &s); err != fault.ErrPart || s.Has != 0 {
		t.Fatalf("without attitude: %v, %v", err, s.Has.Names())
	}
	for _, tt := range []struct {
		now             float64
		latitude, speed bool
	}{{10.5, true, true}, {11.5, true, true}, {11.6, true, false}, {12.5, true, false}, {12.6, false, false}} {
		m.Put(stream.Pitch, tt.now, tt.now)
		if err := m.Sample(nil, tt.now, &s); err != nil || s.Value(stream.Pitch) != tt.now {
			t.Fatalf("%v s: %v, pitch %v", tt.now, err, s.Value(stream.Pitch))
		}
		if s.Has.Has(stream.Latitude) != tt.latitude || s.Has.Has(stream.Airspeed) != tt.speed {
			t.Errorf("%v s: %v", tt.now, s.Has.Names())
		}
		if age := m.Age(stream.Latitude); math.Abs(age-(tt.now-10)) > 1e-9 || m.Age(stream.Pitch) != 0 {
			t.Errorf("%v s: latitude is %v s old, pitch %v s", tt.now, age, m.Age(stream.Pitch))
		}
	}
	m.Put(stream.Pitch, 1, 5)
	if err := m.Sample(nil, 5, &s); err != nil || s.Has.Has(stream.Latitude) {
		t.Errorf("the receive clock went back: %v, %v", err, s.Has.Names())
	}
}

// A value of a lower rank waits until the higher one is too old; for altitude it waits for good.
func TestRank(t *testing.T) {
	for c, later := range map[stream.Channel]float64{stream.VerticalSpeed: 5, stream.Altitude: 9} {
		var m Values
		m.Offer(c, 9, 0, 2)
		m.Offer(c, 5, 1, 1)
		if l := m.Latest(); l.Value(c) != 9 {
			t.Errorf("%s: the lower rank won: %v", c, l.Value(c))
		}
		m.Offer(c, 5, 100, 1)
		if l := m.Latest(); l.Value(c) != later {
			t.Errorf("%s: %v after 100 s; must be %v", c, l.Value(c), later)
		}
		m.Lose(c, 100, 0)
		if !m.Has(c) {
			t.Errorf("%s: lost by a lower rank", c)
		}
		if m.Lose(c, 100, 3); m.Has(c) {
			t.Errorf("%s: not lost", c)
		}
	}
}

// Attitude that came with impossible values alone is a fault and names them; what came of the datagram itself wins.
func TestImpossible(t *testing.T) {
	var m Values
	var s stream.Sample
	m.Put(stream.Bank, math.NaN(), 0)
	if err := m.Sample(nil, 0, &s); err != fault.ErrValue || s.Bad != 1<<stream.Bank {
		t.Errorf("%v, bad %v", err, s.Bad.Names())
	}
	if err := m.Sample(nil, 0, &s); err != fault.ErrPart {
		t.Error("told twice:", err)
	}
	if err := m.Sample(fault.ErrChecksum, 0, &s); err != fault.ErrChecksum {
		t.Error(err)
	}
}
