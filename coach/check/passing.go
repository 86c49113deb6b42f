package check

import (
	"math"

	"halfturn/stream"
)

// A Passing finds the moment at which a turn angle is passed, once. Between the two moments
// around it every channel follows a monotone cubic through the neighbors on both sides
// (Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5, 1984: the slope at a moment is the
// harmonic mean of those beside it, 0 at a peak), not a straight line: at five samples a second
// a peak lies between two of them. It waits for the moment after; until that has come, the
// slope there is that of the last step.
type Passing struct {
	turn   float64
	around *[4]Moment // two before the turn angle, two from it on; nil far from it
	n      int        // how many of them there are
	passed bool
	done   bool // all four were there, and found is the passing
	found  Moment
	room   *room                        // nil: it has its own
	last   struct{ turn, time float64 } // of the moment taken last
}

// A room is where the passings of a leg keep the moments around their turn angles. Few are near theirs at a time, so it
// is passed on from one to the next.
type room struct{ spare []*[4]Moment }

func (r *room) take() *[4]Moment {
	n := len(r.spare) - 1
	if n < 0 {
		return new([4]Moment)
	}
	around := r.spare[n]
	r.spare = r.spare[:n]
	return around
}

// nearby is how far before its turn angle moments begin to be kept, °: more than any airplane
// turns between two samples of a stream that can be graded.
const nearby = 30

// Await makes p look for a turn angle.
func (p *Passing) Await(turn float64) {
	p.turn, p.n, p.passed, p.done = turn, 0, false, false
	if p.room == nil && p.around == nil {
		p.around = new([4]Moment)
	}
	p.last.turn, p.last.time = math.NaN(), math.NaN()
}

// Turn returns the turn angle that is looked for, °.
func (p *Passing) Turn() float64 { return p.turn }

// Step takes the next moment of the leg. The same again is passed over: checks that look at the same turn angle share a
// Passing.
func (p *Passing) Step(m *Moment) {
	turn, time := m.Turn, m.Time()
	if p.done || turn == p.last.turn && time == p.last.time {
		return
	}
	p.last.turn, p.last.time = turn, time
	if !p.passed && turn < p.turn-nearby {
		return
	}
	if p.around == nil {
		p.around = p.room.take()
	}
	switch {
	case p.passed:
		p.around[3], p.n = *m, 4
		p.found, p.done = p.between(), true
		if p.room != nil {
			p.room.spare, p.around = append(p.room.spare, p.around), nil
		}
	case p.n > 0 && p.around[p.n-1].Turn < p.turn && m.Turn >= p.turn:
		if p.n == 1 { // nothing came before: use the first moment
			p.around[1] = p.around[0]
		}
		p.around[2] = *m
		p.n, p.passed = 3, true
	case p.n == 2:
		p.around[0], p.around[1] = p.around[1], *m
	default:
		p.around[p.n] = *m
		p.n++
	}
}

// Passed reports whether the turn angle has been passed.
func (p *Passing) Passed() bool { return p.passed }

// At returns the moment of passing; ok is false while the turn angle has not been passed.
func (p *Passing) At() (m Moment, ok bool) {
	switch {
	case !p.passed:
		return m, false
	case p.done:
		return p.found, true
	}
	return p.between(), true
}

// between works out the moment of passing from those around it.
func (p *Passing) between() (m Moment) {
	a, b := &p.around[1], &p.around[2]
	f := (p.turn - a.Turn) / (b.Turn - a.Turn)
	m.Lerp(a, b, f)
	m.Turn = p.turn
	var x [4]float64
	for i := range p.n {
		x[i] = p.around[i].Turn
	}
	for c := stream.Pitch; c <= stream.YawRate; c++ {
		if m.Sample.Has.Has(c) && !c.Info().Circular && c != stream.Longitude {
			p.curve(&m, c, &x, f)
		}
	}
	return m
}

// curve bends one channel: the cubic Hermite form over the share f of the step.
func (p *Passing) curve(m *Moment, c stream.Channel, x *[4]float64, f float64) {
	v := func(i int) float64 { return p.around[i].Sample.Value(c) }
	has := func(i int) bool { return i < p.n && p.around[i].Sample.Has.Has(c) }
	h := x[2] - x[1]
	step := (v(2) - v(1)) / h
	before, after := step, step
	if has(0) && x[1] > x[0] {
		before = harmonic((v(1)-v(0))/(x[1]-x[0]), step)
	}
	if has(3) && x[3] > x[2] {
		after = harmonic(step, (v(3)-v(2))/(x[3]-x[2]))
	}
	if c == stream.Bank && math.Abs(v(2)-v(1)) > 180 {
		return // over the back: the straight way round stands
	}
	g := 1 - f
	m.Sample.Put(c, v(1)*g*g*(1+2*f)+v(2)*f*f*(1+2*g)+h*f*g*(before*g-after*f))
}

// harmonic is the slope between two, 0 where they differ in sign.
func harmonic(a, b float64) float64 {
	if a*b <= 0 {
		return 0
	}
	return 2 * a * b / (a + b)
}
