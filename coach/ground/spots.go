package ground

import (
	"math"

	"halfturn/coach"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// How a point on the ground is chosen, and which of those chosen a turn is flown about. Common practice, no source.
const (
	leastWing   = 12.0    // ° by which the wing must be down for its line to meet the ground within reach
	usualSpot   = 1000.0  // ft to the side, where neither the wing nor the plan says how far
	nearestSpot = 100.0   // ft to the side at least
	farSpot     = 20000.0 // ft: what is farther is no point to fly about
	keepSpot    = 60.0    // ° from the wing, at the roll-in, at most
)

// Spots are the points on the ground that were chosen to fly about: the last two, since an eight has two pylons. The
// zero value is none.
type Spots struct {
	list [2]Fixed // the newer first
	n    int
}

// Newest returns the point that was chosen last.
func (s *Spots) Newest() (Fixed, bool) { return s.list[0], s.n > 0 }

// set takes or clears a point as of a pose and a sample. usual is how far to the side a point is meant to be, ft; 0
// where that is not known. It returns an error when the choice is out of range, and when there is no position or true
// heading to take it from.
func (s *Spots) set(w coach.AboutChoice, path *Path, now *Pose, last *stream.Sample, usual float64) error {
	heading, ok := path.trueOf(now.Heading)
	switch {
	case w.Clear:
		*s = Spots{}
		return nil
	case w.Where != coach.AboutHere && w.Where != "left" && w.Where != "right":
		return phrase.AboutWhere.Error(phrase.Name("where", w.Where))
	case w.Distance != nil && !(*w.Distance >= nearestSpot && *w.Distance <= farSpot):
		return phrase.AboutDistance.Error(
			phrase.Number("distance", *w.Distance, -1, "ft"),
			phrase.Number("least", nearestSpot, -1, "ft"),
			phrase.Number("most", farSpot, -1, "ft"))
	case !now.Known || !now.Place.ok || !ok:
		return phrase.AboutUnknown.Error()
	}
	point := Fixed{now.Place.lat, now.Place.lon}
	if w.Where != coach.AboutHere {
		side := 1.0
		if w.Where == "left" {
			side = -1
		}
		point = abeam(now.Place, heading, side, far(w.Distance, usual), last)
	}
	s.list[1], s.list[0] = s.list[0], point
	s.n = min(s.n+1, len(s.list))
	return nil
}

// far is how far to the side a point is, ft: as chosen, else as usual.
func far(chosen *float64, usual float64) float64 {
	switch {
	case chosen != nil:
		return *chosen
	case usual >= nearestSpot && usual <= farSpot:
		return usual
	}
	return usualSpot
}

// abeam returns the point off a wing: where its line meets the ground if it is down, else as far as is usual.
func abeam(at Place, heading, side, distance float64, last *stream.Sample) Fixed {
	height, ok := last.Get(stream.Height)
	bank := side * last.Value(stream.Bank)
	p := spot{heading: float32(heading), pitch: float32(last.Value(stream.Pitch)), bank: float32(bank)}
	_, wing, _ := p.axes(side)
	north, east := wing[0]*distance, wing[1]*distance
	if along := height / wing[2]; ok && bank >= leastWing && along*math.Hypot(wing[0], wing[1]) <= farSpot {
		north, east = wing[0]*along, wing[1]*along
	}
	return Fixed{at.lat + north/at.north, stream.Wrap180(at.lon + east/at.east)}
}

// near returns the chosen point that a turn to a side (1 right, −1 left) is flown about: the one nearest to the wing
// where it begins, with a heading as sent. ok is false where none stands off that wing.
func (s *Spots) near(path *Path, at Place, heading, side float64) (f Fixed, ok bool) {
	h, known := path.trueOf(heading)
	if !known || !at.ok {
		return f, false
	}
	least := keepSpot
	for _, p := range s.list[:s.n] {
		north, east := at.to(p.Lat, p.Lon)
		off := math.Abs(stream.Wrap180(math.Atan2(east, north)/degree - h - 90*side))
		if off <= least && math.Hypot(north, east) <= farSpot {
			least, f, ok = off, p, true
		}
	}
	return f, ok
}

// Choose takes or clears a point on the ground to fly about; see [Spots].
func (s *Sight) Choose(w coach.AboutChoice, path *Path, now *Pose, last *stream.Sample, usual float64) error {
	return s.spots.set(w, path, now, last, usual)
}

// Spots returns the points that were chosen to fly about.
func (s *Sight) Spots() *Spots { return &s.spots }

// LegSpot returns the chosen point that a leg is flown about which begins at a place with a heading as sent; ok is
// false where none stands off the wing on the side of the turn.
func (s *Sight) LegSpot(path *Path, at Place, heading, side float64) (Fixed, bool) {
	return s.spots.near(path, at, heading, side)
}

// Stand is how the airplane stands to a point on the ground.
type Stand struct {
	Bearing  float64 // ° from the nose, right positive
	Distance float64 // ft on the ground
	Ahead    float64 // ° ahead of the line of the wing, in the plane of the wings; NaN without a height
}

// StandOf returns how a moment of a turn to a side stands to a point: the bank of the sample is positive toward the
// turn. ok is false without position or true heading.
func StandOf(point Fixed, path *Path, s *stream.Sample, side float64) (st Stand, ok bool) {
	at := PlaceOf(s)
	heading, known := path.trueOf(s.Value(stream.Heading))
	if !at.ok || !known {
		return st, false
	}
	north, east := at.to(point.Lat, point.Lon)
	st.Bearing, st.Distance = stream.Wrap180(math.Atan2(east, north)/degree-heading), math.Hypot(north, east)
	st.Ahead = math.NaN()
	if height, ok := s.Get(stream.Height); ok {
		p := spot{height: float32(height), heading: float32(heading), pitch: float32(s.Value(stream.Pitch)),
			bank: float32(s.Value(stream.Bank))}
		st.Ahead = p.ahead(Spot{north: north, east: east}, side)
	}
	return st, true
}
