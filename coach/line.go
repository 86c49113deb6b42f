package coach

import (
	"math"

	"halfturn/phrase"
	"halfturn/stream"
)

// A line is the ground line that was chosen.
type line struct {
	set      bool
	heading  float64 // °
	side     float64 // 1 right, −1 left, 0 that of the turn
	distance float64 // NM to the reference point, 0 the usual
}

// farthestPoint is the farthest a reference point may be, NM: beyond, haze hides it (common
// practice, no source).
const farthestPoint = 50.0

// SetLine sets or clears the ground line, as of the last sample. It refuses what is no heading,
// side or distance, and the heading of now when there is none yet.
func (c *Coach) SetLine(w LineChoice) error {
	l, err := w.line(c.heading, c.begun)
	if err != nil {
		return err
	}
	c.line, c.touched = l, point{}
	c.wants = gateWants(c.among, &c.line)
	if l.side != 0 && c.begun {
		c.touched = c.fixPoint(placeOf(&c.last), l.heading, l.side)
	}
	return nil
}

// Succeed takes over the ground line of another coach of the same station.
func (c *Coach) Succeed(old *Coach) {
	c.line, c.touched = old.line, old.touched
	c.wants = gateWants(c.among, &c.line)
}

// line checks a choice; now is the heading of now.
func (w *LineChoice) line(now float64, known bool) (line, error) {
	l := line{set: !w.Clear, heading: now}
	switch {
	case w.Clear:
		return line{}, nil
	case w.Heading != nil && !(*w.Heading >= 0 && *w.Heading <= 360):
		return l, phrase.LineHeading.Error(phrase.Number("heading", *w.Heading, -1, ""))
	case w.Heading == nil && !known:
		return l, phrase.LineUnknown.Error()
	case w.Distance != nil && !(*w.Distance >= 0.1 && *w.Distance <= farthestPoint):
		return l, phrase.LineDistance.Error(
			phrase.Number("distance", *w.Distance, -1, "NM"),
			phrase.Number("least", 0.1, -1, "NM"),
			phrase.Number("most", farthestPoint, -1, "NM"))
	}
	switch w.Side {
	case "right":
		l.side = 1
	case "left":
		l.side = -1
	case "":
	default:
		return l, phrase.LineSide.Error(phrase.Name("side", w.Side))
	}
	if w.Heading != nil {
		l.heading = *w.Heading
	}
	l.heading = stream.Wrap360(l.heading)
	if w.Distance != nil {
		l.distance = *w.Distance
	}
	return l, nil
}

// off returns how far the nose is from the nearer direction of the line, °, right positive.
func (l *line) off(heading float64) float64 {
	return math.Remainder(heading-l.heading, 180)
}

// show writes the line for a frame; nil when none was chosen.
func (l *line) show(heading float64) *Line {
	if !l.set {
		return nil
	}
	out := &Line{Heading: round(l.heading, 1), Off: round(l.off(heading), 1)}
	if l.side != 0 {
		out.Side = direction(l.side)
	}
	if l.distance > 0 {
		out.Distance = ptr(l.distance)
	}
	return out
}
