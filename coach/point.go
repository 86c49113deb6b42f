package coach

import (
	"math"

	"halfturn/stream"
)

// usualPoint is how far off the reference point is where none was chosen, NM: far enough that the
// turn hardly moves its bearing, near enough to be seen (common practice, no source).
const usualPoint = 5.0

// keepPoint is how far from the wing a point that was chosen by a touch may stand at the
// departure to be kept for the leg, °.
const keepPoint = 30.0

// A point is the reference point, fixed in the world.
type point struct {
	ok       bool
	lat, lon float64
}

// fixPoint puts a point off the wing of a heading (as sent) on a side.
func (c *Coach) fixPoint(at place, heading, side float64) point {
	h, ok := c.ground.trueOf(heading)
	if !at.ok || !ok {
		return point{}
	}
	far := usualPoint
	if c.line.distance > 0 {
		far = c.line.distance
	}
	lat, lon := at.off(h+90*side, far*nautical)
	return point{true, lat, lon}
}

// from returns where the point stands: ° from the nose, right positive, and NM away.
func (p *point) from(at place, heading float64) (bearing, far float64) {
	north, east := at.to(p.lat, p.lon)
	return stream.Wrap180(math.Atan2(east, north)/degree - heading), math.Hypot(north, east) / nautical
}

// legPoint is the point of a leg: the one chosen by a touch where it stands off the wing on the
// side of the turn, else one fixed at the departure.
func (c *Coach) legPoint(at place, heading, side float64) point {
	if h, ok := c.ground.trueOf(heading); ok && at.ok && c.touched.ok {
		if bearing, _ := c.touched.from(at, h); math.Abs(bearing-90*side) <= keepPoint {
			return c.touched
		}
	}
	return c.fixPoint(at, heading, side)
}

// showPoint tells where a point stands now; without position the frame is left as it is.
func (c *Coach) showPoint(f *Frame, p *point) {
	at := placeOf(&c.last)
	h, ok := c.ground.trueOf(c.heading)
	if !p.ok || !at.ok || !ok {
		return
	}
	bearing, far := p.from(at, h)
	f.Point, f.PointBy, f.PointFar = ptr(round(bearing, 1)), "position", ptr(round(far, 2))
}
