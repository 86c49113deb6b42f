package encode

import (
	"math"

	"halfturn/stream"
	"halfturn/stream/wire/units"
)

// orNaN returns a channel's value, NaN where the sample lacks it.
func orNaN(s *stream.Sample, c stream.Channel) float64 {
	if v, ok := s.Get(c); ok {
		return v
	}
	return math.NaN()
}

// trueHeading returns the heading, NaN where the sample has no true one.
func trueHeading(s *stream.Sample) float64 {
	if s.Magnetic {
		return math.NaN()
	}
	return orNaN(s, stream.Heading)
}

// velocity returns a sample's velocity over the ground: north, east, down in m/s, NaN for what it lacks.
func velocity(s *stream.Sample) (north, east, down float64) {
	north, east, down = math.NaN(), math.NaN(), math.NaN()
	speed, moving := s.Get(stream.GroundSpeed)
	track, known := s.Get(stream.Track)
	if moving && (known || speed == 0) {
		sin, cos := math.Sincos(track / units.DegreesPerRadian)
		north, east = speed*units.Knot*cos, speed*units.Knot*sin
	}
	if v, ok := s.Get(stream.VerticalSpeed); ok {
		down = -v * units.FootPerMinute
	}
	return north, east, down
}

// rounded rounds to a whole number within limits.
func rounded(v, least, most float64) int64 {
	v = min(max(v, least), most)
	if v < 0 {
		return -int64(0.5 - v)
	}
	return int64(v + 0.5)
}

// once reports when something is due that is sent at intervals of stream time.
type once struct {
	last    float64
	started bool
}

func (o *once) at(s *stream.Sample, every float64) bool {
	now := s.Value(stream.Time)
	if past := now - o.last; o.started && past >= 0 && past < every-1e-6 {
		return false
	}
	o.last, o.started = now, true
	return true
}
