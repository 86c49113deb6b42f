package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/coach/ground"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

const roundSays = "largest departure of the distance from the point that is flown round, over its mean"

var roundKind = &check.Kind{
	Name:   "round",
	Says:   roundSays,
	Needs:  []string{"from", "to"},
	Allows: []string{},
	Valid:  anything,
	Where:  as(roundSays),
	Unit:   in("ratio"),
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &round{about: newAbout(s, f)}
	},
	Bands:  check.Tolerances,
	Looks:  check.OnAverage,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.WithPlace,
	Counts: check.NoCount,
}

// about is the part of a judge that looks at what a turn is flown about. The roll-out at its end leaves that, and is no
// part of it.
type about struct {
	facts    *check.Facts
	from, to float64
	seen     bool
	farthest float64
}

// RollsOut is how much of a turn is its roll-out, which is flown about nothing, ° (common practice, no source: half of
// a steep bank).
const RollsOut = 25.0

func newAbout(s *check.Spec, f *check.Facts) about { return about{facts: f, from: *s.From, to: *s.To} }

// Step takes the next moment of the leg.
func (a *about) Step(m *check.Moment) {
	a.seen = a.seen || m.Sample.Has.Has(stream.Latitude)
	a.farthest = math.Max(a.farthest, m.Turn)
	a.facts.Way().Add(&m.Sample, m.Turn)
}

// end is where the part that is judged ends, °.
func (a *about) end() float64 { return math.Min(a.to, a.farthest-RollsOut) }

// none says why there is no point to measure from.
func (a *about) none() check.Measure {
	if !a.seen {
		return check.None(phrase.Lacks.Of(phrase.Part("what", phrase.Plain(stream.Latitude.String()))))
	}
	return check.None(phrase.NoSpot.Of())
}

// round measures how far a turn about a point was from keeping one distance. The point is the one that was chosen, else
// the center of what was flown.
type round struct{ about }

func (r *round) Measure(*check.Moment) check.Measure {
	to := r.end()
	center, ok := Center(r.facts, r.from, to)
	if !ok {
		return r.none()
	}
	d := r.facts.Way().Uneven(center, r.from, to)
	return check.Found(d.Value, d.Turn)
}

// Center returns the point that a turn was flown round between two turn angles, °.
func Center(f *check.Facts, from, to float64) (ground.Spot, bool) {
	if f.Chosen != nil {
		return f.Way().Given(*f.Chosen, from, to)
	}
	return f.Way().Center(from, to)
}
