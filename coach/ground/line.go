package ground

import (
	"errors"
	"fmt"
	"math"

	"halfturn/coach"
	"halfturn/stream"
)

// A line is the chosen ground line.
type line struct {
	set      bool
	heading  float64 // °
	side     float64 // 1 right, −1 left, 0 that of the turn
	distance float64 // NM to the reference point, 0 is the usual one
}

// farthestPoint is the greatest distance of a reference point, NM: haze hides what is farther (common practice, no
// source).
const farthestPoint = 50.0

// newLine checks a choice. Without a heading the line lies along the nose.
func newLine(w *coach.LineChoice, now *Pose) (line, error) {
	l := line{set: !w.Clear, heading: now.Heading}
	switch {
	case w.Clear:
		return line{}, nil
	case w.Heading != nil && !(*w.Heading >= 0 && *w.Heading <= 360):
		return l, fmt.Errorf("the heading %g is none: choose 0 to 360", *w.Heading)
	case w.Heading == nil && !now.Known:
		return l, errors.New("the heading of now is not known yet: wait for the stream, or choose one from 0 to 360")
	case w.Distance != nil && !(*w.Distance >= 0.1 && *w.Distance <= farthestPoint):
		return l, fmt.Errorf("the reference point cannot be %g NM away: choose 0.1 NM to %g NM",
			*w.Distance, farthestPoint)
	}
	switch w.Side {
	case "right":
		l.side = 1
	case "left":
		l.side = -1
	case "":
	default:
		return l, fmt.Errorf("the side %q is none: choose right, left or neither", w.Side)
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

// off returns how far a heading is off the nearer direction of the line, °, right positive.
func (l *line) off(heading float64) float64 {
	return math.Remainder(heading-l.heading, 180)
}

// show returns the line for a frame; nil when none was chosen.
func (l *line) show(heading float64) *coach.Line {
	if !l.set {
		return nil
	}
	out := &coach.Line{Heading: coach.Round(l.heading, 1), Off: coach.Round(l.off(heading), 1)}
	if l.side != 0 {
		out.Side = coach.Direction(l.side)
	}
	if l.distance > 0 {
		out.Distance = new(l.distance)
	}
	return out
}
