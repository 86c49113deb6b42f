package leg

import (
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/ground"
	"halfturn/coach/kinds"
	"halfturn/coach/maneuver"
	"halfturn/stream"
)

// kindOf are the kinds of check that find what a maneuver is flown about.
var kindOf = map[string]string{maneuver.Center: "round", maneuver.Pylon: "sight"}

// heldShare is the share of the steepest bank below which the bank may be coming off for good (common practice, no
// source).
const heldShare = 0.6

// SpotSoFar finds the point on the ground that the leg is flown about by what was flown of it so far, up to where the
// bank was last held: a roll-out is flown about nothing.
func (l *Leg) SpotSoFar() (ground.Spot, bool) { return l.spot(l.held) }

// spot finds the point on the ground that the leg was flown about up to a turn angle, °; ok is false where there is
// none.
func (l *Leg) spot(upTo float64) (ground.Spot, bool) {
	card := l.plan.Card
	for i := range card.Checks {
		k := &card.Checks[i]
		if k.Kind != kindOf[card.Ground.About] || k.From == nil || k.To == nil {
			continue
		}
		find := kinds.Center
		if card.Ground.About == maneuver.Pylon {
			find = kinds.PylonOf
		}
		if spot, ok := find(&l.Facts, *k.From, math.Min(*k.To, upTo)); ok {
			return spot, true
		}
	}
	return ground.Spot{}, false
}

// about records the point on the ground that the leg was flown about; nil where there is none.
func (l *Leg) about() *coach.About {
	if spot, ok := l.spot(l.Farthest - kinds.RollsOut); ok {
		return l.record(spot)
	}
	return nil
}

// record writes a point down as it is kept.
func (l *Leg) record(spot ground.Spot) *coach.About {
	var s stream.Sample
	s.Put(stream.Latitude, spot.Lat)
	s.Put(stream.Longitude, spot.Lon)
	out := &coach.About{
		What:      l.plan.Card.Ground.About,
		Chosen:    l.Facts.Chosen != nil,
		Latitude:  coach.Round(spot.Lat, 7),
		Longitude: coach.Round(spot.Lon, 7),
		Radius:    coach.Round(spot.Radius, 0),
		Within:    coach.Round(spot.Within, 0),
	}
	axes := l.Axes()
	if along, across, ok := axes.Locate(&s); ok {
		out.Along, out.Across = coach.Round(along, 0), coach.Round(across, 0)
	}
	if north, east, ok := l.Facts.Way().Wind(); ok {
		out.Wind = ground.WindOf(north, east)
	}
	return out
}

// noteAbove keeps how far the flight is above the pivotal altitude at the entries of the trace that are new.
func (l *Leg) noteAbove() {
	if len(l.above) >= l.drawn {
		return
	}
	off, ok := check.OffPivotalAt(l.Cur)
	if !ok {
		off = math.NaN()
	}
	for len(l.above) < l.drawn {
		l.above = append(l.above, float32(off))
	}
}

// offs adds to the trace of a record how far it was off what the leg was flown about. The trace may be shared with
// others, so it is one of its own.
func (l *Leg) offs(done *coach.Leg) {
	switch about := l.plan.Card.Ground.About; {
	case about == maneuver.Pylon:
		done.Trace = slices.Clone(done.Trace)
		for i := range done.Trace {
			if off := float64(l.above[i]); !math.IsNaN(off) {
				done.Trace[i].Off = new(coach.Round(off, offDigits))
			}
		}
	case about == maneuver.Center && done.About != nil && done.About.Radius > 0:
		done.Trace = slices.Clone(done.Trace)
		for i := range done.Trace {
			if x := &done.Trace[i]; x.Along != nil && x.Across != nil {
				away := math.Hypot(*x.Along-done.About.Along, *x.Across-done.About.Across)
				x.Off = new(coach.Round(100*(away/done.About.Radius-1), offDigits))
			}
		}
	}
}
