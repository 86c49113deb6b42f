package leg

import (
	"math/bits"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/ground"
	"halfturn/stream"
)

// A Course is what the legs of several cards have in common when they depart at the same time and are found at the same
// sample: they see the same moments, so one trace does for all of them, and one record of each point.
type Course struct {
	start   Start
	drawing drawing
	points  []passed
}

// A passed moment, and the record of it.
type passed struct {
	moment check.Moment
	point  coach.Point
}

// NewCourse begins a course. Its trace ends a little past a turn (°), and has the axes for the way over the ground.
func NewCourse(at Start, turn float64, axes ground.Axes) *Course {
	c := &Course{start: at}
	c.drawing.begin(turn)
	c.drawing.axes = axes
	return c
}

// Is reports whether a leg that is found at the same sample, began where at says, and turns that far (°) flies the
// course.
func (c *Course) Is(at Start, turn float64) bool {
	return c.start == at && c.drawing.most == entriesOf(turn)
}

// pointOf makes a point of the record of a moment. Records of the same course share their points.
func (c *Course) pointOf(m *check.Moment) coach.Point {
	for i := range c.points {
		if c.points[i].moment == *m {
			return c.points[i].point
		}
	}
	p := pointOf(m)
	c.points = append(c.points, passed{*m, p})
	return p
}

// pointOf makes a point of the record of a moment.
func pointOf(m *check.Moment) coach.Point {
	p := coach.Point{
		Turn:   coach.Round(m.Turn, 3),
		Time:   coach.Round(m.Time(), 4),
		Values: make(map[string]float64, bits.OnesCount64(uint64(m.Sample.Has))),
	}
	for c := range m.Sample.Has.Without(stream.Time).All() {
		digits := 3
		if c == stream.Latitude || c == stream.Longitude {
			digits = 7
		}
		p.Values[c.String()] = coach.Round(m.Sample.Value(c), digits)
	}
	return p
}
