package plan

import (
	"math"

	"halfturn/coach/aero"
)

// From returns the reference path as it is from the airspeed (kt) and altitude (ft) of an entry; nil when there is no
// path. The same bank and nose over the turn at another true airspeed take time in proportion to it, and distances and
// heights in proportion to its square: the turn rate is g·n·sin(bank)/V, and drag follows the calibrated airspeed.
func (p *Plan) From(airspeed, altitude float64) *aero.Path {
	path := p.Reference()
	if path == nil || airspeed <= 0 {
		return path
	}
	ratio, calibrated := p.ratio(airspeed, altitude), airspeed/p.Aircraft.Entry
	out := &aero.Path{Nose: path.Nose, Duration: path.Duration * ratio, Points: make([]aero.Point, len(path.Points))}
	for i, q := range path.Points {
		q.Time *= ratio
		q.Airspeed *= calibrated
		q.StallMargin *= calibrated
		q.TrueAirspeed *= ratio
		for _, length := range []*float64{&q.Height, &q.Radius, &q.Along, &q.Across} {
			*length *= ratio * ratio
		}
		out.Points[i] = q
	}
	return out
}

// EntrySpeed returns the airspeed at which a leg is to be begun, kt; 0 where it is not known, or any will do.
func (p *Plan) EntrySpeed() float64 {
	if p.Card.Reference.Own {
		return 0
	}
	return p.Aircraft.Entry
}

// Duration predicts the time of a leg from the airspeed (kt) and altitude (ft) of its entry, s; NaN when there is
// no path.
func (p *Plan) Duration(airspeed, altitude float64) float64 {
	if p.Path == nil {
		return math.NaN()
	}
	if airspeed <= 0 {
		return p.Path.Duration
	}
	return p.Path.Duration * p.ratio(airspeed, altitude)
}

// ratio is the true airspeed of an entry over that of the reference path.
func (p *Plan) ratio(airspeed, altitude float64) float64 {
	return aero.TrueAirspeed(airspeed, altitude) / aero.TrueAirspeed(p.Aircraft.Entry, Altitude)
}
