package leg

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/ground"
	"halfturn/coach/kinds"
	"halfturn/coach/maneuver"
	"halfturn/stream"
)

// kindOf are the kinds of check that find what a maneuver is flown about.
var kindOf = map[string]string{maneuver.Center: "round", maneuver.Pylon: "sight"}

// rollsOut is how much of a turn is its roll-out, which is flown about nothing, ° (common practice, no source).
const rollsOut = 25.0

// about records the point on the ground that the leg was flown about; nil where there is none.
func (l *Leg) about() *coach.About {
	card := l.plan.Card
	for i := range card.Checks {
		k := &card.Checks[i]
		if k.Kind != kindOf[card.Ground.About] || k.From == nil || k.To == nil {
			continue
		}
		from, to := *k.From, math.Min(*k.To, l.Farthest-rollsOut)
		find := kinds.Center
		if card.Ground.About == maneuver.Pylon {
			find = kinds.PylonOf
		}
		if spot, ok := find(&l.Facts, from, to); ok {
			return l.record(spot)
		}
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
