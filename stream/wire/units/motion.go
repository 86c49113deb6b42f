package units

import (
	"math"

	"halfturn/stream"
)

// slowest is the ground speed, m/s, below which a track means nothing.
const slowest = 0.5

// PutVelocity stores what a velocity over the ground says: north, east, down in m/s. Below half a meter per second
// there is no track.
func PutVelocity(s *stream.Sample, north, east, down float64) {
	speed := math.Hypot(north, east)
	s.Put(stream.GroundSpeed, speed/Knot)
	if track, ok := Track(north, east); ok {
		s.Put(stream.Track, track)
	}
	s.Put(stream.VerticalSpeed, -down/FootPerMinute)
}

// Track returns the direction of a velocity over the ground in degrees, false when it is too slow to have one.
func Track(north, east float64) (degrees float64, ok bool) {
	return math.Atan2(east, north) * DegreesPerRadian, math.Hypot(north, east) >= slowest
}
