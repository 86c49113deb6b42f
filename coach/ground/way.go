package ground

import (
	"math"

	"halfturn/coach/aero"
	"halfturn/stream"
)

// A Way keeps where a turn went over the ground and how the airplane lay there, one spot for each degree of turn, to
// find afterwards what it was flown about. The zero value is ready for use.
type Way struct {
	from  Place
	spots []spot
	next  float64 // ° of turn from which the next spot is kept
	last  float64 // stream time of the last sample, s

	magnetic            bool
	start               float64 // stream time of the first spot, s
	begun               float64 // stream time of the first sample with an airspeed, s
	air                 offset  // way through the air since then, ft
	first, now          offset  // over the ground, ft from the first spot
	heading, flown, tas float64 // of the last sample
}

// An offset is a way over the ground, ft.
type offset struct{ north, east float64 }

// A spot is one degree of a turn: s and ft from the first one, ft above the ground, and the attitude, all angles in °.
type spot struct {
	time, turn, north, east, height, heading, pitch, bank float32
}

// mostSpots bounds the spots: five full turns.
const mostSpots = 1860

// Add takes the next sample at its turn angle. The same again is passed over: several checks look at one way.
func (w *Way) Add(s *stream.Sample, turn float64) {
	now := s.Value(stream.Time)
	if len(w.spots) > 0 && now <= w.last {
		return
	}
	lat, ok := s.Get(stream.Latitude)
	lon, both := s.Get(stream.Longitude)
	if !ok || !both {
		return
	}
	if len(w.spots) == 0 {
		if w.from = PlaceOf(s); !w.from.ok {
			return
		}
		w.next, w.magnetic, w.start, w.begun = math.Inf(-1), s.Magnetic, now, math.NaN()
	}
	north, east := w.from.to(lat, lon)
	w.drift(s, now, offset{north, east})
	w.last = now
	if turn < w.next || len(w.spots) == mostSpots {
		return
	}
	w.next = turn + 1
	height, known := s.Get(stream.Height)
	if !known {
		height = math.NaN()
	}
	w.spots = append(w.spots, spot{
		float32(now - w.start), float32(turn), float32(north), float32(east), float32(height),
		float32(s.Value(stream.Heading)), float32(s.Value(stream.Pitch)), float32(s.Value(stream.Bank)),
	})
}

// drift adds the way through the air since the last sample.
func (w *Way) drift(s *stream.Sample, now float64, at offset) {
	tas, ok := TrueAirspeed(s)
	heading := s.Value(stream.Heading)
	if !ok {
		return
	}
	if climb, has := s.Get(stream.VerticalSpeed); has { // what is left of it over the ground
		up := climb / 60 / aero.FeetPerSecond
		tas = math.Sqrt(max(0, tas*tas-up*up))
	}
	if math.IsNaN(w.begun) {
		w.begun, w.first = now, at
	} else {
		way := (tas + w.tas) / 2 * aero.FeetPerSecond * (now - w.last)
		sin, cos := math.Sincos((w.heading + stream.Wrap180(heading-w.heading)/2) * degree)
		w.air.north, w.air.east = w.air.north+way*cos, w.air.east+way*sin
		w.flown += math.Abs(stream.Wrap180(heading - w.heading))
	}
	w.now, w.heading, w.tas = at, heading, tas
}

// leastFlown is how far the heading must have come round for the wind to be taken from a whole turn, °: then the angle
// between the nose and the way through the air averages out.
const leastFlown = 330.0

// Wind returns the mean wind over the turn, kt toward north and east: the way over the ground less that through the
// air. ok is false before a whole turn, and where the heading is magnetic.
func (w *Way) Wind() (north, east float64, ok bool) {
	time := w.last - w.begun
	if w.magnetic || w.flown < leastFlown || !(time > 0) {
		return 0, 0, false
	}
	k := 1 / time / aero.FeetPerSecond
	return (w.now.north - w.first.north - w.air.north) * k, (w.now.east - w.first.east - w.air.east) * k, true
}

// A Spot is a point on the ground that a turn was flown about.
type Spot struct {
	Lat, Lon    float64 // °
	Radius      float64 // ft, mean distance on the ground
	Within      float64 // ft: how far off it may be, about one time in twenty by more; 0 where it was chosen
	north, east float64 // ft from the first spot of the way
}

// A Fixed is a point on the ground, °.
type Fixed struct{ Lat, Lon float64 }

// within returns the spots between two turn angles, °.
func (w *Way) within(from, to float64) []spot {
	a, b := 0, len(w.spots)
	for a < b && float64(w.spots[a].turn) < from {
		a++
	}
	for b > a && float64(w.spots[b-1].turn) > to {
		b--
	}
	return w.spots[a:b]
}

// at makes a Spot of a point, with its mean distance from some spots of the way.
func (w *Way) at(north, east float64, from []spot) Spot {
	s := Spot{north: north, east: east}
	s.Lat, s.Lon = w.from.lat+north/w.from.north, stream.Wrap180(w.from.lon+east/w.from.east)
	for i := range from {
		s.Radius += s.away(&from[i]) / float64(len(from))
	}
	return s
}

// away returns the distance of a spot of the way on the ground, ft.
func (s *Spot) away(p *spot) float64 {
	return math.Hypot(float64(p.north)-s.north, float64(p.east)-s.east)
}

// Given makes a Spot of a point that was chosen.
func (w *Way) Given(p Fixed, from, to float64) (Spot, bool) {
	if !w.from.ok {
		return Spot{}, false
	}
	north, east := w.from.to(p.Lat, p.Lon)
	return w.at(north, east, w.within(from, to)), true
}

// axes returns the body's axes in north, east and down: ahead, along the wing on the side of the turn (1 right, −1
// left), and down. The bank of a spot is positive toward the turn.
func (p *spot) axes(side float64) (ahead, wing, down [3]float64) {
	sh, ch := math.Sincos(float64(p.heading) * degree)
	st, ct := math.Sincos(float64(p.pitch) * degree)
	sb, cb := math.Sincos(side * float64(p.bank) * degree)
	ahead = [3]float64{ct * ch, ct * sh, -st}
	wing = [3]float64{side * (sb*st*ch - cb*sh), side * (sb*st*sh + cb*ch), side * sb * ct}
	down = [3]float64{cb*st*ch + sb*sh, cb*st*sh - sb*ch, cb * ct}
	return ahead, wing, down
}
