package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

const gainSays = "height gained from entry to exit over what the reference path gains"

var gainKind = &check.Kind{
	Name:   "gain",
	Says:   gainSays,
	Needs:  []string{},
	Allows: []string{},
	Valid:  anything,
	Where:  as(gainSays),
	Unit:   in("ratio"),
	Leg: func(_ *check.Spec, f *check.Facts) check.Judge {
		return &gain{get: check.Read(check.Climb, f), facts: f}
	},
	Bands:  check.Tolerances,
	Looks:  check.AtPlace,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// gain measures the height gained over what this aircraft gains on its reference path, from the same entry speed to the
// same exit speed with its power left alone.
type gain struct {
	get   check.Reader
	facts *check.Facts
}

func (*gain) Step(*check.Moment) {}

func (g *gain) Measure(exit *check.Moment) check.Measure {
	if exit == nil {
		return check.None(phrase.NoExit.Of())
	}
	if !(g.facts.Climb > 0) { // also where it is not known
		return check.None(phrase.NoPath.Of())
	}
	climb, ok := g.get(exit)
	if !ok {
		return check.Absent("altitude", g.facts, false)
	}
	return check.Found(climb/g.facts.Climb, math.NaN())
}
