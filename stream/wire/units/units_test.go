package units

import (
	"math"
	"testing"

	"halfturn/stream"
)

// Every channel has a unit that a map may name, and one of them is the channel's own.
func TestEveryChannelHasUnits(t *testing.T) {
	for c := range stream.NumChannels {
		own := false
		for _, factor := range factors[c.Info().Unit] {
			own = own || factor == 1
		}
		if !own {
			t.Errorf("channel %s: no unit of a map is %q", c, c.Info().Unit)
		}
	}
	if _, err := Factor(stream.Bank, "feet"); err == nil ||
		err.Error() != `is "feet"; for channel bank must be deg or rad` {
		t.Error(err)
	}
}

// A velocity of 3 m/s north and 4 m/s east while climbing 1 m/s: 5 m/s toward atan(4/3), 196.85 ft/min.
func TestPutVelocity(t *testing.T) {
	var s stream.Sample
	PutVelocity(&s, 3, 4, -1)
	for c, want := range map[stream.Channel]float64{
		stream.GroundSpeed:   5 * 3600 / 1852.0,
		stream.Track:         53.13010235,
		stream.VerticalSpeed: 196.8503937,
	} {
		if got := s.Value(c); math.Abs(got-want) > 1e-6 {
			t.Errorf("%s = %v; must be %v", c, got, want)
		}
	}
	s.Reset()
	if PutVelocity(&s, 0.3, 0.3, 0); s.Has.Has(stream.Track) {
		t.Error("a track of what hardly moves")
	}
}
