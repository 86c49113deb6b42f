package units

import (
	"math"
	"strings"
	"testing"

	"halfturn/stream"
)

// Factors by the definitions of NIST Special Publication 811 (2008), appendix B.8: the knot 0.514444 m/s, the mile per
// hour 0.44704 m/s, the foot 0.3048 m, g 9.80665 m/s²; and by hand for the rest.
func TestFactor(t *testing.T) {
	for _, c := range []struct {
		channel stream.Channel
		unit    string
		want    float64
	}{
		{stream.Time, "s", 1},
		{stream.Time, "ms", 0.001},
		{stream.Time, "min", 60},
		{stream.Bank, "deg", 1},
		{stream.Bank, "rad", 57.29577951308232},
		{stream.Airspeed, "kt", 1},
		{stream.Airspeed, "m/s", 1 / 0.5144444444444445},
		{stream.Airspeed, "mph", 0.44704 / 0.5144444444444445},
		{stream.Airspeed, "km/h", 1 / 1.852},
		{stream.Airspeed, "ft/s", 0.3048 / 0.5144444444444445},
		{stream.Altitude, "ft", 1},
		{stream.Altitude, "m", 3.280839895013123},
		{stream.VerticalSpeed, "ft/min", 1},
		{stream.VerticalSpeed, "ft/s", 60},
		{stream.VerticalSpeed, "m/s", 196.8503937007874},
		{stream.RollRate, "deg/s", 1},
		{stream.RollRate, "rad/s", 57.29577951308232},
		{stream.NormalLoad, "g", 1},
		{stream.NormalLoad, "m/s²", 0.10197162129779283},
		{stream.NormalLoad, "m/s2", 0.10197162129779283},
		{stream.NormalLoad, "ft/s²", 0.3048 / 9.80665},
		{stream.NormalLoad, "ft/s2", 0.3048 / 9.80665},
		{stream.Throttle, "ratio", 1},
		{stream.Throttle, "%", 0.01},
		{stream.N1, "%", 1},
		{stream.N1, "ratio", 100},
		{stream.RPM, "rpm", 1},
		{stream.OnGround, "flag", 1},
		{stream.Ball, "ball", 1},
		{stream.Latitude, Geocentric, 1},
	} {
		got, err := Factor(c.channel, c.unit)
		if err != nil || math.Abs(got-c.want) > 1e-12*c.want {
			t.Errorf("%s in %s: %v, %v; must be %v", c.channel, c.unit, got, err, c.want)
		}
	}
}

// An error lists what fits the channel, and the geocentric latitude for a latitude alone.
func TestFactorErrors(t *testing.T) {
	for _, c := range []struct {
		channel stream.Channel
		unit    string
		want    string
	}{
		{stream.RPM, "rps", `is "rps"; for channel rpm must be rpm`},
		{stream.Time, "h", `is "h"; for channel time must be min, ms or s`},
		{stream.Latitude, "km", `is "km"; for channel latitude must be deg, geocentric deg or rad`},
		{stream.Longitude, Geocentric, `is "geocentric deg"; for channel longitude must be deg or rad`},
		{stream.Altitude, "", `is ""; for channel altitude must be ft or m`},
		{stream.Altitude, "FT", `is "FT"; for channel altitude must be ft or m`},
	} {
		if _, err := Factor(c.channel, c.unit); err == nil || err.Error() != c.want {
			t.Errorf("%s in %q: %v; must be %s", c.channel, c.unit, err, c.want)
		}
	}
	for c := range stream.NumChannels {
		if _, err := Factor(c, "furlong"); err == nil || !strings.Contains(err.Error(), c.String()) {
			t.Errorf("%s in furlongs: %v", c, err)
		}
	}
}

// The eight directions of the compass, and what is too slow to have one: half a meter per second.
func TestTrack(t *testing.T) {
	for _, c := range []struct {
		north, east, want float64
		ok                bool
	}{
		{1, 0, 0, true},
		{1, 1, 45, true},
		{0, 1, 90, true},
		{-1, 1, 135, true},
		{-1, 0, 180, true},
		{-1, -1, -135, true},
		{0, -1, -90, true},
		{1, -1, -45, true},
		{0.5, 0, 0, true},
		{0.3, 0.4, 53.13010235415598, true},
		{0.49, 0, 0, false},
		{0, 0, 0, false},
	} {
		got, ok := Track(c.north, c.east)
		if ok != c.ok || ok && math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%v north, %v east: %v, %v; must be %v, %v", c.north, c.east, got, ok, c.want, c.ok)
		}
	}
	var s stream.Sample
	PutVelocity(&s, 0, -10, 0.508)
	if s.Value(stream.Track) != 270 || math.Abs(s.Value(stream.VerticalSpeed)+100) > 1e-9 { // 0.508 m/s is 100 ft/min
		t.Errorf("toward the west and down: %v°, %v ft/min", s.Value(stream.Track), s.Value(stream.VerticalSpeed))
	}
}
