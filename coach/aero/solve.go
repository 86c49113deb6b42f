package aero

import (
	"math"
	"slices"

	"halfturn/stream/phrase"
)

// The highest nose SolveNose will ask for, ° above level trim. Steeper is not this kind of
// maneuver, and a point mass says little about it.
const steepest = 60.0

// SolveNose finds the highest nose angle (° above level trim) at which the lowest airspeed of
// the program is the wanted apex airspeed (kt CAS). In a wing-over that is near 90° of turn, in a
// chandelle at its end.
//
// It fails when no nose angle up to 60° gets there, saying how slow or fast the limit is,
// and when the airplane would stall or pass its load limit on the way, saying where.
func SolveNose(p Program, a Airplane, e Entry, apex float64) (float64, error) {
	nose, err := searchNose(p, a, e, apex, p.Turn)
	if err != nil {
		return 0, err
	}
	_, err = FlyWithin(p, a, e, nose)
	return nose, err
}

// searchNose is SolveNose whatever the limits of the airplane, and whatever comes after a turn angle.
func searchNose(p Program, a Airplane, e Entry, apex, until float64) (float64, error) {
	c, err := p.compile()
	if err != nil {
		return 0, err
	}
	if _, err := newModel(c, a, e, 0); err != nil {
		return 0, err
	}
	if !(apex > 0 && apex < e.Airspeed) {
		return 0, noPath(phrase.PathApex.Of(phrase.Number("apex", apex, -1, "kt"), phrase.Number("entry", e.Airspeed,
			-1, "kt")))
	}
	if a.Stall > 0 && apex <= a.Stall*0.5 {
		return 0, noPath(phrase.PathApexStall.Of(phrase.Number("apex", apex, -1, "kt"), phrase.Number("stall",
			a.Stall, -1, "kt")))
	}
	return search(func(nose float64) (*Path, error) {
		m, err := newModel(c, a, e, nose)
		if err != nil {
			return nil, err
		}
		return m.fly(until)
	}, apex)
}

// bracket is two nose angles and how far the lowest airspeed there is above the apex, kt.
type bracket struct{ low, high, atLow, atHigh float64 }

// search steps the nose up until airspeed falls to the apex and then narrows the bracket.
func search(try func(float64) (*Path, error), apex float64) (float64, error) {
	b := bracket{low: math.NaN()}
	var limit error
	for nose := 0.0; nose <= steepest; nose += 6 {
		path, err := try(nose)
		if err != nil {
			limit = err
			if !math.IsNaN(b.low) {
				break
			}
			continue
		}
		over := path.Slowest().Airspeed - apex
		if over <= 0 {
			b.high, b.atHigh = nose, over
			break
		}
		b.low, b.atLow = nose, over
	}
	switch {
	case math.IsNaN(b.low) && b.high > 0 || b.atHigh < 0 && b.high == 0:
		return 0, noPath(phrase.PathTooSlow.Of(phrase.Number("apex", apex, 0, "kt"), phrase.Number("nose", b.high, 0,
			"°")))
	case b.atHigh < 0:
		return b.narrow(try, apex), nil
	case math.IsNaN(b.low):
		return 0, limit
	case limit == nil:
		limit = phrase.PathNoseLimit.Error(phrase.Number("nose", steepest, 0, "°"))
	}
	return 0, noPath(phrase.PathApexFar.Of(phrase.Number("apex", apex, 0, "kt"), phrase.Number("nose", b.low, 0, "°"),
		phrase.Number("least", b.atLow+apex, 0, "kt"), phrase.Part("why", phrase.OfError(limit))))
}

// narrow finds the nose angle to about 0.01° by false position (Illinois).
func (b bracket) narrow(try func(float64) (*Path, error), apex float64) float64 {
	mid := b.low
	for range 20 {
		mid = b.low + (b.high-b.low)*b.atLow/(b.atLow-b.atHigh)
		path, err := try(mid)
		over := -1.0
		if err == nil {
			over = path.Slowest().Airspeed - apex
		}
		switch {
		case math.Abs(over) < 0.01:
			return mid
		case over > 0:
			b.low, b.atLow, b.atHigh = mid, over, b.atHigh/2
		default:
			b.high, b.atHigh, b.atLow = mid, over, b.atLow/2
		}
	}
	return mid
}

// Balance returns the program with its nose-down part deepened or eased so that the path ends
// at the entry height. How deep the nose must go to give back the height depends on the
// airplane; a pilot sees it outside and adjusts. Programs without a nose-down part come back
// unchanged. It fails when no depth between none and twice the highest nose does it.
func Balance(p Program, a Airplane, e Entry, nose float64) (Program, error) {
	f, err := balance(p, a, e, nose)
	return deepened(p, f), err
}

// down reports whether a knot belongs to the nose-down part.
func (p *Program) down(k Knot) bool { return k.Nose < 0 && k.Turn < p.Turn }

// downFrom returns the turn angle of the first knot of the nose-down part, °; the full turn where there is none. The
// airspeed is lowest before it.
func (p *Program) downFrom() float64 {
	for _, k := range p.Knots {
		if p.down(k) {
			return k.Turn
		}
	}
	return p.Turn
}

// deepened returns the program with its nose-down part deepened by a factor, as far as it may go.
func deepened(p Program, f float64) Program {
	q := p
	q.Knots = slices.Clone(p.Knots)
	for i, k := range q.Knots {
		if p.down(k) {
			q.Knots[i].Nose = math.Max(lowestShare, k.Nose*f)
		}
	}
	return q
}

// balance finds the factor by which Balance deepens the nose-down part.
func balance(p Program, a Airplane, e Entry, nose float64) (float64, error) {
	lowest := 0.0
	for _, k := range p.Knots {
		if p.down(k) {
			lowest = math.Min(lowest, k.Nose)
		}
	}
	if lowest == 0 || nose <= 0 {
		return 1, nil
	}
	high, low := 0.2, lowestShare/lowest // factors: too little, too much
	for range 24 {
		mid := (high + low) / 2
		path, err := Fly(deepened(p, mid), a, e, nose)
		switch {
		case err == nil && math.Abs(path.Points[len(path.Points)-1].Height) < 1:
			return mid, nil
		case err == nil && path.Points[len(path.Points)-1].Height > 0:
			high = mid
		default:
			low = mid
		}
	}
	return 1, noPath(phrase.PathNoDepth.Of())
}

// within says which limit of the airplane a path passes.
func within(path *Path, a Airplane) error {
	if s := path.NearestStall(); a.Stall > 0 && s.StallMargin < 0 {
		return noPath(phrase.PathStalls.Of(phrase.Number("turn", s.Turn, 0, "°"), phrase.Number("airspeed",
			s.Airspeed, 0, "kt"),
			phrase.Number("load", s.LoadFactor, 1, "g"), phrase.Number("stall", s.Airspeed-s.StallMargin, 0, "kt")))
	}
	if h := path.Heaviest(); a.LoadLimit > 0 && h.LoadFactor > a.LoadLimit {
		return noPath(phrase.PathLoad.Of(phrase.Number("load", h.LoadFactor, 1, "g"), phrase.Number("turn", h.Turn, 0,
			"°"),
			phrase.Number("most", a.LoadLimit, 1, "g")))
	}
	return nil
}
