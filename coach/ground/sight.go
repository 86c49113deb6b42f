package ground

import (
	"fmt"
	"math"

	"halfturn/coach"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// usualPoint is the distance of a reference point where none was chosen, NM: so far that the turn hardly moves its
// bearing, near enough to be seen (common practice, no source).
const usualPoint = 5.0

// keepPoint is how far from the wing, at the departure, a chosen reference point may stand to be kept for the leg, °.
const keepPoint = 30.0

// A Pose is where the airplane is and where it points.
type Pose struct {
	Known   bool
	Heading float64 // °, as sent
	Place   Place
}

// A Point is a reference point, fixed in the world. The zero value is no point.
type Point struct {
	ok       bool
	lat, lon float64
}

// A Sight is what the pilot chose to fly by: a ground line, and a reference point off the wing. The zero value is
// neither. With it are the points to fly about that were chosen.
type Sight struct {
	line   line
	chosen Point
	want   phrase.Phrase
	spots  Spots
}

// Set sets or clears the ground line as of a pose. It returns an error when the heading, side or distance is out of
// range, and when there is no heading to take over yet.
func (s *Sight) Set(w coach.LineChoice, path *Path, now *Pose) error {
	l, err := newLine(&w, now)
	if err != nil {
		return err
	}
	*s = Sight{line: l, spots: s.spots}
	if l.set {
		s.want = phrase.WantLine.Of(
			phrase.Number("value", OnLine, -1, "°"),
			phrase.Words("heading", fmt.Sprintf("%03.0f°", l.heading)))
	}
	if l.side != 0 && now.Known {
		s.chosen = s.fix(path, now.Place, l.heading, l.side)
	}
	return nil
}

// OnLine is how far the nose may be off the chosen line, in either direction along it, °.
const OnLine = 5.0

// Off returns how far a heading is off the nearer direction of the line, °, right positive; ok is false without a
// line.
func (s *Sight) Off(heading float64) (off float64, ok bool) { return s.line.off(heading), s.line.set }

// Want says the condition of being on the line; nothing without a line.
func (s *Sight) Want() phrase.Phrase { return s.want }

// fix puts a point off the wing, to a side, of a heading as sent.
func (s *Sight) fix(path *Path, at Place, heading, side float64) Point {
	h, ok := path.trueOf(heading)
	if !at.ok || !ok {
		return Point{}
	}
	far := usualPoint
	if s.line.distance > 0 {
		far = s.line.distance
	}
	lat, lon := at.off(h+90*side, far*nautical)
	return Point{true, lat, lon}
}

// from returns the bearing of the point from the nose (°, right positive) and its distance (NM).
func (p *Point) from(at Place, heading float64) (bearing, far float64) {
	north, east := at.to(p.lat, p.lon)
	return stream.Wrap180(math.Atan2(east, north)/degree - heading), math.Hypot(north, east) / nautical
}

// LegPoint returns the reference point of a leg that departs from a place with a heading as sent: the chosen one
// where it stands off the wing on the side of the turn, else one off that wing.
func (s *Sight) LegPoint(path *Path, at Place, heading, side float64) Point {
	if h, ok := path.trueOf(heading); ok && at.ok && s.chosen.ok {
		if bearing, _ := s.chosen.from(at, h); math.Abs(bearing-90*side) <= keepPoint {
			return s.chosen
		}
	}
	return s.fix(path, at, heading, side)
}

// Show adds the line and the chosen point to a frame. Without a position the point stands off the chosen wing.
func (s *Sight) Show(f *coach.Frame, path *Path, now *Pose) {
	if s.line.side != 0 {
		f.Point, f.PointBy = new(90*s.line.side), "heading"
	}
	s.chosen.Show(f, path, now)
}

// ShowLine returns the line for a frame; nil without one.
func (s *Sight) ShowLine(heading float64) *coach.Line { return s.line.show(heading) }

// Show adds the bearing and distance of the point to a frame. Without a position the frame is left as it is.
func (p *Point) Show(f *coach.Frame, path *Path, now *Pose) {
	h, ok := path.trueOf(now.Heading)
	if !p.ok || !now.Place.ok || !ok {
		return
	}
	bearing, far := p.from(now.Place, h)
	f.Point, f.PointBy, f.PointFar = new(coach.Round(bearing, 1)), "position", new(coach.Round(far, 2))
}
