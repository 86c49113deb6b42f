package sampling

import (
	"math"

	"halfturn/coach/check"
	"halfturn/coach/kinds"
)

// What counts as a hole in the stream of a leg (common practice, no source). A gap over 2 s is a jump and ends the
// leg; a stream that is coarse throughout has no holes, only doubt.
const (
	holeTime = 1.05 // s without a sample; a little over 1, so that one sample per second has none
	holeTurn = 10.0 // ° of turn without a sample, if it took
	holeWide = 2.5  // times the usual interval
)

// A hole is a stretch of turn in which nothing arrived.
type hole struct{ from, to float64 }

// holes are those of a leg. When there are too many the last one grows.
type holes struct{ list []hole }

const mostHoles = 16

// add looks for a hole between two successive moments; interval is the usual time between two, s.
func (h *holes) add(prev, cur *check.Moment, interval float64) {
	dt, step := cur.Time()-prev.Time(), math.Abs(cur.Turn-prev.Turn)
	if dt <= holeTime && (step <= holeTurn || dt <= holeWide*interval) {
		return
	}
	next := hole{min(prev.Turn, cur.Turn), max(prev.Turn, cur.Turn)}
	if len(h.list) == mostHoles {
		last := &h.list[mostHoles-1]
		*last = hole{min(last.from, next.from), max(last.to, next.to)}
		return
	}
	h.list = append(h.list, next)
}

// cut makes a hole of the rest of the turn, which was not seen.
func (h *holes) cut(turn float64) {
	h.list = append(h.list[:min(len(h.list), mostHoles-1)], hole{turn, math.Inf(1)})
}

// over returns the first hole that a span reaches into. A place is a span whose ends are the same.
func (h *holes) over(from, to float64) (hole, bool) {
	for _, x := range h.list {
		if x.from < to && x.to > from {
			return x, true
		}
	}
	return hole{}, false
}

// in returns the hole that leaves a check without an answer: at its place, or in the span whose extreme, crossing or
// smoothness it asks for. Means and shares tolerate a hole.
func (h *holes) in(spec *check.Spec, exit *check.Moment) (hole, bool) {
	if len(h.list) == 0 {
		return hole{}, false
	}
	switch kinds.Of(spec).Looks {
	case check.AtPlace:
		if spec.Turn != nil {
			return h.over(*spec.Turn, *spec.Turn)
		}
		return h.at(exit)
	case check.Throughout:
		if spec.From == nil {
			return h.list[0], true
		}
		return h.over(*spec.From, *spec.To)
	}
	return hole{}, false
}

func (h *holes) at(exit *check.Moment) (hole, bool) {
	if exit == nil {
		return hole{}, false
	}
	return h.over(exit.Turn, exit.Turn)
}
