package ground

import (
	"math"

	"halfturn/stream"
)

// The earth's ellipsoid, WGS-84: semi-major axis in ft and first eccentricity squared (NIMA
// TR8350.2, from memory).
const (
	earthAxis   = 6378137 / 0.3048
	earthSquare = 6.69437999014e-3
	nautical    = 1852 / 0.3048 // ft
	degree      = math.Pi / 180
)

// A Place is a position with the local scale of the ground. Over the few miles of a maneuver the earth is taken
// as flat. The zero value is an unknown place.
type Place struct {
	ok          bool
	lat, lon    float64 // °
	north, east float64 // ft per degree of latitude and of longitude
}

// PlaceOf returns the place of a sample; unknown when it has no position, or is within a degree of a pole.
func PlaceOf(s *stream.Sample) Place {
	lat, ok := s.Get(stream.Latitude)
	lon, both := s.Get(stream.Longitude)
	if !ok || !both || math.Abs(lat) > 89 {
		return Place{}
	}
	sin, cos := math.Sincos(lat * degree)
	w := 1 - earthSquare*sin*sin
	h := s.Value(stream.Altitude)
	return Place{
		ok:    true,
		lat:   lat,
		lon:   lon,
		north: (earthAxis*(1-earthSquare)/(w*math.Sqrt(w)) + h) * degree,
		east:  (earthAxis/math.Sqrt(w) + h) * cos * degree,
	}
}

// to returns how far north and east another position is, ft.
func (p *Place) to(lat, lon float64) (north, east float64) {
	return (lat - p.lat) * p.north, stream.Wrap180(lon-p.lon) * p.east
}

// off returns the position at a distance (ft) in a true direction (°).
func (p *Place) off(direction, distance float64) (lat, lon float64) {
	sin, cos := math.Sincos(direction * degree)
	return p.lat + distance*cos/p.north, stream.Wrap180(p.lon + distance*sin/p.east)
}

// Axes are the place, heading and side of a leg's entry, from which along and across are measured. The zero value
// is unknown axes.
type Axes struct {
	place   Place
	heading float64 // ° true
	side    float64 // 1 right, −1 left
}

// Locate returns how far a sample is along the heading of the axes, and across toward their side, ft; ok is false
// when either is unknown.
func (a *Axes) Locate(s *stream.Sample) (along, across float64, ok bool) {
	lat, has := s.Get(stream.Latitude)
	lon, both := s.Get(stream.Longitude)
	if !a.place.ok || !has || !both {
		return 0, 0, false
	}
	north, east := a.place.to(lat, lon)
	sin, cos := math.Sincos(a.heading * degree)
	return north*cos + east*sin, a.side * (east*cos - north*sin), true
}
