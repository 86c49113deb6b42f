package timebase

import (
	"math"

	"halfturn/stream"
)

// A pacer finds a simulator that runs faster or slower than the clock, in streams without its time: then the way
// between two positions is not that which the ground speed says. A stream whose speed and positions never agreed, as
// with a wrong unit, says nothing about that. Both are of the ground, so that wind does not matter.
type pacer struct {
	trusted bool // they have agreed
	last    picture
	from    picture // where the stretch began, at a change of position; empty before
	time    float64 // s of the stretch
	way     float64 // m of it by the ground speed
	slow    bool    // it was so in the stretch before; one alone may be a stutter
}

// The limits were set by flights of the built-in aircraft; common practice, no source. A position in steps of 11 m is
// off by a sixth at most over the shortest way, and in a turn of 40° a second the chord is a twentieth shorter.
const (
	shortestTime = 1.5  // s of a stretch
	shortestWay  = 60.0 // m
	agrees       = 1.3  // speed and positions agree within this factor
	differs      = 1.6  // the simulator runs faster or slower by more than this

	knot = 1852.0 / 3600 // m/s
)

// add takes a sample, and reports whether the simulator runs at another pace than the clock.
func (c *pacer) add(p *picture, step float64) (off bool) {
	const needs = placeSet | 1<<stream.GroundSpeed
	if p.has&needs != needs {
		c.cut()
		return false
	}
	c.time += step
	c.way += p.values[atGroundSpeed] * knot * step
	if !p.placeDiffers(&c.last) && c.last.has != 0 {
		return false
	}
	c.last = *p
	if c.from.has != 0 && (c.time < shortestTime || c.way < shortestWay) {
		return false
	}
	begun, ratio := c.from.has != 0, p.apart(&c.from)/c.way
	c.from, c.time, c.way = *p, 0, 0
	if !begun {
		return false
	}
	if ratio < agrees && ratio > 1/agrees {
		c.trusted = true
	}
	slow := c.slow
	c.slow = ratio < 1/differs
	return c.trusted && (ratio > differs || slow && c.slow)
}

// cut begins a new stretch with the next sample: what comes does not continue the flight.
func (c *pacer) cut() { *c = pacer{trusted: c.trusted} }

// apart is the distance of two positions that are near each other, m.
func (p *picture) apart(q *picture) float64 {
	north := p.values[atLatitude] - q.values[atLatitude]
	east := stream.Wrap180(p.values[atLongitude]-q.values[atLongitude]) *
		math.Cos(p.values[atLatitude]*math.Pi/180)
	return metersPerDegree * math.Hypot(north, east)
}
