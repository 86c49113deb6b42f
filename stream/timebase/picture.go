package timebase

import (
	"math"

	"halfturn/stream"
	"halfturn/stream/attitude"
)

// A picture is the part of a sample that cannot stay the same in flight, in the order of
// pictured.
type picture struct {
	has    stream.Set
	values [len(pictured)]float64
}

var pictured = [...]stream.Channel{stream.Heading, stream.Pitch, stream.Bank, stream.Altitude, stream.Airspeed,
	stream.Latitude, stream.Longitude, stream.GroundSpeed}

// Places in picture.values.
const (
	atHeading = iota
	atPitch
	atBank
	atAltitude
	atAirspeed
	atLatitude
	atLongitude
	atGroundSpeed
)

const (
	placeSet   = stream.Set(1<<stream.Latitude | 1<<stream.Longitude)
	pictureSet = stream.AttitudeSet | placeSet | 1<<stream.Altitude | 1<<stream.Airspeed | 1<<stream.GroundSpeed
)

func pictureOf(s *stream.Sample) picture {
	p := picture{has: s.Has & pictureSet &^ s.Derived}
	for i, c := range pictured {
		if p.has.Has(c) {
			p.values[i] = s.Value(c)
		}
	}
	return p
}

func (p *picture) update(q *picture) {
	p.has |= q.has
	for i, c := range pictured {
		if q.has.Has(c) {
			p.values[i] = q.values[i]
		}
	}
}

func (p *picture) attitudeDiffers(q *picture) bool {
	return p.has&q.has&stream.AttitudeSet != 0 && [3]float64(p.values[:3]) != [3]float64(q.values[:3])
}

func (p *picture) placeDiffers(q *picture) bool {
	return p.values[atLatitude] != q.values[atLatitude] || p.values[atLongitude] != q.values[atLongitude]
}

// change returns how far the value at place i is from that of q.
func (p *picture) change(q *picture, i int) float64 { return math.Abs(p.values[i] - q.values[i]) }

// turned returns the angle in degrees between two attitudes about any axis: heading and bank by themselves may jump
// where the nose passes the vertical.
func (p *picture) turned(q *picture) float64 {
	a, b := &p.values, &q.values
	if math.Abs(stream.Wrap180(a[atHeading]-b[atHeading])) < 10 && math.Abs(a[atPitch]-b[atPitch]) < 10 &&
		math.Abs(stream.Wrap180(a[atBank]-b[atBank])) < 10 {
		return 0 // certainly small
	}
	x, y, z := attitude.Of(b[atHeading], b[atPitch], b[atBank]).To(attitude.Of(a[atHeading], a[atPitch], a[atBank]))
	return math.Sqrt(x*x + y*y + z*z)
}

// nearby is a distance in degrees that is never a jump: with it to the north and to the
// east, 157 m.
const nearby = 1e-3

// metersPerDegree is that of latitude: a minute is a nautical mile.
const metersPerDegree = 60 * 1852

// moved returns the distance in meters between two positions, on a sphere and flat: good
// enough for what it must tell apart. It is 0 for those nearby.
func (p *picture) moved(q *picture) float64 {
	north := p.values[atLatitude] - q.values[atLatitude]
	east := stream.Wrap180(p.values[atLongitude] - q.values[atLongitude])
	if math.Abs(north) < nearby && math.Abs(east) < nearby {
		return 0 // certainly small
	}
	return p.apart(q)
}
