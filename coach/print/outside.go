package print

import (
	"math"
	"slices"

	"codeberg.org/go-pdf/fpdf"

	"halfturn/coach"
	"halfturn/coach/message"
)

// An outside is a flown point past its corridor, with the edge that it is past.
type outside struct{ turn, value, edge float64 }

// bump is how much of a turn is no excursion yet, °: the pages draw as much (static/pure/lanes.js).
const bump = 4.0

// excursions are the parts of a trace outside the corridor of a lane; none that is over within a few degrees.
func excursions(l *Leg, lane *message.Lane) [][]outside {
	var all [][]outside
	var open []outside
	end := func() {
		if len(open) > 0 && open[len(open)-1].turn-open[0].turn >= bump {
			all = append(all, open)
		}
		open = nil
	}
	for i := range l.Trace {
		turn := l.Trace[i].Turn
		v, ok := traced(l, &l.Trace[i], lane.Channel)
		low, high, planned := edges(lane.Corridor, turn)
		switch {
		case !ok || !planned || v >= low && v <= high:
			end()
		case v > high:
			open = append(open, outside{turn, v, high})
		default:
			open = append(open, outside{turn, v, low})
		}
	}
	end()
	return all
}

// edges are those of a corridor at a turn angle; ok is false past its ends.
func edges(corridor []message.Corridor, turn float64) (low, high float64, ok bool) {
	i := slices.IndexFunc(corridor, func(c message.Corridor) bool { return c.Turn >= turn })
	if i < 0 {
		return 0, 0, false
	}
	b := corridor[i]
	a := corridor[max(i-1, 0)]
	if turn < a.Turn {
		return 0, 0, false
	}
	share := 0.0
	if b.Turn > a.Turn {
		share = (turn - a.Turn) / (b.Turn - a.Turn)
	}
	return a.Low + (b.Low-a.Low)*share, a.High + (b.High-a.High)*share, true
}

// decided reports whether a check of a lane was not met: an excursion that no check minds is no fault.
func decided(l *Leg, lane string) bool {
	of := map[string][]string{
		"bank":     {"bank", "turn"},
		"pitch":    {"pitch", "pitch-rate"},
		"airspeed": {"airspeed", "stall-margin"},
		"height":   {"height", "altitude", "vertical-speed"},
	}[lane]
	return slices.ContainsFunc(l.Checks, func(c coach.Check) bool {
		return (c.Verdict == coach.Missed || c.Verdict == coach.Near) && slices.Contains(of, c.Channel)
	})
}

const (
	hatchApart = 1.3 // mm between the lines
	hatchPen   = 0.25
	outsidePen = 1.0 // the flight itself, there
)

// outsides hatches where the flight left a corridor, and draws it heavier there, as the pages do.
func (p *sheet) outsides(l *Leg, lane *message.Lane, x, y func(float64) float64) {
	if !decided(l, lane.Channel) {
		return
	}
	for _, out := range excursions(l, lane) {
		var area []fpdf.PointType
		for _, o := range out {
			area = append(area, fpdf.PointType{X: x(o.turn), Y: y(o.value)})
		}
		for _, o := range slices.Backward(out) {
			area = append(area, fpdf.PointType{X: x(o.turn), Y: y(o.edge)})
		}
		p.hatch(area)
		p.SetLineWidth(outsidePen)
		p.curve(len(out), func(i int) (float64, float64, bool) { return x(out[i].turn), y(out[i].value), true })
	}
}

// hatch fills an area with lines that rise to the right.
func (p *sheet) hatch(area []fpdf.PointType) {
	left, right := math.Inf(1), math.Inf(-1)
	top, bottom := left, right
	for _, at := range area {
		left, right = math.Min(left, at.X), math.Max(right, at.X)
		top, bottom = math.Min(top, at.Y), math.Max(bottom, at.Y)
	}
	p.ClipPolygon(area, false)
	p.SetLineWidth(hatchPen)
	tall := bottom - top
	for foot := left - tall; foot < right; foot += hatchApart {
		p.Line(foot, bottom, foot+tall, top)
	}
	p.ClipEnd()
}
