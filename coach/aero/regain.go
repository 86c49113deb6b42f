package aero

import (
	"cmp"
	"math"

	"halfturn/stream/phrase"
)

// A Solution is how a program is flown so that it does what was asked.
type Solution struct {
	Program Program // with its nose-down part as deep as it must be
	Power   float64 // thrust at entry over that of level flight there
	Path    *Path
}

// Regain finds how a program that gives back its height is flown: the highest nose that slows to an airspeed (kt CAS),
// the depth of its nose-down part that ends it at the entry height, and the power that ends it at the entry airspeed,
// set before the entry and then left alone. Slow flight at a steep nose costs an airplane less or more energy than
// level flight at entry speed would; only the power set for it closes the loop. Recorded pilots of five classes of
// airplane set 0.85 to 1.05 of the power for level flight at entry, and their energy at every quarter of the turn is
// then met within 5 % of the height gained.
//
// A nose other than 0 (° above level trim) is flown as it is, and the airspeed not looked at.
//
// It fails, saying why, where SolveNose or Balance does, or when the airplane would stall or pass its load limit.
func Regain(p Program, a Airplane, e Entry, slowest, nose float64) (*Solution, error) {
	r := regaining{p: p, a: a, e: e, slowest: slowest, stated: nose}
	s, found, err := r.first()
	for _, lighter := range []float64{0.3, 0.15, 0.05} { // a steep dive may be too much for the usual pull-out
		if err == nil || lighter >= cmp.Or(p.Level, level) {
			continue
		}
		r.p.Level = lighter
		var lightest error
		if s, found, lightest = r.first(); lightest == nil {
			err = nil
		}
	}
	if err != nil {
		return nil, err
	}
	if s, err = r.lighten(s, found); err != nil {
		return nil, err
	}
	return s, within(s.Path, a)
}

// first finds a flight that does what is asked, whatever its loads.
func (r *regaining) first() (*Solution, unknowns, error) {
	nose := r.stated
	if nose == 0 {
		var err error
		if nose, err = searchNose(r.p, r.a, r.e, r.slowest, r.p.downFrom()); err != nil {
			return nil, unknowns{}, err
		}
	}
	f, err := balance(r.p, r.a, r.e, nose)
	if err != nil {
		return nil, unknowns{}, err
	}
	return r.solve(unknowns{nose, f, 1})
}

// The pull-out is not to be heavier than this, g, or than the pull by this factor. Recorded good wing-overs pull out at
// 1.5 to 2.7 g; the bound is common practice, no source.
const (
	heaviestOut = 2.5
	overPull    = 1.2
)

// lighten spreads the pull-out over more of the roll-out where it would be too heavy.
func (r *regaining) lighten(s *Solution, u unknowns) (*Solution, error) {
	if out, bound := pulls(s.Path); out <= bound {
		return s, nil
	}
	low, high := 0.05, cmp.Or(r.p.Level, level)
	for range 5 {
		r.p.Level = (low + high) / 2
		t, v, err := r.solve(u)
		if err != nil {
			return nil, err
		}
		if out, bound := pulls(t.Path); out > bound {
			high = r.p.Level
		} else {
			low = r.p.Level
		}
		s, u = t, v
	}
	return s, nil
}

// pulls returns the highest load factor of the second half of a path, and what it is not to pass.
func pulls(p *Path) (out, bound float64) {
	half := p.Points[len(p.Points)-1].Turn / 2
	in := 0.0
	for i := range p.Points {
		if q := &p.Points[i]; q.Turn <= half {
			in = math.Max(in, q.LoadFactor)
		} else {
			out = math.Max(out, q.LoadFactor)
		}
	}
	return out, math.Max(heaviestOut, overPull*in)
}

// unknowns are the highest nose (°), the depth of the nose-down part over that of the program, and the power.
type unknowns [3]float64

// regaining is what Regain looks for.
type regaining struct {
	p       Program
	a       Airplane
	e       Entry
	slowest float64
	stated  float64
}

// misses are what a flight misses of what is asked: the nose or the lowest airspeed, the height and the airspeed of
// the end; each in units of what does not matter any more.
func (r *regaining) misses(u unknowns) (*Solution, unknowns, error) {
	e := r.e
	e.Power = u[2]
	s := &Solution{Program: deepened(r.p, u[1]), Power: u[2]}
	path, err := Fly(s.Program, r.a, e, u[0])
	if err != nil {
		return nil, unknowns{}, err
	}
	s.Path = path
	end := &path.Points[len(path.Points)-1]
	first := (path.Slowest().Airspeed - r.slowest) / 0.05
	if r.stated != 0 {
		first = (u[0] - r.stated) / 0.01
	}
	return s, unknowns{first, end.Height, (end.Airspeed - e.Airspeed) / 0.05}, nil
}

// solve is Newton's method from a flight that is near already, with half a step where a whole one cannot be flown.
func (r *regaining) solve(u unknowns) (*Solution, unknowns, error) {
	s, miss, err := r.misses(u)
	for range 12 {
		if err != nil {
			return nil, u, err
		}
		if size(miss) <= 1 {
			return s, u, nil
		}
		var slopes [3]unknowns // slopes[i] is how the misses go with unknown i
		for i, d := range [...]float64{0.2, 0.02, 0.02} {
			near := u
			near[i] += d
			_, m, err := r.misses(near)
			if err != nil {
				return nil, u, err
			}
			for j := range m {
				slopes[i][j] = (m[j] - miss[j]) / d
			}
		}
		step, ok := linear(slopes, miss)
		if !ok {
			break
		}
		for range 6 {
			next := u
			for i := range next {
				next[i] -= step[i]
				step[i] /= 2
			}
			next[1] = math.Max(0, next[1])
			next[2] = math.Max(0.05, next[2])
			var t *Solution
			var m unknowns
			if t, m, err = r.misses(next); err == nil && size(m) < size(miss) {
				u, s, miss = next, t, m
				break
			}
		}
	}
	if err == nil {
		err = noPath(phrase.PathNoPower.Of())
	}
	return nil, u, err
}

func size(u unknowns) float64 {
	return math.Max(math.Abs(u[0]), math.Max(math.Abs(u[1]), math.Abs(u[2])))
}

// linear solves the three equations Σ columns[i]·x[i] = y by Cramer's rule.
func linear(columns [3]unknowns, y unknowns) (x unknowns, ok bool) {
	det := func(c [3]unknowns) float64 {
		return c[0][0]*(c[1][1]*c[2][2]-c[1][2]*c[2][1]) - c[1][0]*(c[0][1]*c[2][2]-c[0][2]*c[2][1]) +
			c[2][0]*(c[0][1]*c[1][2]-c[0][2]*c[1][1])
	}
	whole := det(columns)
	if math.Abs(whole) < 1e-12 {
		return x, false
	}
	for i := range x {
		c := columns
		c[i] = y
		x[i] = det(c) / whole
	}
	return x, true
}
