package ground

import (
	"math"

	"halfturn/coach"
	"halfturn/stream/phrase"
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
		return l, phrase.LineHeading.Error(phrase.Number("heading", *w.Heading, -1, ""))
	case w.Heading == nil && !now.Known:
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
